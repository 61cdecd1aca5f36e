#include "window/plots_panel.hpp"

#include <wx/sizer.h>

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr int readable_width_dip = 440;  // below it a plot's words begin to crowd its marks

}  // namespace

PlotsPanel::PlotsPanel(wxWindow* parent)
    : wxPanel(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(600, 300))) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  pick_lengths_ = new wxRadioButton(this, wxID_ANY, tr("Lengths"), wxDefaultPosition, wxDefaultSize, wxRB_GROUP);
  pick_rounds_ = new wxRadioButton(this, wxID_ANY, tr("Holes and pegs"));
  lengths_ = new PlotPanel(this, tr("Lengths"));
  rounds_ = new PlotPanel(this, tr("Holes and pegs"));
  auto* picks = new wxBoxSizer(wxHORIZONTAL);
  picks->Add(pick_lengths_, 0, wxRIGHT, 4 * theme.space);
  picks->Add(pick_rounds_, 0);
  auto* plots = new wxBoxSizer(wxHORIZONTAL);
  plots->Add(lengths_, 1, wxEXPAND);
  plots->Add(rounds_, 1, wxEXPAND);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(picks, 0, wxLEFT | wxTOP, 4 * theme.space);
  sizer->Add(plots, 1, wxEXPAND);
  SetSizer(sizer);
  for (wxRadioButton* pick : {pick_lengths_, pick_rounds_})
    pick->Bind(wxEVT_RADIOBUTTON, [this](wxCommandEvent&) { arrange(); });
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    arrange();
  });
}

void PlotsPanel::choose(const PlotPanel& plot) {
  (&plot == lengths_ ? pick_lengths_ : pick_rounds_)->SetValue(true);
  arrange();
}

void PlotsPanel::arrange() {
  const bool both = GetClientSize().x >= 2 * FromDIP(readable_width_dip);
  pick_lengths_->Show(!both);
  pick_rounds_->Show(!both);
  lengths_->Show(both || pick_lengths_->GetValue());
  rounds_->Show(both || pick_rounds_->GetValue());
  Layout();
}

}  // namespace fitwright
