#pragma once
// A coupon's solid: a stack of slabs, each a set of flat outlines between two heights.
//
// Everything a coupon needs can be said this way (upright walls, steps of a layer or more), and such a solid is
// printable without support when no slab reaches beyond the one below by more than a layer's height.

#include <cstdint>
#include <string>
#include <vector>

namespace fitwright {

/// Nanometres: outlines are whole numbers, so that faces meet exactly.
using Nm = std::int64_t;

/// mm to nm, rounded to the nearest.
Nm nm(double mm);
inline double mm(Nm value) { return static_cast<double>(value) * 1e-6; }

struct Point {
  Nm x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

/// A closed ring, last point joined to the first. Anticlockwise rings are material, clockwise ones are holes.
using Ring = std::vector<Point>;

/// Non-overlapping outlines with their holes (even-odd and non-zero give the same set).
using Region = std::vector<Ring>;

struct Slab {
  Nm bottom = 0;
  Nm top = 0;
  Region region;
};

struct Solid {
  std::string name;
  std::vector<Slab> slabs;  ///< ascending, touching: slabs[i].top == slabs[i+1].bottom
};

/// Volume in mm3 by the outlines (exact but for rounding to double).
double volume_mm3(const Solid& solid);

// Plane geometry on regions; results are cleaned of zero-length edges and collinear points.
Region unite(const Region& a, const Region& b);
Region subtract(const Region& a, const Region& b);
Region intersect(const Region& a, const Region& b);
/// Moves every edge outward by `by` (negative: inward), square corners kept sharp.
Region grow(const Region& region, Nm by);

// Makers. Lengths in mm.
Ring rectangle(double x0, double y0, double x1, double y1);
/// Regular polygon inscribed in the circle of diameter `diameter_mm`, first vertex at angle 0, anticlockwise.
Ring polygon(double cx, double cy, double diameter_mm, int facets);
/// Outline of one line of text, bold upright letters; baseline from (x, y) along direction `turn_deg`; capital height in mm.
/// Font and hinting are fixed so that equal input gives equal outlines.
Region text(const std::string& line, double x, double y, double capital_height_mm, double turn_deg = 0);
/// Width in mm of that line.
double text_width_mm(const std::string& line, double capital_height_mm);

}  // namespace fitwright
