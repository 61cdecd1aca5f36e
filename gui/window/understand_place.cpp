#include "window/understand_place.hpp"

#include <wx/sizer.h>
#include <wx/stattext.h>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"

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

UnderstandPlace::UnderstandPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  length_ = add_field(this, row, tr("Your part is"), 1, 2000, 10, 0, theme);
  tolerance_ = add_field(this, row, tr("what matters on it"), 0.01, 2, 0.01, 2, theme);
  for (wxSpinCtrlDouble* field : {length_, tolerance_})
    field->Bind(wxEVT_SPINCTRLDOUBLE, [this](wxSpinDoubleEvent&) { wishes_changed(); });
  tabs_ = new wxNotebook(this, wxID_ANY);
  tabs_->SetMinSize(FromDIP(wxSize(300, 200)));
  set_accessible(*tabs_, tr("Findings and numbers"));
  down_ = new Splitter(tabs_);
  findings_ = new FindingsPage(down_);
  plots_ = new PlotsPanel(down_);
  down_->SetMinimumPaneSize(30 * theme.space);
  down_->SplitHorizontally(findings_, plots_);
  down_->keep_at([](int whole) { return whole * 48 / 100; });
  estimates_ = new EstimatesPage(tabs_);
  tabs_->AddPage(down_, wx(tr("Findings")));
  tabs_->AddPage(estimates_, wx(tr("Numbers")));
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(row, 0, wxALL, 3 * theme.space);
  sizer->Add(tabs_, 1, wxEXPAND);
  SetSizer(sizer);
  const auto go = [this](std::size_t reading) { host_.go_to_reading(reading); };
  lengths().on_go = go;
  rounds().on_go = go;
}

void UnderstandPlace::content_changed() {
  length_->SetValue(host_.document().content().wishes.length_mm);
  tolerance_->SetValue(host_.document().content().wishes.tolerance_mm);
}

void UnderstandPlace::view_changed() {
  const BenchView& view = host_.view();
  findings_->show(view.findings, view.no_findings);
  lengths().show(view.lengths);
  rounds().show(view.rounds);
  estimates_->show(view.estimates);
}

void UnderstandPlace::take_focus() {
  if (tabs_->GetSelection() == 0)
    findings_->SetFocus();
  else
    estimates_->SetFocus();
}

bool UnderstandPlace::do_action(int id) {
  const auto tab = [this](std::size_t page, wxWindow& part) {
    tabs_->SetSelection(page);
    part.SetFocus();
    return true;
  };
  Wishes wishes = host_.document().content().wishes;
  switch (id) {
    case act_findings:
      return tab(0, *findings_);
    case act_lengths:
      plots_->choose(lengths());
      return tab(0, lengths());
    case act_rounds:
      plots_->choose(rounds());
      return tab(0, rounds());
    case act_estimates:
      return tab(1, *estimates_);
    case act_keep_doubtful:
      wishes.set_suspects_aside = !wishes.set_suspects_aside;
      host_.make(with_wishes(host_.document().content(), wishes, tr("whether doubtful readings count")));
      return true;
    case act_no_priors:
      wishes.use_priors = !wishes.use_priors;
      host_.make(with_wishes(host_.document().content(), wishes, tr("whether typical values are assumed")));
      return true;
    default:
      return false;
  }
}

bool UnderstandPlace::update_action(wxUpdateUIEvent& event) {
  const Wishes& wishes = host_.document().content().wishes;
  switch (event.GetId()) {
    case act_keep_doubtful:
      event.Check(!wishes.set_suspects_aside);
      return true;
    case act_no_priors:
      event.Check(!wishes.use_priors);
      return true;
    default:
      return false;
  }
}

void UnderstandPlace::wishes_changed() {
  Wishes wishes = host_.document().content().wishes;
  wishes.length_mm = length_->GetValue();
  wishes.tolerance_mm = tolerance_->GetValue();
  host_.make(with_wishes(host_.document().content(), wishes, tr("what matters")));
}

}  // namespace fitwright
