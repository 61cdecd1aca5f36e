#pragma once
// Text laid out down a page: the same calls measure first and paint afterwards, so both always agree.

#include <wx/dc.h>
#include <wx/graphics.h>

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "bench/scene.hpp"
#include "window/theme.hpp"

namespace fitwright {

enum class Side { left, right };

class Sheet {
 public:
  /// Measures only, unless `painting`. `width` is that of the page, margins included.
  Sheet(wxDC& dc, const Theme& theme, int width, bool painting);

  [[nodiscard]] const Theme& theme() const { return theme_; }
  [[nodiscard]] int y() const { return y_; }
  void move_to(int y) { y_ = y; }
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int margin() const { return 4 * theme_.space; }
  [[nodiscard]] bool painting() const { return painting_; }
  /// Width of a text in a font.
  int wide(const std::string& text, const wxFont& font);
  int line_height(const wxFont& font);

  void skip(int spaces) { y_ += spaces * theme_.space; }
  /// Words broken at blanks between `left` and `right`; goes down by its height.
  void paragraph(const std::string& text, const wxFont& font, const wxColour& colour, int left, int right);
  /// One line at the present height; does not go down. For `Side::right`, `x` is the right end. A text wider than
  /// `limit` (if one is given) ends in an ellipsis.
  void cell(const std::string& text, const wxFont& font, const wxColour& colour, int x, Side side, int limit = 0);
  /// A hairline across, at the present height.
  void rule(int left, int right);
  void box(const wxRect& rect, const wxColour& colour);
  /// A mark centred at a point.
  void mark(Shape shape, double x, double y, double radius, const wxColour& colour);
  /// Paints with the graphics context of this sheet, when painting.
  void draw(const std::function<void(wxGraphicsContext&)>& with);

 private:
  std::vector<wxString> broken(const wxString& text, int width);

  wxDC& dc_;
  const Theme& theme_;
  int width_;
  int y_ = 0;
  bool painting_;
};

/// Draws a filled mark of a shape; every shape covers about the same area.
void draw_mark(wxGraphicsContext& gc, Shape shape, double x, double y, double radius, const wxColour& colour,
               const wxColour& ground);

}  // namespace fitwright
