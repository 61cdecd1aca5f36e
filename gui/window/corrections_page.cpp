#include "window/corrections_page.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fitwright {
namespace {

struct Columns {
  int knob = 0, now = 0, arrow = 0, next = 0, u = 0;
  std::vector<int> effects;  // right ends
};

Columns columns_of(Sheet& s, const CorrectionsView& view) {
  const Theme& t = s.theme();
  int knob = 0, now = s.wide(tr("now"), t.body), next = s.wide(tr("new"), t.body), u = s.wide(tr("u"), t.body),
      effect = 0;
  for (const std::string& length : view.lengths) effect = std::max(effect, s.wide(length, t.body));
  effect = std::max(effect, s.wide("+0.00", t.body));
  for (const ChangeRow& row : view.rows) {
    knob = std::max(knob, s.wide(row.knob, t.body));
    now = std::max(now, s.wide(row.now, t.body));
    next = std::max(next, s.wide(row.next, t.title.Bold()));
    u = std::max(u, s.wide(row.u, t.body));
  }
  const int texts = knob + now + s.wide("\u2192", t.body) + next + u + static_cast<int>(view.lengths.size()) * effect;
  const int tight = 4 * t.space;  // the two spaces on either side of the arrow
  const int gaps = 3 + static_cast<int>(view.lengths.size());
  const int gap = std::clamp((s.width() - 2 * s.margin() - texts - tight) / gaps, 2 * t.space, 6 * t.space);
  Columns c;
  c.knob = s.margin();
  c.now = c.knob + knob + gap + now;
  c.arrow = c.now + 2 * t.space;
  c.next = c.arrow + s.wide("\u2192", t.body) + 2 * t.space + next;
  c.u = c.next + gap + u;
  int right = c.u + gap;
  for (std::size_t i = 0; i < view.lengths.size(); ++i) c.effects.push_back(right += effect + (i > 0 ? gap : 0));
  return c;
}

}  // namespace

CorrectionsPage::CorrectionsPage(wxWindow* parent) : Page(parent, tr("Corrections")) {}

void CorrectionsPage::show(const CorrectionsView& view) {
  view_ = view;
  changed();
}

