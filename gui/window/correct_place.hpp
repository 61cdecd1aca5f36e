#pragma once
// Correct: what to change from what to what, what it does, and what is left alone.

#include "window/corrections_panel.hpp"
#include "window/place_panel.hpp"

namespace fitwright {

class CorrectPlace : public PlacePanel {
 public:
  CorrectPlace(wxWindow* parent, PlaceHost& host);

  void view_changed() override;
  void take_focus() override;
  CorrectionsPanel& corrections() { return *corrections_; }

 private:
  CorrectionsPanel* corrections_;
};

}  // namespace fitwright
