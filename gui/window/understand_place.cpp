#include "window/understand_place.hpp"

#include <wx/sizer.h>
#include <wx/stattext.h>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/spoken_spin.hpp"

namespace fitwright {
namespace {

constexpr std::size_t findings_tab = 0, numbers_tab = 1, trial_tab = 2;

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
  speak_number(*field);
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
  trial_ = new TriedPanel(tabs_);
  tabs_->AddPage(trial_, wx(tr("Side by side")));
  trial_->on_try = [this](const std::vector<ReadingKey>& readings) { try_readings(readings); };
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(row, 0, wxALL, 3 * theme.space);
  sizer->Add(tabs_, 1, wxEXPAND);
  SetSizer(sizer);
  const auto go = [this](std::size_t reading) { host_.go_to_reading(reading); };
  plots_->on_go = go;
}

void UnderstandPlace::content_changed() {
  length_->SetValue(host_.document().content().wishes.length_mm);
  tolerance_->SetValue(host_.document().content().wishes.tolerance_mm);
}

void UnderstandPlace::view_changed() {
  const BenchView& view = host_.view();
  findings_->show(view.findings, view.no_findings, view.not_known);
  plots_->show(view);
  estimates_->show(view.estimates);
  trial_->show(view.trial);
}

void UnderstandPlace::take_focus() {
  if (tabs_->GetSelection() == 0)
    findings_->SetFocus();
  else
    tabs_->GetSelection() == static_cast<int>(numbers_tab) ? estimates_->SetFocus() : trial_->choice().SetFocus();
}

void UnderstandPlace::try_readings(const std::vector<ReadingKey>& readings) {
  Wishes wishes = host_.document().content().wishes;
  if (wishes.tried == readings) return;
  wishes.tried = readings;
  host_.make(with_wishes(host_.document().content(), wishes, tr("what a reading decides")));
}

/// By one key: the mark chosen in a plot, else the first doubtful reading, is tried; the same key goes back to where it
/// was pressed.
void UnderstandPlace::toggle_trial() {
  const Content& content = host_.document().content();
  if (!content.wishes.tried.empty()) {
    try_readings({});
    tabs_->SetSelection(static_cast<std::size_t>(tab_before_));
    take_focus();
    return;
  }
  if (tabs_->GetSelection() != static_cast<int>(trial_tab)) tab_before_ = tabs_->GetSelection();
  std::vector<ReadingKey> readings = tab_before_ == static_cast<int>(findings_tab)
                                         ? keys_of_rows(content, plots_->chosen_rows())
                                         : std::vector<ReadingKey>{};
  if (readings.empty() && !host_.view().trial.choices.empty()) readings = host_.view().trial.choices.front().readings;
  tabs_->SetSelection(trial_tab);
  try_readings(readings);
  take_focus();
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
      return tab(findings_tab, *findings_);
    case act_lengths:
      plots_->choose(Plot::lengths);
      return tab(findings_tab, lengths());
    case act_rounds:
      plots_->choose(Plot::rounds);
      return tab(findings_tab, rounds());
    case act_residuals:
      plots_->choose(plots_->chosen() == Plot::by_order ? Plot::by_feature : Plot::by_order);
      return tab(findings_tab, plots_->plot(plots_->chosen()));
    case act_corner:
      plots_->choose(Plot::corner);
      return tab(findings_tab, plots_->plot(Plot::corner));
    case act_estimates:
      return tab(numbers_tab, *estimates_);
    case act_try:
      toggle_trial();
      return true;
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
