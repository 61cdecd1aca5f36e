#include "window/plots_panel.hpp"

#include <wx/sizer.h>
#include <wx/wrapsizer.h>

#include <algorithm>

#include "base/words.hpp"
#include "window/access.hpp"

namespace fitwright {
namespace {

constexpr int readable_width_dip = 440;  // below it a plot's words begin to crowd its marks

constexpr std::array<const char*, plot_count> names{noted("Lengths"), noted("Holes and pegs"),
                                                    noted("Residuals as typed"), noted("Residuals by feature"),
                                                    noted("Corner")};

/// What is looked at together; itself where it stands alone.
Plot partner(Plot which) {
  switch (which) {
    case Plot::lengths:
      return Plot::rounds;
    case Plot::rounds:
      return Plot::lengths;
    case Plot::by_order:
      return Plot::by_feature;
    case Plot::by_feature:
      return Plot::by_order;
    case Plot::corner:
      break;
  }
  return which;
}

}  // namespace

PlotsPanel::PlotsPanel(wxWindow* parent)
    : wxPanel(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(600, 300))) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  auto* picks = new wxWrapSizer(wxHORIZONTAL);
  auto* plots = new wxBoxSizer(wxHORIZONTAL);
  for (std::size_t i = 0; i < plot_count; ++i) {
    picks_[i] =
        new wxRadioButton(this, wxID_ANY, wx(tr(names[i])), wxDefaultPosition, wxDefaultSize, i == 0 ? wxRB_GROUP : 0);
    set_accessible(*picks_[i], tr(names[i]));
    picks->Add(picks_[i], 0, wxRIGHT, 4 * theme.space);
    picks_[i]->Bind(wxEVT_RADIOBUTTON, [this, i](wxCommandEvent&) { choose(static_cast<Plot>(i)); });
  }
  for (std::size_t i = 0; i < plot_count; ++i) {
    plots_[i] = new PlotPanel(this, tr(names[i]));
    plots_[i]->SetMinSize(FromDIP(wxSize(200, 120)));
    plots->Add(plots_[i], 1, wxEXPAND);
    plots_[i]->on_go = [this](std::size_t row) {
      if (on_go) on_go(row);
    };
    plots_[i]->on_told = [this, i](const std::string& mark) {
      if (plots_[i]->chosen_mark() >= 0) last_ = plots_[i];
      tell(mark);
    };
  }
  told_ =
      new wxStaticText(this, wxID_ANY, {}, wxDefaultPosition, wxDefaultSize, wxST_NO_AUTORESIZE | wxST_ELLIPSIZE_END);
  told_->SetForegroundColour(theme.quiet);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(picks, 0, wxEXPAND | wxLEFT | wxRIGHT | wxTOP, 2 * theme.space);
  sizer->Add(plots, 1, wxEXPAND);
  sizer->Add(told_, 0, wxEXPAND | wxLEFT | wxRIGHT | wxBOTTOM, 2 * theme.space);
  SetSizer(sizer);
  tell({});
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    arrange();
  });
}

void PlotsPanel::show(const BenchView& view) {
  const std::array<const PlotScene*, plot_count> scenes{&view.lengths, &view.rounds, &view.by_order, &view.by_feature,
                                                        &view.corner};
  for (std::size_t i = 0; i < plot_count; ++i) plots_[i]->show(*scenes[i]);
  arrange();
}

void PlotsPanel::choose(Plot which) {
  chosen_ = which;
  picks_[static_cast<std::size_t>(which)]->SetValue(true);
  tell({});
  arrange();
}

std::vector<std::size_t> PlotsPanel::chosen_rows() const {
  return last_ && last_->IsShown() ? last_->chosen_rows() : std::vector<std::size_t>{};
}

void PlotsPanel::arrange() {
  const bool wide = GetClientSize().x >= 2 * FromDIP(readable_width_dip);
  const auto at = [](Plot which) { return static_cast<std::size_t>(which); };
  for (std::size_t i = 0; i < plot_count; ++i) {
    const bool beside = wide && i == at(partner(chosen_)) && !plots_[i]->is_empty() && !plot(chosen_).is_empty();
    plots_[i]->Show(i == at(chosen_) || beside);
  }
  Layout();
}

void PlotsPanel::tell(const std::string& mark) {
  told_->SetLabelText(wx(mark.empty() ? tr("Point at a mark, or go through them with the arrow keys. Enter goes to its "
                                           "reading, F7 tries the estimate without it.")
                                      : mark));
}

}  // namespace fitwright
