#pragma once
// Measure: the readings, and the one in hand in the largest type of the window.

#include <optional>
#include <string>

#include "window/place_panel.hpp"
#include "window/readings_grid.hpp"
#include "window/strip.hpp"

namespace fitwright {

class MeasurePlace : public PlacePanel {
 public:
  MeasurePlace(wxWindow* parent, PlaceHost& host);

  void content_changed() override;
  void view_changed() override;
  void refused(const std::string& problem) override;
  void take_focus() override;
  bool do_action(int id) override;
  bool update_action(wxUpdateUIEvent& event) override;
  void go_to(std::size_t row);
  /// Ends the editing of a cell, taking what was typed.
  void end_editing();

  ReadingsGrid& grid() { return *grid_; }
  Strip& hand() { return *hand_; }

 private:
  void lay_hand(Sheet& sheet) const;
  void show_hand();
  void copy();
  void paste();
  void clear_cells();
  void take_proposal();
  void next_doubt();

  ReadingsGrid* grid_;
  Strip* hand_;
  std::size_t hand_row_ = 0;
  std::string problem_;
  std::string typing_;  // the reading that is being typed, as far as it goes
  bool all_columns_ = false;
};

}  // namespace fitwright
