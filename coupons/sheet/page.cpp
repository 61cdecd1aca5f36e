#include "sheet/page.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fitwright {
namespace {

using namespace sheet_style;

constexpr double a4_width_mm = 210, a4_height_mm = 297;              // ISO 216
constexpr double letter_width_mm = 215.9, letter_height_mm = 279.4;  // 8.5 by 11 in
constexpr double top_mm = 13, foot_mm = 12;
constexpr double name_mm = 3.9;  ///< of a field, above its box
constexpr double tick_mm = 2.8, tick_indent_mm = 5, tick_gap_mm = 1.3;
constexpr double column_gap_mm = 7;

}  // namespace

TextStyle anchored(TextStyle style, Anchor anchor) {
  style.anchor = anchor;
  return style;
}

TextStyle wrapped(TextStyle style, double width_mm) {
  style.width_mm = width_mm;
  return style;
}

Page::Page(const Coupon& coupon, bool letter, int pages)
    : canvas(letter ? letter_width_mm : a4_width_mm, letter ? letter_height_mm : a4_height_mm,
             said("Measuring sheet: {}", tr(coupon.design.c_str()))),
      y(top_mm),
      name_(tr(coupon.design.c_str())),
      pages_(pages) {}

double Page::bottom() const { return canvas.height_mm() - foot_mm - 2; }

void Page::foot() {
  const double line = canvas.height_mm() - foot_mm;
  canvas.line({left(), line}, {right(), line}, 0.15, rule);
  canvas.text({left(), line + 1}, said("fitwright   measuring sheet, {}", name_), small);
  canvas.text({right(), line + 1}, said("{} of {}", number_, pages_), anchored(small, Anchor::end));
}

void Page::turn() {
  foot();
  canvas.next_page();
  ++number_;
  // Loose pages find each other by what is written here.
  constexpr double line_mm = 36, baseline_mm = 5;
  y = top_mm;
  canvas.on_baseline({left(), y + baseline_mm}, said("Measuring sheet, {}", name_), heading);
  double x = right();
  for (const char* name : {tr("Date"), tr("Printer")}) {
    canvas.line({x - line_mm, y + baseline_mm + 0.8}, {x, y + baseline_mm + 0.8}, 0.15);
    x -= line_mm + 1.5;
    canvas.on_baseline({x, y + baseline_mm}, name, anchored(small, Anchor::end));
    x -= canvas.text_width(name, small) + 4;
  }
  y += baseline_mm + gap_mm;
}

Result<std::string> Page::finish() {
  foot();
  return canvas.finish();
}

void Page::title(const std::string& words, const std::string& hint) {
  const double baseline = y + 3.6;
  canvas.on_baseline({left(), baseline}, words, heading);
  if (!hint.empty()) canvas.on_baseline({left() + canvas.text_width(words, heading) + 3, baseline}, hint, small);
  y = baseline + 1.8;
}

double Page::field(double x, double width_mm, const std::string& name) {
  canvas.text({x, y}, name, small);
  canvas.box({x, y + name_mm}, width_mm, write_mm);
  return x + width_mm;
}

void Page::fields(const std::vector<Field>& row) {
  constexpr double between_mm = 2.5;
  double shares = 0, spaces = between_mm * static_cast<double>(row.size() - 1);
  for (const Field& f : row) shares += f.share, spaces += f.lead_mm;
  const double unit = (width() - spaces) / shares;
  double x = left();
  for (const Field& f : row) x = field(x + f.lead_mm, unit * f.share, f.name) + between_mm;
  y += name_mm + write_mm;
}

void Page::caution(const std::string& words) {
  constexpr double indent_mm = 9, pad_mm = 1.5, side_mm = 5;
  const TextStyle style = wrapped(strong, width() - indent_mm - pad_mm);
  const double height = std::max(canvas.text_height(words, style), side_mm) + 2 * pad_mm;
  canvas.box({left(), y}, width(), height, {plan_colour::ink, 0.35});
  // ISO 3864-1: a triangle is a warning.
  const double middle = y + height / 2, x = left() + indent_mm / 2;
  canvas.paint({PlanOutline{{{{x, middle - side_mm / 2},
                              {x + 0.56 * side_mm, middle + side_mm / 2 - 0.2},
                              {x - 0.56 * side_mm, middle + side_mm / 2 - 0.2}}},
                            plan_colour::white,
                            plan_colour::ink,
                            0.45},
                PlanWords{{x, middle + 1.7}, "!", 3.6, plan_colour::ink, Anchor::middle, true}},
               {0, 0});
  canvas.text({left() + indent_mm, middle - canvas.text_height(words, style) / 2}, words, style);
  y += height;
}

void Page::notes(const std::string& words) {
  constexpr double lead_mm = 3, most_mm = 40;
  const double height = std::min(room() - lead_mm, most_mm);
  if (height < write_mm) return;
  y += lead_mm;
  canvas.box({left(), y}, width(), height, {rule, 0.2});
  canvas.text({left() + 1.5, y + 1}, words, small);
  y += height;
}

void Page::ticks(const std::vector<std::string>& lines) {
  const double column = (width() - column_gap_mm) / 2;
  const TextStyle style = wrapped(body, column - tick_indent_mm);
  std::vector<double> heights;
  double all = 0;
  for (const std::string& line : lines) {
    heights.push_back(canvas.text_height(line, style) + tick_gap_mm);
    all += heights.back();
  }
  // The split that leaves the longer column shortest.
  double first = all, before = 0;
  std::size_t split = lines.size();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (std::max(before, all - before) < std::max(first, all - first)) first = before, split = i;
    before += heights[i];
  }
  double at = y;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i == split) at = y;
    const double x = left() + (i < split ? 0 : column + column_gap_mm);
    canvas.box({x, at + 0.5}, tick_mm, tick_mm);
    canvas.text({x + tick_indent_mm, at}, lines[i], style);
    at += heights[i];
  }
  y += std::max(first, all - first) - tick_gap_mm;
}

}  // namespace fitwright
