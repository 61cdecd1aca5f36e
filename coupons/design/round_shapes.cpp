#include "design/round_shapes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

/// The mouth lies this far on the free side of the circle, so that notch and circle overlap.
constexpr double notch_overlap_mm = 0.3;

/// The notch that takes the seam, as a triangle: deepest at radius `tip`, open at radius `mouth`, at 45 degrees.
Ring notch(const RoundSpot& spot, double tip, double mouth) {
  const double c = std::numbers::sqrt2 / 2, half = 0.7 * std::abs(mouth - tip);
  const auto at = [&](double radius, double aside) {
    return Point{nm(spot.cx + (radius - aside) * c), nm(spot.cy + (radius + aside) * c)};
  };
  Ring ring{at(tip, 0), at(mouth, half), at(mouth, -half)};
  if (mouth > tip) std::reverse(ring.begin() + 1, ring.end());
  return ring;
}

double notch_depth_mm(double diameter) { return std::clamp(diameter / 8, 0.3, 0.6); }

/// Radius of the inscribed circle: the flats.
double flats_radius(double diameter, int facets) { return diameter / 2 * std::cos(std::numbers::pi / facets); }

}  // namespace

Region notched_bore(const RoundSpot& spot, int facets, double widened_mm) {
  const double d = spot.diameter_mm + 2 * widened_mm;
  const double tip = spot.diameter_mm / 2 + notch_depth_mm(spot.diameter_mm);
  return unite({polygon(spot.cx, spot.cy, d, facets)},
               {notch(spot, tip, flats_radius(spot.diameter_mm, facets) - notch_overlap_mm)});
}

Region notched_peg(const RoundSpot& spot, int facets) {
  const double tip = flats_radius(spot.diameter_mm, facets) - notch_depth_mm(spot.diameter_mm);
  return subtract({polygon(spot.cx, spot.cy, spot.diameter_mm, facets)},
                  {notch(spot, tip, spot.diameter_mm / 2 + notch_overlap_mm)});
}

double ring_wall_mm(double bore_mm) {
  constexpr double wide_mm = 12, largest_mm = 20, thin = 2.7, thick = 3.6;
  // A ring closes as (radius / wall)^3: beyond 20 mm the wall grows with the bore.
  return bore_mm > largest_mm ? thick * bore_mm / largest_mm : bore_mm > wide_mm ? thick : thin;
}

Feature round_feature(const std::string& id, Kind kind, double diameter_mm, int facets) {
  Feature f;
  f.id = id;
  f.kind = kind == Kind::hole && diameter_mm <= shank_up_to_mm ? Kind::pin : kind;
  f.axis = Axis::z;
  f.nominal_mm = diameter_mm;
  f.facets = facets;
  f.label = f.kind == Kind::peg   ? "peg, first reading along X, second along Y"
            : f.kind == Kind::pin ? "hole, largest graded shank that enters"
                                  : "hole, first reading along X, second along Y";
  return f;
}

JawPlace round_place(const Feature& feature, const RoundSpot& spot, double z_mm, double compliance_mm_per_n) {
  JawPlace p;
  p.feature_id = feature.id;
  p.ax = spot.cx - spot.diameter_mm / 2, p.bx = spot.cx + spot.diameter_mm / 2;
  p.ay = p.by = spot.cy;
  p.inside = feature.kind != Kind::peg;
  p.z_mm = z_mm;
  p.compliance_mm_per_n = compliance_mm_per_n;
  return p;
}

}  // namespace fitwright
