#pragma once
// The two plots: side by side where there is room, else the chosen one.

#include <wx/panel.h>
#include <wx/radiobut.h>

#include "window/plot_panel.hpp"

namespace fitwright {

class PlotsPanel : public wxPanel {
 public:
  explicit PlotsPanel(wxWindow* parent);

  PlotPanel& lengths() { return *lengths_; }
  PlotPanel& rounds() { return *rounds_; }
  /// Shows one of them, where there is room for one only.
  void choose(const PlotPanel& plot);

 private:
  void arrange();

  PlotPanel* lengths_;
  PlotPanel* rounds_;
  wxRadioButton* pick_lengths_;
  wxRadioButton* pick_rounds_;
};

}  // namespace fitwright
