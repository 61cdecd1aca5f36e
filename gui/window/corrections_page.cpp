#include "window/corrections_page.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "window/access.hpp"

namespace fitwright {
namespace {

struct Columns {
  int knob = 0, now = 0, arrow = 0, next = 0, u = 0, effect_width = 0;
  std::vector<int> effects;  // right ends
};

Columns columns_of(Sheet& s, const CorrectionsView& view) {
  const Theme& t = s.theme();
  int knob = 0, now = s.wide(tr("now"), t.body), next = s.wide(tr("new"), t.body), u = s.wide(tr("u"), t.body),
      effect = 0;
  for (const std::string& length : view.lengths) effect = std::max(effect, s.wide(length, t.body));
  effect = std::max({effect, s.wide("+0.00", t.body), 12 * t.space});
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
  c.effect_width = effect;
  int right = c.u + gap;
  for (std::size_t i = 0; i < view.lengths.size(); ++i) c.effects.push_back(right += effect + (i > 0 ? gap : 0));
  return c;
}

/// What a mark is kept by: the same knob with another new value is another thing to do.
std::string mark_of(const ChangeRow& row) { return row.knob + " " + row.next; }

}  // namespace

CorrectionsPage::CorrectionsPage(wxWindow* parent) : Page(parent, tr("Corrections")) {
  // Before the panel around it takes Tab for itself: to that the page is one thing, and its buttons are not there.
  Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
    const bool tab = event.GetKeyCode() == WXK_TAB && !event.ControlDown() && !event.AltDown();
    if (!tab || !step_focus(!event.ShiftDown())) event.Skip();
  });
}

void CorrectionsPage::show(const CorrectionsView& view) {
  view_ = view;
  make_buttons();
  changed();
}

void CorrectionsPage::can_mark(bool can) {
  if (can == can_mark_) return;
  can_mark_ = can;
  for (Buttons& b : buttons_) b.mark->Show(can);
  changed();
}

std::size_t CorrectionsPage::marked() const {
  return static_cast<std::size_t>(std::count_if(
      view_.rows.begin(), view_.rows.end(), [this](const ChangeRow& row) { return marked_.contains(mark_of(row)); }));
}

void CorrectionsPage::make_buttons() {
  while (buttons_.size() > view_.rows.size()) {
    buttons_.back().copy->Destroy();
    buttons_.back().mark->Destroy();
    buttons_.pop_back();
  }
  while (buttons_.size() < view_.rows.size()) {
    const std::size_t row = buttons_.size();
    Buttons b{new wxButton(this, wxID_ANY, wx(tr("Copy")), wxDefaultPosition, wxDefaultSize),
              new wxToggleButton(this, wxID_ANY, {}, wxDefaultPosition, wxDefaultSize)};
    b.copy->Bind(wxEVT_BUTTON, [this, row](wxCommandEvent&) {
      if (on_copy && row < view_.rows.size()) on_copy(view_.rows[row].copied);
    });
    b.mark->Bind(wxEVT_TOGGLEBUTTON, [this, row](wxCommandEvent& event) {
      if (row >= view_.rows.size()) return;
      const std::string mark = mark_of(view_.rows[row]);
      if (event.IsChecked())
        marked_.insert(mark);
      else
        marked_.erase(mark);
      name_mark(row);
      if (on_marked) on_marked(marked() == view_.rows.size());
    });
    for (wxWindow* button : {static_cast<wxWindow*>(b.copy), static_cast<wxWindow*>(b.mark)})
      button->Bind(wxEVT_SET_FOCUS, [this, row](wxFocusEvent& event) {
        event.Skip();
        show_part(buttons_[row].top, buttons_[row].bottom);
      });
    b.mark->Show(can_mark_);
    buttons_.push_back(b);
  }
  for (std::size_t row = 0; row < buttons_.size(); ++row) {
    set_accessible(*buttons_[row].copy, said("Copy {}", view_.rows[row].knob), view_.rows[row].copied);
    name_mark(row);
  }
}

