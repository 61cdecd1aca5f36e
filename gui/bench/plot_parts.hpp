#pragma once
// What the plots share: contrasts with their uncertainty, ranges, and marks of places and of readings set aside.

#include <functional>
#include <map>
#include <optional>
#include <string>

#include "bench/analysis.hpp"
#include "bench/scene.hpp"
#include "model/contrast.hpp"

namespace fitwright {

/// Half-width of the 95 % interval of a contrast. Parameters that were not estimated count as known; empty when one of
/// `needed` was not estimated, for then the contrast is known only as part of a sum.
std::optional<double> half_width_95(const Estimates& estimates, const Contrast& contrast, const Contrast& needed);

/// Grows with the values it is shown; padded and put round zero at the end.
class Range {
 public:
  void show(double value);
  [[nodiscard]] bool empty() const { return empty_; }
  [[nodiscard]] PlotAxis axis(double pad_share, int ticks, bool signs, std::string title) const;

 private:
  double low_ = 0, high_ = 0;
  bool empty_ = true;
};

/// How a kind of feature is marked everywhere, and in which colour: lengths by their axis, round ones by their kind.
Shape shape_of(Kind kind);
Ink ink_of(Axis axis);
Ink ink_of(Kind kind, Axis axis);

/// Mark of one place on one copy: deviation of its mean against the drawn size.
PlotMark place_mark(const Analysis& analysis, const Cell& cell, Ink ink, Shape shape);

/// Crosses for readings of the wanted kinds that were set aside.
void add_set_aside(const Analysis& analysis, PlotScene& scene, const std::function<bool(Kind)>& wanted);

}  // namespace fitwright
