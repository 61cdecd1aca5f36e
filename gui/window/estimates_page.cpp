#include "window/estimates_page.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr int least_bar = 20;  // spaces
constexpr int widest_bar = 48;
constexpr int least_name = 28;

/// Right or left ends of the columns, from the widest text of each. Where it is narrow, names are broken.
struct Columns {
  bool u = true;      // there is room for the standard uncertainties
  bool words = true;  // and for whether it matters
  int name = 0, name_end = 0, value = 0, half = 0, unit = 0, u_end = 0, bar = 0, bar_end = 0, effect = 0, relevance = 0,
      standing = 0;
};

Columns columns_of(Sheet& s, const EstimatesView& view) {
  const Theme& t = s.theme();
  const int gap = 4 * t.space;
  int name = 0, value = s.wide(tr("value"), t.body), half = s.wide(tr("\u00b1 95 %"), t.body), unit = 0, u = 0;
  int effect = s.wide(view.effect_title, t.body), standing = 0, relevance = 0;
  for (const EstimateRow& row : view.rows) {
    name = std::max(name, s.wide(row.name, t.body));
    value = std::max(value, s.wide(row.value, t.strong));
    half = std::max(half, s.wide("\u00b1 " + row.half, t.body));
    unit = std::max(unit, s.wide(row.unit, t.body));
    u = std::max(u, s.wide(row.u, t.body));
    effect = std::max(effect, s.wide(row.effect, t.body));
    standing = std::max(standing, s.wide(row.standing, t.body));
    relevance = std::max(relevance, s.wide(row.relevance, t.body));
  }
  const int without =
      2 * s.margin() + gap + value + 2 * t.space + half + 2 * t.space + unit + gap + gap + effect + gap + standing;
  // Where it is narrow the bar alone shows whether it matters: the words give way, then the uncertainties.
  const bool words =
      s.width() - without - gap - relevance - std::min(name, least_name * t.space) >= least_bar * t.space;
  if (!words) relevance = 0;
  const int relevance_and_gap = words ? relevance + gap : 0;
  const int fixed = without + relevance_and_gap;
  const int spare = s.width() - fixed - name - least_bar * t.space;
  Columns c;
  c.u = spare >= gap + u;
  c.name = s.margin();
  c.name_end = c.name + std::clamp(name + std::min(spare, 0), std::min(name, least_name * t.space), name);
  c.value = c.name_end + gap + value;
  c.half = c.value + 2 * t.space;
  c.unit = c.half + half + 2 * t.space;
  c.u_end = c.unit + unit + (c.u ? gap + u : 0);
  c.bar = c.u_end + gap;
  const int after = gap + effect + gap + relevance_and_gap + standing + s.margin();
  c.bar_end = c.bar + std::clamp(s.width() - after - c.bar, least_bar / 2 * t.space, widest_bar * t.space);
  c.effect = c.bar_end + gap + effect;
  c.relevance = c.effect + gap;
  c.standing = c.relevance + relevance_and_gap;
  c.words = words;
  return c;
}

void lay_bar(Sheet& s, const EffectBar& bar, const EstimatesView& view, int from, int to, int height) {
  s.draw([&](wxGraphicsContext& gc) {
    const Theme& t = s.theme();
    const double reach = view.bar_reach_mm > 0 ? view.bar_reach_mm : 1;
    const auto x = [&](double mm) { return from + (to - from) * (mm + reach) / (2 * reach); };
    const double middle = s.y() + height / 2.0;
    gc.SetPen(*wxTRANSPARENT_PEN);
    gc.SetBrush(wxBrush(t.faint));  // inside it, the effect does not matter
    gc.DrawRectangle(x(-view.tolerance_mm), s.y(), x(view.tolerance_mm) - x(-view.tolerance_mm), height);
    gc.SetPen(wxPen(t.of(Ink::zero), 1));
    gc.StrokeLine(x(0), s.y(), x(0), s.y() + height);
    gc.SetPen(wxPen(t.accent, std::max(2, t.space / 2)));
    gc.StrokeLine(x(bar.lower_mm), middle, x(bar.upper_mm), middle);
    draw_mark(gc, Shape::disc, x(bar.value_mm), middle, t.space, t.accent, t.ground);
  });
}

}  // namespace

