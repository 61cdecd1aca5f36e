#include "window/grid_drawing.hpp"

#include <wx/dc.h>

#include <memory>

#include "window/readings_grid.hpp"
#include "window/sheet.hpp"

namespace fitwright {

void CellDrawing::Draw(wxGrid&, wxGridCellAttr&, wxDC& dc, const wxRect& rect, int row, int col, bool selected) {
  const Theme& t = grid_.theme();
  const Column column = grid_.columns()[static_cast<std::size_t>(col)];
  const RowMark* mark = grid_.mark(row);
  const wxColour ground = selected ? t.chosen : grid_.striped(row) ? t.raised : t.ground;
  dc.SetPen(*wxTRANSPARENT_PEN);
  dc.SetBrush(wxBrush(ground));
  dc.DrawRectangle(rect);

  wxColour colour = t.text;
  const bool strong = column == Column::reading;
  if (column != Column::feature && column != Column::reading && column != Column::deviation) colour = t.quiet;
  if (mark && (column == Column::reading || column == Column::deviation || column == Column::remark)) colour = t.warn;
  if (selected) colour = t.chosen_text;

  wxRect inner = rect;
  inner.Deflate(2 * t.space, 0);
  if (mark && column == Column::remark) {
    const double radius = 1.1 * t.space;
    const double x = inner.x + radius;
    const double y = rect.y + rect.height / 2.0;
    const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::CreateFromUnknownDC(dc));
    if (gc) draw_mark(*gc, mark->used ? Shape::triangle : Shape::cross, x, y, radius, colour, ground);
    inner.x += 4 * t.space;
    inner.width -= 4 * t.space;
  }
  dc.SetFont(strong ? t.strong : t.body);
  dc.SetTextForeground(colour);
  const wxDCClipper clip(dc, rect);
  const int right = info(column).number ? wxALIGN_RIGHT : wxALIGN_LEFT;
  dc.DrawLabel(wx(grid_.shown_text(row, col)), inner, right | wxALIGN_CENTRE_VERTICAL);
}

wxSize CellDrawing::GetBestSize(wxGrid&, wxGridCellAttr&, wxDC& dc, int row, int col) {
  dc.SetFont(grid_.theme().strong);
  wxSize size = dc.GetTextExtent(wx(grid_.shown_text(row, col)));
  size.x += 8 * grid_.theme().space;
  return size;
}

void HeaderDrawing::DrawLabel(const wxGrid&, wxDC& dc, const wxString& value, const wxRect& rect, int, int, int) const {
  const Theme& t = grid_.theme();
  wxRect inner = rect;
  inner.Deflate(2 * t.space, 0);
  dc.SetFont(t.body);
  dc.SetTextForeground(t.quiet);
  dc.DrawLabel(value, inner, (right_ ? wxALIGN_RIGHT : wxALIGN_LEFT) | wxALIGN_CENTRE_VERTICAL);
}

void HeaderDrawing::DrawBorder(const wxGrid&, wxDC& dc, wxRect& rect) const {
  dc.SetPen(wxPen(grid_.theme().of(Ink::zero), 1));
  dc.DrawLine(rect.x, rect.GetBottom(), rect.GetRight() + 1, rect.GetBottom());
}

const wxGridColumnHeaderRenderer& HeaderProvider::GetColumnHeaderRenderer(int col) {
  const bool number = info(grid_.columns()[static_cast<std::size_t>(col)]).number;
  return number ? right_ : left_;
}

}  // namespace fitwright
