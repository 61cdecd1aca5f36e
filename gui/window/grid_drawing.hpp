#pragma once
// How cells and headers of the table of readings are drawn.

#include <wx/grid.h>

namespace fitwright {

class ReadingsGrid;

/// Draws a cell: numbers to the right, a stripe a feature, suspicious readings by a sign and in words.
class CellDrawing : public wxGridCellRenderer {
 public:
  explicit CellDrawing(const ReadingsGrid& grid) : grid_(grid) {}
  void Draw(wxGrid& grid, wxGridCellAttr& attr, wxDC& dc, const wxRect& rect, int row, int col, bool selected) override;
  wxSize GetBestSize(wxGrid& grid, wxGridCellAttr& attr, wxDC& dc, int row, int col) override;
  wxGridCellRenderer* Clone() const override { return new CellDrawing(grid_); }

 private:
  const ReadingsGrid& grid_;
};

/// Draws a column's title, aligned as its cells are, over a hairline.
class HeaderDrawing : public wxGridColumnHeaderRenderer {
 public:
  HeaderDrawing(const ReadingsGrid& grid, bool right) : grid_(grid), right_(right) {}
  void DrawLabel(const wxGrid& grid, wxDC& dc, const wxString& value, const wxRect& rect, int horizontal, int vertical,
                 int orientation) const override;
  void DrawBorder(const wxGrid& grid, wxDC& dc, wxRect& rect) const override;

 private:
  const ReadingsGrid& grid_;
  bool right_;
};

class HeaderProvider : public wxGridCellAttrProvider {
 public:
  explicit HeaderProvider(const ReadingsGrid& grid) : grid_(grid), left_(grid, false), right_(grid, true) {}
  const wxGridColumnHeaderRenderer& GetColumnHeaderRenderer(int col) override;

 private:
  const ReadingsGrid& grid_;
  HeaderDrawing left_, right_;
};

}  // namespace fitwright
