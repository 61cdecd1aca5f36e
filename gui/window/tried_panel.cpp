#include "window/tried_panel.hpp"

#include <wx/sizer.h>
#include <wx/stattext.h>

#include <algorithm>

#include "base/words.hpp"
#include "window/access.hpp"

namespace fitwright {
namespace {

constexpr double readable_width_em = 46;  // about 80 letters a line

std::string with_half(const std::string& value, const std::string& half) {
  return half.empty() ? value : value + " \u00b1\u00a0" + half;
}

}  // namespace

TriedPage::TriedPage(wxWindow* parent) : Page(parent, tr("Side by side")) {}

void TriedPage::show(const TriedView& view) {
  view_ = view;
  changed();
}

void TriedPage::lay_table(Sheet& s) {
  const Theme& t = s.theme();
  int name = 0, as_is = s.wide(view_.as_is_title, t.body), tried = s.wide(view_.tried_title, t.body);
  int change = s.wide(tr("change"), t.body), unit = 0;
  for (const TriedRow& row : view_.rows) {
    name = std::max(name, s.wide(row.name, t.body));
    as_is = std::max(as_is, s.wide(with_half(row.as_is, row.as_is_half), t.body));
    tried = std::max(tried, s.wide(with_half(row.tried, row.tried_half), t.strong));
    change = std::max(change, s.wide(row.change, t.body));
    unit = std::max(unit, s.wide(row.unit, t.body));
  }
  const int room = s.width() - 2 * s.margin() - as_is - tried - change - unit;
  const int gap = std::clamp((room - name) / 4, 2 * t.space, 8 * t.space);
  name = std::min(name, room - 4 * gap);
  const int as_is_right = s.margin() + name + gap + as_is;
  const int tried_right = as_is_right + gap + tried;
  const int change_right = tried_right + gap + change;
  const int unit_left = change_right + gap;
  s.cell(view_.as_is_title, t.body, t.quiet, as_is_right, Side::right);
  s.cell(view_.tried_title, t.body, t.quiet, tried_right, Side::right);
  s.cell(tr("change"), t.body, t.quiet, change_right, Side::right);
  s.move_to(s.y() + s.line_height(t.body));
  s.skip(1);
  for (const TriedRow& row : view_.rows) {
    s.rule(s.margin(), unit_left + unit);
    s.skip(1);
    s.cell(row.name, t.body, t.text, s.margin(), Side::left, name);
    s.cell(with_half(row.as_is, row.as_is_half), t.body, t.text, as_is_right, Side::right);
    s.cell(with_half(row.tried, row.tried_half), t.strong, t.text, tried_right, Side::right);
    s.cell(row.change, t.body, t.accent, change_right, Side::right);
    s.cell(row.unit, t.body, t.quiet, unit_left, Side::left);
    s.move_to(s.y() + s.line_height(t.strong));
    s.skip(1);
  }
}

void TriedPage::lay(Sheet& s) {
  const Theme& t = s.theme();
  const int em = s.wide("0", t.body) * 2;
  const int right = std::min(s.width() - s.margin(), s.margin() + static_cast<int>(readable_width_em) * em);
  s.move_to(0);
  s.skip(3);
  if (view_.shown) {
    s.paragraph(view_.title, t.large, t.text, s.margin(), right);
    s.skip(3);
    if (!view_.rows.empty()) lay_table(s);
    if (!view_.others.empty()) {
      s.skip(2);
      s.paragraph(view_.others, t.body, t.quiet, s.margin(), right);
    }
    s.skip(4);
    s.paragraph(tr("What changes"), t.strong, t.text, s.margin(), right);
    for (const std::string& line : view_.changes) {
      s.skip(1);
      s.paragraph(line, t.body, t.text, s.margin(), right);
    }
    s.skip(4);
  }
  s.paragraph(view_.hint, t.body, t.quiet, s.margin(), right);
  s.skip(3);
}

std::string TriedPage::as_text() const {
  std::string text = view_.title.empty() ? std::string() : view_.title + "\n";
  for (const TriedRow& row : view_.rows)
    text += row.name + "\t" + with_half(row.as_is, row.as_is_half) + "\t" + with_half(row.tried, row.tried_half) +
            "\t" + row.change + "\t" + row.unit + "\n";
  if (!view_.others.empty()) text += view_.others + "\n";
  for (const std::string& line : view_.changes) text += line + "\n";
  return text + view_.hint + "\n";
}

TriedPanel::TriedPanel(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  auto* label = new wxStaticText(this, wxID_ANY, wx(tr("&Try")));
  label->SetForegroundColour(theme.quiet);
  choice_ = new wxChoice(this, wxID_ANY);
  set_accessible(*choice_, tr("Reading to try"), tr("Readings that look like slips; nothing is taken out"));
  back_ = new wxButton(this, wxID_ANY, wx(tr("&Back")));
  set_accessible(*back_, tr("Back"), tr("Ends the trial"));
  page_ = new TriedPage(this);
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(label, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  row->Add(choice_, 1, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  row->Add(back_, 0, wxALIGN_CENTRE_VERTICAL);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(row, 0, wxEXPAND | wxLEFT | wxRIGHT | wxTOP, 4 * theme.space);
  sizer->Add(page_, 1, wxEXPAND);
  SetSizer(sizer);
  choice_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    const auto index = static_cast<std::size_t>(event.GetSelection());
    if (on_try)
      on_try(index > 0 && index <= choices_.size() ? choices_[index - 1].readings : std::vector<ReadingKey>{});
  });
  back_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
    if (on_try) on_try({});
  });
}

void TriedPanel::show(const TriedView& view) {
  choices_ = view.choices;
  choice_->Clear();
  choice_->Append(wx(choices_.empty() ? tr("no reading is doubtful") : tr("nothing")));
  for (const TriedChoice& choice : choices_) choice_->Append(wx(choice.words));
  const bool other = view.shown && view.chosen >= choices_.size();  // a mark of a plot
  if (other) choice_->Append(wx(view.title));
  choice_->SetSelection(other        ? static_cast<int>(choices_.size()) + 1
                        : view.shown ? static_cast<int>(view.chosen) + 1
                                     : 0);
  back_->Enable(view.shown);
  page_->show(view);
  Layout();
}

}  // namespace fitwright
