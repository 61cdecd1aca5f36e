#include "sheet/table.hpp"

#include <algorithm>
#include <optional>

#include "base/number.hpp"
#include "base/words.hpp"
#include "sheet/words.hpp"

namespace fitwright {
namespace {

using namespace sheet_style;

constexpr double row_gap_mm = 0.6, weight_mm = write_mm + row_gap_mm;
constexpr double number_column_mm = 9, id_column_mm = 18, drawn_column_mm = 20, least_words_mm = 38;
constexpr double copy_gap_mm = 4, box_gap_mm = 0.8;
constexpr double least_box_mm = 14, most_box_mm = 22;
constexpr double group_mm = 6.5;  ///< line that names the tool
constexpr double title_mm = 5.4, head_mm = 10.5;
constexpr const char* weigh_label = "weigh";  ///< engraved on a block to be weighed

/// Columns of one table: some of the copies side by side.
struct Columns {
  int first_copy = 1, copies = 1, boxes = 3;
  double box_mm = most_box_mm;
  double words_x = 0, words_mm = 0, drawn_point_x = 0, boxes_x = 0;
  [[nodiscard]] double copy_mm() const { return boxes * (box_mm + box_gap_mm) - box_gap_mm; }
  [[nodiscard]] double box_x(int copy, int box) const {
    return boxes_x + copy * (copy_mm() + copy_gap_mm) + box * (box_mm + box_gap_mm);
  }
};

int boxes_for(const SheetOptions& options) { return options.repeats < 2 ? options.repeats : options.repeats + 1; }

/// How many copies fit side by side.
int copies_abreast(double room_mm, int boxes) {
  const double copy_mm = boxes * (least_box_mm + box_gap_mm) - box_gap_mm;
  return std::max(1, static_cast<int>((room_mm + copy_gap_mm) / (copy_mm + copy_gap_mm)));
}

Columns columns_for(const Page& page, int first_copy, int copies, int boxes) {
  Columns c;
  c.first_copy = first_copy, c.copies = copies, c.boxes = boxes;
  const double fixed_mm = number_column_mm + id_column_mm + drawn_column_mm;
  const double room = page.width() - fixed_mm - least_words_mm - (copies - 1) * copy_gap_mm;
  c.box_mm = std::min(most_box_mm, (room / copies + box_gap_mm) / boxes - box_gap_mm);
  c.boxes_x = page.right() - copies * c.copy_mm() - (copies - 1) * copy_gap_mm;
  c.words_x = page.left() + number_column_mm + id_column_mm;
  c.words_mm = c.boxes_x - drawn_column_mm - c.words_x;
  constexpr double after_point_mm = 9;  ///< three decimals and space to the boxes
  c.drawn_point_x = c.boxes_x - after_point_mm;
  return c;
}

std::string ordinal(int n) {
  return n == 1 ? said("{}st", n) : n == 2 ? said("{}nd", n) : n == 3 ? said("{}rd", n) : said("{}th", n);
}

void head(Page& page, const Columns& c, const SheetOptions& options, bool continued) {
  page.title(continued ? tr("Readings, mm, continued") : tr("Readings, mm"),
             std::string(tr("in this order the jaws change least")) +
                 (c.boxes > options.repeats
                      ? "     " + said("* only where two readings differ by more than {}", said_shortest(0.05))
                      : std::string()));
  Canvas& canvas = page.canvas;
  const double upper = page.y + 3.6, lower = page.y + 8.4;
  canvas.on_baseline({page.left(), lower}, "no.", small);
  canvas.on_baseline({page.left() + number_column_mm, lower}, "engraved", small);
  canvas.on_baseline({c.words_x, lower}, "what", small);
  canvas.on_baseline({c.drawn_point_x + 2, lower}, tr("drawn, mm"), anchored(small, Anchor::end));
  for (int copy = 0; copy < c.copies; ++copy) {
    const double x = c.box_x(copy, 0), end = x + c.copy_mm();
    const std::string name = said("Copy {}", c.first_copy + copy);
    canvas.on_baseline({x, upper}, name, strong);
    canvas.on_baseline({end - 2.5, upper}, "°", anchored(small, Anchor::start));
    canvas.line({end - 12, upper + 0.6}, {end - 2.8, upper + 0.6}, 0.15);
    canvas.on_baseline({end - 13, upper}, "turned", anchored(small, Anchor::end));
    for (int box = 0; box < c.boxes; ++box) {
      const bool extra = box >= options.repeats;
      canvas.on_baseline({c.box_x(copy, box) + c.box_mm / 2, lower}, ordinal(box + 1) + (extra ? " *" : ""),
                         anchored(extra ? small : strong, Anchor::middle));
    }
  }
  page.y += head_mm;
  canvas.line({page.left(), page.y - 0.8}, {page.right(), page.y - 0.8}, 0.3);
}

std::string group_words(Tool tool, bool first) {
  switch (tool) {
    case Tool::outside_jaws:
      return first ? tr("Outside jaws") : tr("Back to the outside jaws");
    case Tool::inside_jaws:
      return first ? tr("Inside jaws") : tr("Now the inside jaws");
    case Tool::shank:
      return tr("Graded drill shanks: the largest that enters by hand, no force");
  }
  return "";
}

void band_with(Page& page, const std::string& words) {
  page.canvas.box({page.left(), page.y}, page.width(), group_mm - 1, {plan_colour::ink, 0, false, true, band});
  page.canvas.on_baseline({page.left() + number_column_mm, page.y + 3.9}, words, strong);
  page.y += group_mm;
}

void group(Page& page, Tool tool, bool first) {
  const double top = page.y;
  band_with(page, group_words(tool, first));
  std::vector<PlanItem> mark;
  add_number(mark, {page.left() + 2.8, top + group_mm / 2 - 0.5}, 1.6, 0, tool, plan_colour::ink);
  page.canvas.paint(mark, {0, 0});
}

/// Decimal points under each other; two decimals, a third where the drawing has one.
void drawn_size(Canvas& canvas, double point_x, double baseline, double nominal_mm) {
  constexpr int decimals = 3, shown = 2;
  std::string text = fixed(nominal_mm, decimals);
  if (text.back() == '0') text = fixed(nominal_mm, shown);
  const TextStyle style{9.5};
  const double before = canvas.text_width(text.substr(0, text.find('.')), style);
  canvas.on_baseline({point_x - before, baseline}, text, style);
}

TextStyle words_style(const Columns& c) { return wrapped(small, c.words_mm); }

/// As high as its box, or as its words where they need more.
double row_height(const Page& page, const Columns& c, const Feature& feature) {
  return std::max(write_mm, page.canvas.text_height(kind_words(feature), words_style(c))) + row_gap_mm;
}

void row(Page& page, const Columns& c, const SheetOptions& options, const JawPlace& place, const Feature& feature) {
  Canvas& canvas = page.canvas;
  const double height = row_height(page, c, feature);
  const double middle = page.y + (height - row_gap_mm) / 2, baseline = middle + 1.2;
  std::vector<PlanItem> mark;
  add_number(mark, {page.left() + 2.8, middle}, number_radius_mm, place.number, tool_of(place, &feature),
             axis_colour(feature.axis));
  canvas.paint(mark, {0, 0});
  canvas.on_baseline({page.left() + number_column_mm, baseline + 0.1}, feature.id, {10, true});
  const TextStyle words = words_style(c);
  const std::string what = kind_words(feature);
  canvas.text({c.words_x, middle - canvas.text_height(what, words) / 2}, what, words);
  drawn_size(canvas, c.drawn_point_x, baseline, feature.nominal_mm);
  for (int copy = 0; copy < c.copies; ++copy)
    for (int box = 0; box < c.boxes; ++box) {
      const bool extra = box >= options.repeats;
      canvas.box({c.box_x(copy, box), middle - write_mm / 2}, c.box_mm, write_mm,
                 {extra ? rule : plan_colour::ink, extra ? 0.2 : 0.25, extra});
    }
  page.y += height;
}

/// A block that is weighed has no jaw place: one box for each copy.
void weight_row(Page& page, const Columns& c) {
  band_with(page, "Scales");
  const double baseline = page.y + write_mm / 2 + 1.2;
  page.canvas.on_baseline({page.left() + number_column_mm, baseline + 0.1}, weigh_label, {10, true});
  page.canvas.on_baseline({c.words_x, baseline}, tr("block, grams, to 0.05 g or better"), small);
  for (int copy = 0; copy < c.copies; ++copy) page.canvas.box({c.box_x(copy, 0), page.y}, c.box_mm, write_mm);
  page.y += weight_mm;
}

bool has_block_to_weigh(const Coupon& coupon) {
  return std::any_of(coupon.labels.begin(), coupon.labels.end(),
                     [](const Label& label) { return label.text == weigh_label; });
}

/// Height of a table that is not broken.
double table_height(const Page& page, const Coupon& coupon, const Columns& c) {
  double height = title_mm + head_mm + (has_block_to_weigh(coupon) ? group_mm + weight_mm : 0);
  std::optional<Tool> before;
  for (const JawPlace& place : coupon.places) {
    const Feature* feature = find_feature(coupon, place.feature_id);
    if (!feature) continue;
    const Tool tool = tool_of(place, feature);
    height += row_height(page, c, *feature) + (tool != before ? group_mm : 0);
    before = tool;
  }
  return height;
}

void one_table(Page& page, const Coupon& coupon, const SheetOptions& options, const Columns& c) {
  head(page, c, options, false);
  bool first = true;
  Tool tool = Tool::outside_jaws;
  for (const JawPlace& place : coupon.places) {
    const Feature* feature = find_feature(coupon, place.feature_id);
    if (!feature) continue;  // a mark of the plan that is no feature
    const bool changed = first || tool_of(place, feature) != tool;
    if (page.room() < row_height(page, c, *feature) + (changed ? group_mm : 0)) {
      page.turn();
      head(page, c, options, true);
    }
    tool = tool_of(place, feature);
    if (changed) group(page, tool, first);
    first = false;
    row(page, c, options, place, *feature);
  }
  if (!has_block_to_weigh(coupon)) return;
  if (page.room() < group_mm + weight_mm) {
    page.turn();
    head(page, c, options, true);
  }
  weight_row(page, c);
}

}  // namespace

void readings_table(Page& page, const Coupon& coupon, const SheetOptions& options) {
  const int boxes = boxes_for(options);
  const double room = page.width() - number_column_mm - id_column_mm - drawn_column_mm - least_words_mm;
  const int abreast = copies_abreast(room, boxes);
  for (int copy = 1; copy <= options.copies; copy += abreast) {
    const Columns columns = columns_for(page, copy, std::min(abreast, options.copies - copy + 1), boxes);
    if (copy > 1 && page.room() < table_height(page, coupon, columns) + gap_mm)
      page.turn();
    else if (copy > 1)
      page.y += gap_mm;
    one_table(page, coupon, options, columns);
  }
}

}  // namespace fitwright