void CorrectionsPage::name_mark(std::size_t row) {
  const bool marked = marked_.contains(mark_of(view_.rows[row]));
  buttons_[row].mark->SetValue(marked);
  buttons_[row].mark->SetLabel(wx(marked ? tr("\u2713 applied") : tr("Mark applied")));
  set_accessible(*buttons_[row].mark, marked ? said("{} is set on the machine", view_.rows[row].knob)
                                             : said("Mark applied: {}", view_.rows[row].knob));
}

int CorrectionsPage::buttons_width() const {
  if (buttons_.empty()) return 0;
  const int gap = 2 * theme().space;
  return buttons_.front().copy->GetBestSize().x +
         (can_mark_ ? gap + std::max(buttons_.front().mark->GetBestSize().x, mark_width()) : 0);
}

int CorrectionsPage::mark_width() const {
  int width = 0;
  for (const char* text : {tr("Mark applied"), tr("\u2713 applied")})
    width = std::max(width, GetTextExtent(wx(text)).x);
  return width + 8 * theme().space;
}

/// Only when the page is laid out for the window itself, not for a picture of it.
void CorrectionsPage::place_buttons(std::size_t row, const Sheet& sheet, int right, int top) {
  if (sheet.painting() || sheet.width() != GetClientSize().x || row >= buttons_.size()) return;
  Buttons& b = buttons_[row];
  const int height = std::max(b.copy->GetBestSize().y, b.mark->GetBestSize().y);
  const int mark = can_mark_ ? mark_width() : 0;
  const int copy = b.copy->GetBestSize().x;
  const int gap = can_mark_ ? 2 * theme().space : 0;
  b.mark->SetSize(wxRect(CalcScrolledPosition(wxPoint(right - mark, top)), wxSize(std::max(mark, 1), height)));
  b.copy->SetSize(wxRect(CalcScrolledPosition(wxPoint(right - mark - gap - copy, top)), wxSize(copy, height)));
}

/// Tab goes from the page to its buttons, from button to button, and out of the page behind the last. False: there is
/// nothing of that to be done from where the focus is.
bool CorrectionsPage::step_focus(bool forward) {
  std::vector<wxWindow*> order{this};
  for (const Buttons& b : buttons_) {
    order.push_back(b.copy);
    if (b.mark->IsShown()) order.push_back(b.mark);
  }
  const auto here = std::find(order.begin(), order.end(), FindFocus());
  if (here == order.end() || (here == order.begin() && !forward)) return false;
  if (!forward)
    (*(here - 1))->SetFocus();
  else if (here + 1 != order.end())
    (*(here + 1))->SetFocus();
  else
    Navigate(wxNavigationKeyEvent::IsForward);
  return true;
}

/// A bar from the middle of its field, to the right for more and to the left for less.
void CorrectionsPage::lay_bar(Sheet& s, double mm, double reach, int right, int width, int top) {
  if (!(reach > 0)) return;
  const Theme& t = s.theme();
  const int half = width / 2;
  const int middle = right - half;
  const int length = static_cast<int>(std::lround(std::abs(mm) / reach * half));
  const int thick = std::max(2, t.space * 3 / 4);
  s.box(wxRect(right - 2 * half, top + thick / 2, 2 * half, 1), t.faint);
  s.box(wxRect(middle, top - t.space / 4, 1, thick + t.space / 2), t.of(Ink::zero));
  if (length > 0) s.box(wxRect(mm < 0 ? middle - length : middle, top, length, thick), t.accent);
}

