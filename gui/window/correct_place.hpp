#pragma once
// Correct: what to change from what to what, what it does, what is left alone, and what became of it.

#include "window/corrections_panel.hpp"
#include "window/life_panel.hpp"
#include "window/place_panel.hpp"

namespace fitwright {

class CorrectPlace : public PlacePanel {
 public:
  CorrectPlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override;
  void view_changed() override;
  void refused(const std::string& problem) override;
  void take_focus() override;
  CorrectionsPanel& corrections() { return *corrections_; }
  LifePanel& life() { return *life_; }

 private:
  /// Tells what came of it; on success the whole window looks at the record anew.
  void after(const Result<Done>& done, const std::string& said);

  CorrectionsPanel* corrections_;
  LifePanel* life_;
};

}  // namespace fitwright
