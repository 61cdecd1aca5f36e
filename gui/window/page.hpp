#pragma once
// A page of laid-out text that scrolls: what it holds is decided by who derives from it.

#include <wx/scrolwin.h>

#include <string>
#include <vector>

#include "window/sheet.hpp"

namespace fitwright {

class Page : public wxScrolled<wxWindow> {
 public:
  Page(wxWindow* parent, const std::string& name);

  /// Lays the page out anew after its content changed.
  void changed();
  /// Paints all of the page, from its top, as wide as `width`; for tests and pictures.
  void paint_whole(wxDC& dc, int width);
  /// Height of the whole page at a width.
  int height_at(int width);

 protected:
  /// Lays everything on the sheet, from top to bottom. Must make the same calls whether painting or not.
  virtual void lay(Sheet& sheet) = 0;
  /// What a screen reader is told and Copy puts on the clipboard.
  [[nodiscard]] virtual std::string as_text() const = 0;

  [[nodiscard]] const Theme& theme() const { return theme_; }
  /// Shows the part of the page between two heights.
  void show_part(int top, int bottom);

 private:
  void on_paint(wxPaintEvent& event);
  void on_key(wxKeyEvent& event);
  void fit_to_width();

  Theme theme_;
  std::string name_;
  int laid_width_ = -1;
};

}  // namespace fitwright
