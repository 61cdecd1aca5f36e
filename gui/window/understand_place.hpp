#pragma once
// Understand: what the readings say, in sentences, plots and numbers.

#include <wx/notebook.h>
#include <wx/spinctrl.h>

#include "window/estimates_page.hpp"
#include "window/findings_page.hpp"
#include "window/place_panel.hpp"
#include "window/plots_panel.hpp"
#include "window/splitter.hpp"
#include "window/tried_panel.hpp"

namespace fitwright {

class UnderstandPlace : public PlacePanel {
 public:
  UnderstandPlace(wxWindow* parent, PlaceHost& host);

  void content_changed() override;
  void view_changed() override;
  void take_focus() override;
  bool do_action(int id) override;
  bool update_action(wxUpdateUIEvent& event) override;

  // The parts, by what they show.
  FindingsPage& findings() { return *findings_; }
  PlotPanel& lengths() { return plots_->plot(Plot::lengths); }
  PlotPanel& rounds() { return plots_->plot(Plot::rounds); }
  PlotsPanel& plots() { return *plots_; }
  TriedPanel& trial() { return *trial_; }
  EstimatesPage& estimates() { return *estimates_; }
  wxNotebook& tabs() { return *tabs_; }

 private:
  void wishes_changed();
  void try_readings(const std::vector<ReadingKey>& readings);
  void toggle_trial();

  wxSpinCtrlDouble* length_ = nullptr;
  wxSpinCtrlDouble* tolerance_ = nullptr;
  wxNotebook* tabs_ = nullptr;
  Splitter* down_ = nullptr;
  FindingsPage* findings_ = nullptr;
  PlotsPanel* plots_ = nullptr;
  EstimatesPage* estimates_ = nullptr;
  TriedPanel* trial_ = nullptr;
  int tab_before_ = 0;  // to go back to after a trial
};

}  // namespace fitwright
