#pragma once
// A plot in the window: point at a mark to learn what it is, click or press Enter to go to its reading.

#include <wx/window.h>

#include <functional>
#include <string>
#include <vector>

#include "bench/scene.hpp"
#include "window/plot_painter.hpp"

namespace fitwright {

class PlotPanel : public wxWindow {
 public:
  PlotPanel(wxWindow* parent, const std::string& name);

  void show(const PlotScene& scene);
  /// Rings the first mark that stands for `row`, or none.
  void choose_row(std::size_t row);
  /// Called with the first row of the mark that was clicked.
  std::function<void(std::size_t row)> on_go;

  /// Called with what the mark in hand is; with nothing when there is none.
  std::function<void(const std::string& said)> on_told;
  /// The mark that was chosen, -1 none, and the rows it stands for.
  [[nodiscard]] int chosen_mark() const { return chosen_; }
  [[nodiscard]] std::vector<std::size_t> chosen_rows() const;
  [[nodiscard]] const PlotScene& scene() const { return scene_; }
  /// There is nothing to draw yet.
  [[nodiscard]] bool is_empty() const { return !scene_.empty.empty(); }

  void paint(wxDC& dc, const wxSize& size);

 private:
  void on_move(wxMouseEvent& event);
  void on_click(wxMouseEvent& event);
  void on_key(wxKeyEvent& event);
  void choose(int mark);
  void go();

  Theme theme_;
  std::string name_;
  PlotScene scene_;
  PlotPlace place_;
  int chosen_ = -1;
};

}  // namespace fitwright