void CorrectionsPage::lay_table(Sheet& s) {
  const Theme& t = s.theme();
  const Columns c = columns_of(s, view_);
  const wxFont next = t.title.Bold();
  const int line = s.line_height(next);
  const int drop = (line - s.line_height(t.body)) / 2;  // puts the smaller type on the middle of the larger
  s.cell(view_.effects_title, t.body, t.quiet, c.effects.back(), Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.cell(tr("now"), t.body, t.quiet, c.now, Side::right);
  s.cell(tr("new"), t.body, t.quiet, c.next, Side::right);
  s.cell(tr("u"), t.body, t.quiet, c.u, Side::right);
  for (std::size_t i = 0; i < c.effects.size(); ++i)
    s.cell(view_.lengths[i], t.body, t.quiet, c.effects[i], Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.skip(1);
  for (const ChangeRow& row : view_.rows) {
    s.rule(s.margin(), s.width() - s.margin());
    s.skip(2);
    const int top = s.y();
    s.cell(row.next, next, t.text, c.next, Side::right);
    s.move_to(top + drop);
    s.cell(row.knob, t.body, t.text, c.knob, Side::left);
    s.cell(row.now, t.body, t.quiet, c.now, Side::right);
    s.cell("\u2192", t.body, t.quiet, c.arrow, Side::left);
    if (!row.u.empty()) s.cell(row.u, t.body, t.quiet, c.u, Side::right);
    for (std::size_t i = 0; i < c.effects.size() && i < row.effects.size(); ++i)
      s.cell(row.effects[i], t.body, t.text, c.effects[i], Side::right);
    s.move_to(top + line);
    s.skip(1);
    s.paragraph(row.because, t.body, t.quiet, c.knob, s.width() - s.margin());
    if (!row.forms.empty())
      s.paragraph(said("As programs ask for it: {}", row.forms), t.body, t.quiet, c.knob, s.width() - s.margin());
    s.skip(2);
  }
}

/// The policies side by side; the recommended one is marked by a word.
void CorrectionsPage::lay_compared(Sheet& s) {
  const PolicyTable& table = view_.compared;
  if (table.columns.empty() || (table.knobs.empty() && table.remains.empty())) return;
  const Theme& t = s.theme();
  int name = 0, now = s.wide(tr("now"), t.body), value = 0;
  for (const auto* rows : {&table.knobs, &table.remains})
    for (const ComparedRow& row : *rows) {
      name = std::max(name, s.wide(row.name, t.body));
      now = std::max(now, s.wide(row.now, t.body));
      for (const std::string& v : row.values) value = std::max(value, s.wide(v, t.strong));
    }
  for (const PolicyColumn& column : table.columns) value = std::max(value, s.wide(column.title, t.strong));
  const int columns = static_cast<int>(table.columns.size());
  const int least_gap = 2 * t.space;
  // Where it is narrow the names give way: their ends are left out, never a number's.
  name = std::min(name, s.width() - 2 * s.margin() - now - columns * value - (columns + 1) * least_gap);
  const int room = s.width() - 2 * s.margin() - name - now - columns * value;
  const int gap = std::clamp(room / (columns + 1), least_gap, 7 * t.space);
  const int now_right = s.margin() + name + gap + now;
  const auto right_of = [&](std::size_t k) { return now_right + (static_cast<int>(k) + 1) * (gap + value); };
  const int end = right_of(table.columns.size() - 1);

  for (std::size_t k = 0; k < table.columns.size(); ++k)
    if (table.columns[k].recommended) s.cell(tr("recommended"), t.body, t.accent, right_of(k), Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.cell(tr("now"), t.body, t.quiet, now_right, Side::right);
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    const PolicyColumn& column = table.columns[k];
    s.cell(column.title, column.recommended ? t.strong : t.body, column.possible ? t.text : t.quiet, right_of(k),
           Side::right);
  }
  s.move_to(s.y() + s.line_height(t.strong));
  s.skip(1);
  const auto lay_rows = [&](const std::vector<ComparedRow>& rows) {
    s.rule(s.margin(), end);
    s.skip(1);
    for (const ComparedRow& row : rows) {
      s.cell(row.name, t.body, t.text, s.margin(), Side::left, name);
      s.cell(row.now, t.body, t.quiet, now_right, Side::right);
      for (std::size_t k = 0; k < row.values.size(); ++k) {
        const bool recommended = table.columns[k].recommended;
        s.cell(row.values[k], recommended ? t.strong : t.body, recommended ? t.text : t.quiet, right_of(k),
               Side::right);
      }
      s.move_to(s.y() + s.line_height(t.body));
      s.skip(1);
    }
  };
  if (!table.knobs.empty()) lay_rows(table.knobs);
  if (!table.remains.empty()) {
    s.skip(1);
    s.paragraph(tr("Error to expect afterwards, mm"), t.body, t.quiet, s.margin(), end);
    lay_rows(table.remains);
  }
  s.skip(3);
}

void CorrectionsPage::lay_pairs(Sheet& s, const std::string& heading, const std::vector<LabelledText>& pairs) {
  if (pairs.empty()) return;
  const Theme& t = s.theme();
  s.skip(4);
  s.paragraph(heading, t.strong, t.text, s.margin(), s.width() - s.margin());
  int label = 0;
  for (const LabelledText& pair : pairs) label = std::max(label, s.wide(pair.label, t.body));
  const int text = s.margin() + label + 4 * t.space;
  for (const LabelledText& pair : pairs) {
    s.skip(1);
    s.cell(pair.label, t.body, t.text, s.margin(), Side::left);
    s.paragraph(pair.text, t.body, t.quiet, text, s.width() - s.margin());
  }
}

void CorrectionsPage::lay(Sheet& s) {
  const Theme& t = s.theme();
  const int right = s.width() - s.margin();
  s.move_to(0);
  s.skip(3);
  if (!view_.recommended.empty()) {
    s.paragraph(view_.recommended, t.title, t.text, s.margin(), right);
    s.skip(3);
    lay_compared(s);
    s.skip(2);
  }
  s.paragraph(view_.headline, t.large, t.text, s.margin(), right);
  s.skip(1);
  if (view_.chosen < view_.choices.size())
    s.paragraph(view_.choices[view_.chosen].sentence, t.body, t.quiet, s.margin(), right);
  for (const std::string& problem : view_.problems) {
    s.skip(2);
    s.paragraph(problem, t.body, t.text, s.margin(), right);
  }
  s.skip(3);
  if (!view_.rows.empty()) lay_table(s);
  for (const std::string& caution : view_.cautions) {
    s.skip(2);
    s.mark(Shape::triangle, s.margin() + 2 * t.space, s.y() + s.line_height(t.body) / 2.0, 1.4 * t.space, t.warn);
    s.paragraph(caution, t.body, t.text, s.margin() + 6 * t.space, right);
  }
  if (!view_.commands.empty()) {
    s.skip(4);
    s.paragraph(tr("What to type where"), t.strong, t.text, s.margin(), right);
    for (const std::string& command : view_.commands) {
      s.skip(1);
      s.paragraph(command, t.body, t.text, s.margin(), right);
    }
  }
  lay_pairs(s, tr("Error to expect afterwards"), view_.remains);
  lay_pairs(s, tr("Leave alone"), view_.left_alone);
  s.skip(4);
}

std::string CorrectionsPage::as_text() const {
  std::string text = view_.recommended.empty() ? std::string() : view_.recommended + "\n";
  for (const auto* rows : {&view_.compared.knobs, &view_.compared.remains})
    for (const ComparedRow& row : *rows) {
      text += row.name + "\t" + row.now;
      for (const std::string& value : row.values) text += "\t" + value;
      text += "\n";
    }
  text += view_.headline + "\n";
  for (const std::string& problem : view_.problems) text += problem + "\n";
  for (const ChangeRow& row : view_.rows)
    text += row.knob + "\t" + row.now + "\t" + row.next + "\t" + row.because + "\n";
  for (const auto* lines : {&view_.cautions, &view_.commands})
    for (const std::string& line : *lines) text += line + "\n";
  for (const auto* pairs : {&view_.remains, &view_.left_alone})
    for (const LabelledText& pair : *pairs) text += pair.label + ": " + pair.text + "\n";
  return text;
}

}  // namespace fitwright
