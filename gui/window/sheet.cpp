#include "window/sheet.hpp"

#include <wx/control.h>

#include <algorithm>

namespace fitwright {

Sheet::Sheet(wxDC& dc, const Theme& theme, int width, bool painting)
    : dc_(dc), theme_(theme), width_(width), painting_(painting) {}

int Sheet::wide(const std::string& text, const wxFont& font) {
  dc_.SetFont(font);
  return dc_.GetTextExtent(wx(text)).x;
}

int Sheet::line_height(const wxFont& font) {
  dc_.SetFont(font);
  return dc_.GetCharHeight();
}

std::vector<wxString> Sheet::broken(const wxString& text, int width) {
  std::vector<wxString> lines;
  wxArrayInt ends;
  dc_.GetPartialTextExtents(text, ends);
  std::size_t start = 0;
  std::size_t blank = wxString::npos;  // last place to break
  for (std::size_t i = 0; i < text.length(); ++i) {
    if (text[i] == '\n') {
      lines.push_back(text.Mid(start, i - start));
      start = i + 1;
      blank = wxString::npos;
      continue;
    }
    if (text[i] == ' ') blank = i;
    const int begin = start == 0 ? 0 : ends[start - 1];
    if (text[i] != ' ' && ends[i] - begin > width && blank != wxString::npos && blank >= start) {
      lines.push_back(text.Mid(start, blank - start));
      start = blank + 1;
      blank = wxString::npos;
    }
  }
  lines.push_back(text.Mid(start));
  return lines;
}

void Sheet::paragraph(const std::string& text, const wxFont& font, const wxColour& colour, int left, int right) {
  if (text.empty()) return;
  dc_.SetFont(font);
  const int height = dc_.GetCharHeight();
  for (const wxString& line : broken(wx(text), std::max(1, right - left))) {
    if (painting_) {
      dc_.SetTextForeground(colour);
      dc_.DrawText(line, left, y_);
    }
    y_ += height;
  }
}

void Sheet::cell(const std::string& text, const wxFont& font, const wxColour& colour, int x, Side side, int limit) {
  if (!painting_ || text.empty()) return;
  dc_.SetFont(font);
  const wxString shown = limit > 0 ? wxControl::Ellipsize(wx(text), dc_, wxELLIPSIZE_END, limit) : wx(text);
  dc_.SetTextForeground(colour);
  dc_.DrawText(shown, side == Side::left ? x : x - dc_.GetTextExtent(shown).x, y_);
}

void Sheet::rule(int left, int right) {
  if (!painting_) return;
  dc_.SetPen(wxPen(theme_.faint, 1));
  dc_.DrawLine(left, y_, right, y_);
}

void Sheet::box(const wxRect& rect, const wxColour& colour) {
  if (!painting_) return;
  dc_.SetPen(*wxTRANSPARENT_PEN);
  dc_.SetBrush(wxBrush(colour));
  dc_.DrawRectangle(rect);
}

void Sheet::mark(Shape shape, double x, double y, double radius, const wxColour& colour) {
  draw([&](wxGraphicsContext& gc) { draw_mark(gc, shape, x, y, radius, colour, theme_.ground); });
}

void Sheet::draw(const std::function<void(wxGraphicsContext&)>& with) {
  if (!painting_) return;
  const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::CreateFromUnknownDC(dc_));
  if (gc) with(*gc);
}

void draw_mark(wxGraphicsContext& gc, Shape shape, double x, double y, double radius, const wxColour& colour,
               const wxColour& ground) {
  constexpr double outline = 1.0;
  gc.SetPen(wxPen(ground, static_cast<int>(outline)));
  gc.SetBrush(wxBrush(colour));
  wxGraphicsPath path = gc.CreatePath();
  switch (shape) {
    case Shape::disc:
      path.AddCircle(x, y, radius);
      break;
    case Shape::square: {
      const double a = 0.89 * radius;  // a square of the disc's area: half side = radius sqrt(pi) / 2
      path.AddRectangle(x - a, y - a, 2 * a, 2 * a);
      break;
    }
    case Shape::diamond: {
      const double a = 1.25 * radius;  // the same square on its corner: half diagonal = radius sqrt(pi / 2)
      path.MoveToPoint(x, y - a);
      path.AddLineToPoint(x + a, y);
      path.AddLineToPoint(x, y + a);
      path.AddLineToPoint(x - a, y);
      path.CloseSubpath();
      break;
    }
    case Shape::triangle: {
      const double a =
          1.35 * radius;  // circumradius of an equilateral triangle of nearly the disc's area, seen smaller
      path.MoveToPoint(x, y - a);
      path.AddLineToPoint(x + 0.866 * a, y + 0.5 * a);
      path.AddLineToPoint(x - 0.866 * a, y + 0.5 * a);
      path.CloseSubpath();
      break;
    }
    case Shape::cross: {
      gc.SetPen(wxPen(colour, std::max(2, static_cast<int>(radius / 2))));
      path.MoveToPoint(x - radius, y - radius);
      path.AddLineToPoint(x + radius, y + radius);
      path.MoveToPoint(x - radius, y + radius);
      path.AddLineToPoint(x + radius, y - radius);
      gc.StrokePath(path);
      return;
    }
  }
  gc.FillPath(path);
  gc.StrokePath(path);
}

}  // namespace fitwright