EstimatesPage::EstimatesPage(wxWindow* parent) : Page(parent, tr("Estimates")) {}

void EstimatesPage::show(const EstimatesView& view) {
  view_ = view;
  changed();
}

void EstimatesPage::lay_table(Sheet& s) {
  const Theme& t = s.theme();
  const Columns c = columns_of(s, view_);
  const int line = s.line_height(t.body);
  s.cell(tr("value"), t.body, t.quiet, c.value, Side::right);
  s.cell(tr("\u00b1 95 %"), t.body, t.quiet, c.half, Side::left);
  if (c.u) s.cell("u", t.body, t.quiet, c.u_end, Side::right);
  s.cell(view_.effect_title, t.body, t.quiet, c.effect, Side::right);
  if (s.wide(view_.bar_title, t.body) <= c.bar_end - c.bar) s.cell(view_.bar_title, t.body, t.quiet, c.bar, Side::left);
  s.move_to(s.y() + line);
  s.skip(1);
  for (const EstimateRow& row : view_.rows) {
    s.rule(s.margin(), s.width() - s.margin());
    s.skip(1);
    const int top = s.y();
    s.cell(row.value, t.strong, t.text, c.value, Side::right);
    s.cell("\u00b1 " + row.half, t.body, t.text, c.half, Side::left);
    s.cell(row.unit, t.body, t.quiet, c.unit, Side::left);
    if (c.u) s.cell(row.u, t.body, t.quiet, c.u_end, Side::right);
    if (row.on_part) lay_bar(s, *row.on_part, view_, c.bar, c.bar_end, line);
    s.cell(row.effect, t.body, t.text, c.effect, Side::right);
    if (c.words) s.cell(row.relevance, t.body, row.relevance.empty() ? t.quiet : t.text, c.relevance, Side::left);
    s.cell(row.standing, t.body, t.quiet, c.standing, Side::left);
    s.paragraph(row.name, t.body, t.text, c.name, c.name_end);
    s.move_to(std::max(s.y(), top + line));
    s.skip(1);
  }
}

void EstimatesPage::lay_list(Sheet& s, const std::string& heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  const Theme& t = s.theme();
  s.skip(4);
  s.paragraph(heading, t.strong, t.text, s.margin(), s.width() - s.margin());
  for (const std::string& line : lines) {
    s.skip(1);
    s.paragraph(line, t.body, t.text, s.margin(), s.width() - s.margin());
  }
}

void EstimatesPage::lay(Sheet& s) {
  const Theme& t = s.theme();
  s.move_to(0);
  s.skip(3);
  if (view_.rows.empty() && view_.combinations.empty()) {
    s.paragraph(tr("The estimates will stand here, once some features are read."), t.body, t.quiet, s.margin(),
                s.width() - s.margin());
    return;
  }
  lay_table(s);
  lay_list(s, tr("Known only as sums"), view_.combinations);
  lay_list(s, tr("Cannot be told apart yet"), view_.not_separable);
  lay_list(s, tr("Assumed beforehand"), view_.assumed);
  lay_list(s, tr("Beyond the readings"), view_.beyond);
  s.skip(4);
  s.paragraph(said("{}. Method: {}.", view_.heading, view_.method), t.body, t.quiet, s.margin(),
              s.width() - s.margin());
  s.skip(3);
}

std::string EstimatesPage::as_text() const {
  std::string text = view_.heading + "\n";
  for (const EstimateRow& row : view_.rows)
    text += row.name + "\t" + row.value + "\t" + row.half + "\t" + row.u + "\t" + row.unit + "\t" + row.relevance +
            "\t" + row.standing + "\n";
  for (const auto* lines : {&view_.combinations, &view_.not_separable, &view_.assumed, &view_.beyond})
    for (const std::string& line : *lines) text += line + "\n";
  return text;
}

}  // namespace fitwright
