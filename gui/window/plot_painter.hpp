#pragma once
// Paints a plot scene; where everything goes follows from the size, the font and the scene alone.

#include <wx/graphics.h>

#include "bench/scene.hpp"
#include "window/theme.hpp"

namespace fitwright {

/// Where data stand on the paper.
struct PlotPlace {
  double left = 0, top = 0, right = 0, bottom = 0;  ///< of the axes' field
  double x_from = 0, x_to = 1, y_from = 0, y_to = 1;
  double mark_width = 0;

  [[nodiscard]] double x(double value) const { return left + (right - left) * (value - x_from) / (x_to - x_from); }
  [[nodiscard]] double y(double value) const { return bottom - (bottom - top) * (value - y_from) / (y_to - y_from); }
  /// The same, held inside the field: what lies beyond stands at its edge.
  [[nodiscard]] PlotPoint held(PlotPoint value) const;
  [[nodiscard]] bool holds(PlotPoint value) const;
  /// Where a mark is painted, on the paper.
  [[nodiscard]] PlotPoint of(const PlotMark& mark) const;
};

/// Paints `scene` on a paper of `width` x `height`; the mark at `chosen` is ringed (-1: none). Returns the place, for
/// finding marks under the pointer.
PlotPlace paint_plot(wxGraphicsContext& gc, const PlotScene& scene, const Theme& theme, double width, double height,
                     int chosen = -1);

/// Index of the mark within `reach` of a point of the paper, the nearest; -1 none.
int mark_at(const PlotScene& scene, const PlotPlace& place, double x, double y, double reach);

}  // namespace fitwright
