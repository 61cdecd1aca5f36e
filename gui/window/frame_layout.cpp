// How the parts of the main window stand together.

#include <wx/sizer.h>
#include <wx/stattext.h>

#include <algorithm>

#include "bench/header_view.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/frame.hpp"
#include "window/splitter.hpp"

namespace fitwright {
namespace {

/// A number field with what it means before it and its unit behind it.
wxSpinCtrlDouble* add_field(wxWindow* parent, wxSizer* row, const char* label, double least, double most, double step,
                            unsigned digits, const Theme& theme) {
  const auto words = [&](const char* text) {
    auto* label_window = new wxStaticText(parent, wxID_ANY, wx(text));
    label_window->SetForegroundColour(theme.quiet);
    return label_window;
  };
  row->Add(words(label), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  auto* field = new wxSpinCtrlDouble(parent, wxID_ANY, {}, wxDefaultPosition, wxDefaultSize, wxSP_ARROW_KEYS, least,
                                     most, least, step);
  field->SetDigits(digits);
  row->Add(field, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  row->Add(words("mm"), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 4 * theme.space);
  set_accessible(*field, label);
  return field;
}

}  // namespace

void Frame::build() {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  SetMenuBar(make_menu_bar());
  CreateStatusBar();
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  offer_ = new wxInfoBar(this);
  offer_->AddButton(wxID_YES, "Take them");
  offer_->AddButton(wxID_NO, "Forget them");
  sizer->Add(offer_, 0, wxEXPAND);
  sizer->Add(build_header(), 0, wxEXPAND);
  across_ = new Splitter(this);
  across_->SetMinimumPaneSize(60 * theme.space);
  across_->SplitVertically(build_left(across_), build_right(across_));
  sizer->Add(across_, 1, wxEXPAND);
  SetSizer(sizer);
  SetMinClientSize(FromDIP(wxSize(760, 480)));
}

wxWindow* Frame::build_header() {
  auto* panel = new wxPanel(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(1200, 60)));
  header_ = new Strip(panel, "On the bench", [this](Sheet& sheet) { lay_header(sheet); });
  const Theme& theme = header_->theme();
  panel->SetBackgroundColour(theme.ground);
  header_->SetMinSize({-1, GetCharHeight() * 5 / 2 + 5 * theme.space});
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(header_, 1, wxEXPAND);
  length_ = add_field(panel, row, "Your part is", 1, 2000, 10, 0, theme);
  tolerance_ = add_field(panel, row, "what matters on it", 0.01, 2, 0.01, 2, theme);
  panel->SetSizer(row);
  for (wxSpinCtrlDouble* field : {length_, tolerance_})
    field->Bind(wxEVT_SPINCTRLDOUBLE, [this](wxSpinDoubleEvent&) { wishes_changed(); });
  return panel;
}

wxWindow* Frame::build_left(wxWindow* parent) {
  auto* panel = new wxPanel(parent, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(600, 500)));
  grid_ = new ReadingsGrid(panel);
  hand_ = new Strip(panel, "Reading in hand", [this](Sheet& sheet) { lay_hand(sheet); });
  const Theme& theme = hand_->theme();
  panel->SetBackgroundColour(theme.ground);
  hand_->SetMinSize({-1, 4 * GetCharHeight() + 8 * theme.space});
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(grid_, 1, wxEXPAND | wxLEFT, 2 * theme.space);
  sizer->Add(hand_, 0, wxEXPAND);
  panel->SetSizer(sizer);
  return panel;
}

wxWindow* Frame::build_right(wxWindow* parent) {
  const Theme theme = theme_of(*this);
  tabs_ = new wxNotebook(parent, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(600, 600)));
  tabs_->SetMinSize(FromDIP(wxSize(300, 200)));  // the size it is made with is no least size
  set_accessible(*tabs_, "Findings, estimates and corrections");
  down_ = new Splitter(tabs_);
  findings_ = new FindingsPage(down_);
  plots_ = new PlotsPanel(down_);
  down_->SetMinimumPaneSize(30 * theme.space);
  down_->SplitHorizontally(findings_, plots_);
  estimates_ = new EstimatesPage(tabs_);
  corrections_ = new CorrectionsPanel(tabs_);
  tabs_->AddPage(down_, "Findings");
  tabs_->AddPage(estimates_, "Estimates");
  tabs_->AddPage(corrections_, "Corrections");
  return tabs_;
}

void Frame::lay_header(Sheet& s) const {
  const Theme& t = s.theme();
  const HeaderView view = header_view(document_, "Fitwright");
  s.skip(2);
  const int top = s.y();
  s.cell("On the bench", t.title, t.quiet, s.margin(), Side::left);
  const int name = s.margin() + s.wide("On the bench", t.title) + 3 * t.space;
  s.cell(view.name, t.title.Bold(), t.text, name, Side::left, s.width() - name);
  s.move_to(top + s.line_height(t.title) + t.space);
  s.cell(view.settings, t.body, t.quiet, s.margin(), Side::left, s.width() - 2 * s.margin());
}

void Frame::lay_hand(Sheet& s) const {
  const Theme& t = s.theme();
  const InHand hand = in_hand(document_.content(), hand_row_, view_);
  s.rule(s.margin(), s.width() - s.margin());
  s.skip(3);
  const int top = s.y();
  const int field = s.wide("000.00", t.huge) + s.margin();
  const int right = s.width() - s.margin();
  if (typing_.empty()) {
    s.cell(hand.reading, t.huge, hand.doubt.empty() ? t.text : t.warn, field, Side::right);
  } else {
    s.cell(typing_, t.huge, t.accent, field, Side::right, field);
  }
  const int left = field + 5 * t.space;
  s.move_to(top + t.space);
  s.paragraph(hand.place, t.strong, t.text, left, right);
  if (!problem_.empty()) {
    s.paragraph(problem_, t.body, t.warn, left, right);
  } else if (hand.doubt.empty()) {
    s.paragraph(hand.detail, t.body, t.quiet, left, right);
  } else {
    s.paragraph(hand.doubt, t.body, t.warn, left, right);
  }
}

}  // namespace fitwright
