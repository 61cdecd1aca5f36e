#pragma once
// Understand: what the readings say, in sentences, plots and numbers.

#include <wx/notebook.h>
#include <wx/spinctrl.h>

#include "window/estimates_page.hpp"
#include "window/findings_page.hpp"
#include "window/place_panel.hpp"
#include "window/plots_panel.hpp"
#include "window/splitter.hpp"

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
  PlotPanel& lengths() { return plots_->lengths(); }
  PlotPanel& rounds() { return plots_->rounds(); }
  EstimatesPage& estimates() { return *estimates_; }
  wxNotebook& tabs() { return *tabs_; }

 private:
  void wishes_changed();

  wxSpinCtrlDouble* length_ = nullptr;
  wxSpinCtrlDouble* tolerance_ = nullptr;
  wxNotebook* tabs_ = nullptr;
  Splitter* down_ = nullptr;
  FindingsPage* findings_ = nullptr;
  PlotsPanel* plots_ = nullptr;
  EstimatesPage* estimates_ = nullptr;
};

}  // namespace fitwright
