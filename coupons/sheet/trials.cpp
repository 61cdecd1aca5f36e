#include "sheet/trials.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/advice.hpp"

namespace fitwright {
namespace {

using namespace sheet_style;

constexpr double tick_box_mm = 5.4, tick_apart_mm = 1.4, row_mm = 6.6;
constexpr double id_mm = 24, value_mm = 24;  ///< columns before the boxes
constexpr double group_gap_mm = 7, title_mm = 5.4, head_mm = 10.5;
constexpr double written_mm = 16;  ///< box for a measured clearance or a number of times
constexpr int grades = 5;

/// What is ticked for one part in one copy.
struct Group {
  std::string name;
};

/// A column of boxes to tick.
struct Tick {
  std::string head;
  double width_mm = tick_box_mm + tick_apart_mm;
};

/// A row: the engraved name, what is drawn there.
struct Row {
  std::string id;
  std::vector<std::string> drawn;
};

struct Table {
  std::string title, hint;
  std::vector<std::string> drawn_heads;
  std::vector<Tick> ticks;
  std::string written_head;
  std::vector<Row> rows;
  [[nodiscard]] double before_mm() const { return id_mm + value_mm * static_cast<double>(drawn_heads.size()); }
  [[nodiscard]] double group_mm() const {
    double width = written_mm + 2;
    for (const Tick& tick : ticks) width += tick.width_mm;
    return width;
  }
};

void scale(Page& page) {
  page.title(tr("The five grades"), tr("by hand, straight, as the part is meant to go in"));
  constexpr double gap = 2.5, high = 18.5, pad = 1.6, digit_mm = 6.5;
  const double width = (page.width() - (grades - 1) * gap) / grades;
  double x = page.left();
  for (const GradeWords& grade : grade_words()) {
    Canvas& canvas = page.canvas;
    canvas.box({x, page.y}, width, high, {rule, 0.25});
    canvas.text({x + pad, page.y + 0.9}, std::to_string(grade.grade), {15, true});
    canvas.text({x + pad + digit_mm, page.y + 1}, tr(grade.felt), wrapped(strong, width - pad - digit_mm));
    canvas.text({x + pad, page.y + 8.2}, tr(grade.how), wrapped(small, width - 2 * pad));
    x += width + gap;
  }
  page.y += high + gap_mm;
}

double group_x(const Page& page, const Table& table, std::size_t group) {
  return page.left() + table.before_mm() + static_cast<double>(group) * (table.group_mm() + group_gap_mm);
}

void head(Page& page, const Table& table, const std::vector<Group>& groups, bool continued) {
  page.title(continued ? said("{}, continued", table.title) : table.title, table.hint);
  Canvas& canvas = page.canvas;
  const double upper = page.y + 3.6, lower = page.y + 8.4;
  canvas.on_baseline({page.left(), lower}, tr("engraved"), small);
  double x = page.left() + id_mm;
  for (const std::string& words : table.drawn_heads) {
    canvas.on_baseline({x, lower}, words, small);
    x += value_mm;
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    x = group_x(page, table, g);
    canvas.on_baseline({x, upper}, groups[g].name, strong);
    for (const Tick& tick : table.ticks) {
      canvas.on_baseline({x + (tick.width_mm - tick_apart_mm) / 2, lower}, tick.head,
                         anchored(tick.head.size() > 1 ? small : strong, Anchor::middle));
      x += tick.width_mm;
    }
    canvas.on_baseline({x + 2 + written_mm / 2, lower}, table.written_head, anchored(small, Anchor::middle));
  }
  page.y += head_mm;
  canvas.line({page.left(), page.y - 0.8}, {page.right(), page.y - 0.8}, 0.3);
}

void draw_row(Page& page, const Table& table, const std::vector<Group>& groups, const Row& row) {
  Canvas& canvas = page.canvas;
  const double baseline = page.y + tick_box_mm / 2 + 1.2;
  canvas.on_baseline({page.left(), baseline}, row.id, {10, true});
  double x = page.left() + id_mm;
  for (const std::string& value : row.drawn) {
    canvas.on_baseline({x, baseline}, value, {9.5});
    x += value_mm;
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    x = group_x(page, table, g);
    for (const Tick& tick : table.ticks) {
      const double box = std::min(tick.width_mm - tick_apart_mm, tick_box_mm),
                   lead = (tick.width_mm - tick_apart_mm - box) / 2;
      canvas.box({x + lead, page.y}, box, tick_box_mm);
      x += tick.width_mm;
    }
    canvas.box({x + 2, page.y}, written_mm, tick_box_mm, {rule, 0.2, true});
  }
  page.y += row_mm;
}

/// As many groups side by side as there is room for, the others below.
void draw(Page& page, const Table& table, const std::vector<Group>& groups) {
  const double room = page.width() - table.before_mm();
  const auto abreast =
      static_cast<std::size_t>(std::max(1.0, (room + group_gap_mm) / (table.group_mm() + group_gap_mm)));
  for (std::size_t first = 0; first < groups.size(); first += abreast) {
    const std::vector<Group> some(
        groups.begin() + static_cast<std::ptrdiff_t>(first),
        groups.begin() + static_cast<std::ptrdiff_t>(std::min(groups.size(), first + abreast)));
    const double whole = title_mm + head_mm + static_cast<double>(table.rows.size()) * row_mm;
    if (first > 0 && page.room() < whole + gap_mm)
      page.turn();
    else if (first > 0)
      page.y += gap_mm;
    head(page, table, some, false);
    for (const Row& row : table.rows) {
      if (page.room() < row_mm) {
        page.turn();
        head(page, table, some, true);
      }
      draw_row(page, table, some, row);
    }
  }
}

std::string clearance_words(double mm) { return (mm > 0 ? "+" : "") + fixed(mm, 3); }

Table fit_table(const Coupon& coupon) {
  Table table{tr("Trials"),          tr("tick one grade; the measured clearance only if you read both parts"),
              {tr("clearance, mm")}, {},
              tr("measured"),        {}};
  for (int grade = 0; grade < grades; ++grade) table.ticks.push_back({std::to_string(grade)});
  const auto& places = coupon.trials.places;
  for (auto place = places.rbegin(); place != places.rend(); ++place)
    table.rows.push_back({place->id, {clearance_words(place->clearance_mm)}});
  return table;
}

Table latch_table(const Coupon& coupon) {
  constexpr double worded_mm = 15;
  Table table{
      tr("Trials"),
      said("arms of {} mm; strain = 3 x thickness x undercut / (2 x length x length)",
           shortest(coupon.latches.front().length_mm)),
      {tr("thick, mm"), tr("undercut, mm"), tr("strain, %")},
      {{tr("snaps in"), worded_mm}, {tr("holds"), worded_mm}, {tr("whitens"), worded_mm}, {tr("breaks"), worded_mm}},
      tr("times"),
      {}};
  std::vector<LatchTrial> latches = coupon.latches;
  std::stable_sort(latches.begin(), latches.end(),
                   [](const LatchTrial& a, const LatchTrial& b) { return a.strain < b.strain; });
  for (const LatchTrial& latch : latches)
    table.rows.push_back(
        {latch.id, {shortest(latch.thickness_mm), shortest(latch.undercut_mm), fixed(100 * latch.strain, 2)}});
  return table;
}

}  // namespace

void trial_pages(Page& page, const Coupon& coupon, const SheetOptions& options) {
  const bool fits = !coupon.trials.places.empty();
  if (!fits && coupon.latches.empty()) return;
  page.turn();
  page.title(tr("Before the first trial"));
  page.ticks(before_trying(coupon));
  page.y += 2;
  for (const std::string& caution : trying_cautions(coupon)) {
    page.caution(caution);
    page.y += 1.5;
  }
  page.y += gap_mm - 1.5;
  if (fits) scale(page);
  std::vector<Group> groups;
  for (int copy = 1; copy <= options.copies; ++copy)
    if (coupon.trials.mates.empty())
      groups.push_back({said("Copy {}", copy)});
    else
      for (const std::string& mate : coupon.trials.mates) groups.push_back({said("Copy {}, {}", copy, mate)});
  draw(page, fits ? fit_table(coupon) : latch_table(coupon), groups);
  page.notes(tr("Notes: what went in, how it felt, what broke"));
}

}  // namespace fitwright
