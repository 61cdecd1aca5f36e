#include "practice/true_size.hpp"

#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

double of_axis(const AxisValues& values, Axis axis) {
  return axis == Axis::x ? values.x : axis == Axis::y ? values.y : values.z;
}

/// Real width of a one-bead wall: flat middle and two half-round flanks, the cross-section kept when flow changes.
double bead_width_mm(double drawn_mm, double layer_mm, double flow) {
  const double k = layer_mm * (1 - std::numbers::pi / 4);
  return k + flow * (drawn_mm - k);
}

/// Width over flats normal to a diagonal of the rectangle a x b: normals transform as covectors.
double flats_mm(const TrueFeature& feature, bool plus, double sx, double sy, double skew, double edge_mm) {
  const double width = feature.lengths_mm[0], a = feature.lengths_mm[1], b = feature.lengths_mm[2];
  const double h = hypotenuse(a, b);
  const double A = 1 + sx, B = 1 + sy;
  const double nx = a / h, ny = (plus ? b : -b) / h;
  return width / hypotenuse(nx / A, ny / B - skew * nx / A) + 2 * edge_mm;
}

double diagonal_mm(const TrueFeature& feature, bool plus, double sx, double sy, double skew, double edge_mm) {
  const double a = feature.lengths_mm[0] * (1 + sx) + 2 * edge_mm;
  const double b = feature.lengths_mm[1] * (1 + sy) + 2 * edge_mm;
  const double g = plus ? skew : -skew;
  return hypotenuse(a + g * b, b);
}

}  // namespace

double hypotenuse(double a, double b) {
  // a^2 + b^2 as an exact leading part and the rest, then one Newton step on the rounded root.
  const double aa = a * a, bb = b * b;
  const double rest_of_squares = std::fma(a, a, -aa) + std::fma(b, b, -bb);
  const double sum = aa + bb;
  const double big = std::fmax(aa, bb), small = std::fmin(aa, bb);
  const double rest = (small - (sum - big)) + rest_of_squares;
  const double h = std::sqrt(sum);
  if (h == 0) return h;
  return h + (rest - std::fma(h, h, -sum)) / (2 * h);
}

AxisValues scales_of(const Truth& truth) {
  if (!truth.machine || !truth.shrink_xy || !truth.shrink_z) return truth.scale;
  const auto combined = [](double m, double k) { return (1 + m) * (1 - k) - 1; };
  return {combined(truth.machine->x, *truth.shrink_xy), combined(truth.machine->y, *truth.shrink_xy),
          combined(truth.machine->z, *truth.shrink_z)};
}

// The order of the operations below is part of the format: readings must come out the same to the last digit.
double true_size_mm(const Truth& truth, const AxisValues& scale, const TrueFeature& feature, Kind kind, Axis axis,
                    const CopyErrors& copy) {
  const double L = feature.lengths_mm[0];
  const double e = copy.edge_growth_mm;
  const double sx = scale.x + copy.scale, sy = scale.y + copy.scale, sz = scale.z + copy.scale;
  const double sm = (sx + sy) / 2;
  const double along = 1 + of_axis(scale, axis) + copy.scale;  // not 1 + sx: see above
  switch (kind) {
    case Kind::outer:
      return axis == Axis::z ? L * (1 + sz) + truth.z0_mm : L * along + 2 * e;
    case Kind::inner:
      return L * along - 2 * e;
    case Kind::foot:
      return L * along + 2 * e + 2 * truth.flare_mm;
    case Kind::pitch:
      return L * along;
    case Kind::peg:
      return L * (1 + sm) + 2 * e - truth.peg_p0_mm - truth.peg_p1_mm2 / L;
    case Kind::hole:
    case Kind::pin:
      return L * (1 + sm) - 2 * e - truth.hole_c0_mm - truth.hole_c1_mm2 / L - 2 * truth.facets_chord_mm;
    case Kind::hole_h: {
      const double s = ((axis == Axis::x ? sy : sx) + sz) / 2;
      return L * (1 + s) - truth.holeh_c0_mm - truth.holeh_c1_mm2 / L;
    }
    case Kind::wall:
      return bead_width_mm(L, truth.wall_layer_mm, truth.wall_flow);
    case Kind::diag_plus:
    case Kind::diag_minus:
      return diagonal_mm(feature, kind == Kind::diag_plus, sx, sy, truth.skew_rad, e);
    case Kind::flats_plus:
    case Kind::flats_minus:
      return flats_mm(feature, kind == Kind::flats_plus, sx, sy, truth.skew_rad, e);
    case Kind::zero:
    case Kind::gauge:
    case Kind::ring:
      return L;
  }
  return L;
}

}  // namespace fitwright