void CorrectionsPage::lay_table(Sheet& s) {
  const Theme& t = s.theme();
  const int buttons = buttons_width();
  const Columns c = columns_of(s, view_);
  const int right = std::min(s.width() - s.margin(), c.effects.back() + 8 * t.space + buttons);
  const bool beside = right - buttons >= c.effects.back() + 4 * t.space;
  const wxFont next = t.title.Bold();
  const int line = s.line_height(next);
  const int drop = (line - s.line_height(t.body)) / 2;  // puts the smaller type on the middle of the larger
  const int button = buttons_.empty() ? 0 : buttons_.front().copy->GetBestSize().y;
  s.cell(view_.effects_title, t.body, t.quiet, c.effects.back(), Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.cell(tr("now"), t.body, t.quiet, c.now, Side::right);
  s.cell(tr("new"), t.body, t.quiet, c.next, Side::right);
  s.cell(tr("u"), t.body, t.quiet, c.u, Side::right);
  for (std::size_t i = 0; i < c.effects.size(); ++i)
    s.cell(view_.lengths[i], t.body, t.quiet, c.effects[i], Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.skip(1);
  for (std::size_t k = 0; k < view_.rows.size(); ++k) {
    const ChangeRow& row = view_.rows[k];
    s.rule(s.margin(), right);
    s.skip(2);
    const int top = s.y();
    if (k < buttons_.size()) buttons_[k].top = top;
    s.cell(row.next, next, t.text, c.next, Side::right);
    s.move_to(top + drop);
    s.cell(row.knob, t.body, t.text, c.knob, Side::left);
    s.cell(row.now, t.body, t.quiet, c.now, Side::right);
    s.cell("\u2192", t.body, t.quiet, c.arrow, Side::left);
    if (!row.u.empty()) s.cell(row.u, t.body, t.quiet, c.u, Side::right);
    for (std::size_t i = 0; i < c.effects.size() && i < row.effects.size(); ++i) {
      s.cell(row.effects[i], t.body, t.text, c.effects[i], Side::right);
      lay_bar(s, row.effects_mm[i], view_.effect_reach_mm, c.effects[i], c.effect_width, top + line);
    }
    if (beside) place_buttons(k, s, right, top);
    s.move_to(top + line + 2 * t.space);
    const int words_right = beside ? right - buttons - 4 * t.space : s.width() - s.margin();
    s.paragraph(row.because, t.body, t.quiet, c.knob, words_right);
    if (!row.forms.empty())
      s.paragraph(said("As programs ask for it: {}", row.forms), t.body, t.quiet, c.knob, words_right);
    if (beside) s.move_to(std::max(s.y(), top + button));
    for (const std::string& caution : row.cautions) {
      s.skip(1);
      lay_caution(s, caution, s.width() - s.margin());
    }
    if (!beside) {
      s.skip(1);
      place_buttons(k, s, s.margin() + buttons, s.y());
      s.move_to(s.y() + button);
    }
    s.skip(2);
    if (k < buttons_.size()) buttons_[k].bottom = s.y();
  }
}

void CorrectionsPage::lay_caution(Sheet& s, const std::string& caution, int right) {
  const Theme& t = s.theme();
  s.mark(Shape::triangle, s.margin() + 2 * t.space, s.y() + s.line_height(t.body) / 2.0, 1.4 * t.space, t.warn);
  s.paragraph(caution, t.body, t.text, s.margin() + 6 * t.space, right);
}

/// The policies side by side; the recommended one is marked by a word.
void CorrectionsPage::lay_compared(Sheet& s) {
  const PolicyTable& table = view_.compared;
  if (table.columns.empty() || (table.knobs.empty() && table.remains.empty())) return;
  const bool has_now = !table.knobs.empty();
  const Theme& t = s.theme();
  int name = 0, now = has_now ? s.wide(tr("now"), t.body) : 0, value = 10 * t.space;
  for (const auto* rows : {&table.knobs, &table.remains})
    for (const ComparedRow& row : *rows) {
      name = std::max(name, s.wide(row.name, t.body));
      now = std::max(now, s.wide(row.now, t.body));
      for (const std::string& v : row.values) value = std::max(value, s.wide(v, t.strong));
    }
  for (const EffectRow& row : table.effects) name = std::max(name, s.wide(row.name, t.body));
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
  if (has_now) s.cell(tr("now"), t.body, t.quiet, now_right, Side::right);
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
  if (!table.effects.empty()) {
    s.skip(1);
    s.paragraph(tr("An outside length becomes longer by, mm"), t.body, t.quiet, s.margin(), end);
    s.rule(s.margin(), end);
    s.skip(1);
    for (const EffectRow& row : table.effects) {
      s.cell(row.name, t.body, t.text, s.margin(), Side::left, name);
      for (std::size_t k = 0; k < row.values.size(); ++k) {
        const bool recommended = table.columns[k].recommended;
        s.cell(row.values[k], recommended ? t.strong : t.body, recommended ? t.text : t.quiet, right_of(k),
               Side::right);
        if (table.columns[k].possible)
          lay_bar(s, row.mm[k], table.effect_reach_mm, right_of(k), value, s.y() + s.line_height(t.strong));
      }
      s.move_to(s.y() + s.line_height(t.strong));
      s.skip(2);
    }
  }
  if (!table.remains.empty()) {
    s.skip(1);
    s.paragraph(tr("Error to expect afterwards, mm"), t.body, t.quiet, s.margin(), end);
    lay_rows(table.remains);
    s.skip(1);
    s.paragraph(table.beyond, t.body, t.quiet, s.margin(), std::max(end, s.width() - s.margin()));
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

/// What is to be done stands first, then how the policies compare, then what is left alone. Where nothing is to be
/// done, that is the first thing said.
void CorrectionsPage::lay(Sheet& s) {
  const Theme& t = s.theme();
  const int right = s.width() - s.margin();
  s.move_to(0);
  s.skip(3);
  if (view_.nothing) {
    s.paragraph(tr("Nothing to change"), t.large, t.text, s.margin(), right);
    s.skip(1);
    s.paragraph(view_.recommended, t.title, t.text, s.margin(), right);
    s.skip(5);
    lay_compared(s);
    lay_pairs(s, tr("Left alone, and why"), view_.left_alone);
    s.skip(4);
    return;
  }
  s.paragraph(view_.headline, t.large, t.text, s.margin(), right);
  s.skip(1);
  s.paragraph(view_.recommended, t.title, t.text, s.margin(), right);
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
    lay_caution(s, caution, right);
  }
  if (!view_.commands.empty()) {
    s.skip(4);
    s.paragraph(tr("What to type where"), t.strong, t.text, s.margin(), right);
    for (const std::string& command : view_.commands) {
      s.skip(1);
      s.paragraph(command, t.body, t.text, s.margin(), right);
    }
  }
  if (!view_.compared.columns.empty()) {
    s.skip(5);
    s.paragraph(tr("The policies side by side"), t.title, t.text, s.margin(), right);
    lay_compared(s);
  }
  lay_pairs(s, tr("Left alone, and why"), view_.left_alone);
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
  for (const EffectRow& row : view_.compared.effects) {
    text += row.name;
    for (const std::string& value : row.values) text += "\t" + value;
    text += "\n";
  }
  text += view_.headline + "\n";
  for (const std::string& problem : view_.problems) text += problem + "\n";
  for (const ChangeRow& row : view_.rows)
    text += row.knob + "\t" + row.now + "\t" + row.next + "\t" + row.because + "\n";
  for (const ChangeRow& row : view_.rows)
    for (const std::string& caution : row.cautions) text += caution + "\n";
  for (const auto* lines : {&view_.cautions, &view_.commands})
    for (const std::string& line : *lines) text += line + "\n";
  for (const auto* pairs : {&view_.left_alone})
    for (const LabelledText& pair : *pairs) text += pair.label + ": " + pair.text + "\n";
  return text;
}

}  // namespace fitwright
