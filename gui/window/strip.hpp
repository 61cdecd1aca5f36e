#pragma once
// A strip of laid-out text of a fixed number of lines: the header and the reading in hand.

#include <wx/window.h>

#include <functional>
#include <string>

#include "window/sheet.hpp"

namespace fitwright {

class Strip : public wxWindow {
 public:
  /// `lay` is called to paint, with the strip's own width.
  Strip(wxWindow* parent, const std::string& name, std::function<void(Sheet&)> lay);

  /// Paints anew; `said` is for the screen reader.
  void changed(const std::string& said);
  void paint(wxDC& dc, const wxSize& size);
  [[nodiscard]] const Theme& theme() const { return theme_; }

 private:
  std::string name_;
  std::function<void(Sheet&)> lay_;
  Theme theme_;
};

}  // namespace fitwright
