#pragma once
// A coupon's solid: a stack of slabs, each a set of flat outlines between two heights.
//
// Everything a coupon needs can be said this way (upright walls, steps of a layer or more), and such a solid is
// printable without support when no slab reaches beyond the one below by more than a layer's height.

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// Nanometres: outlines are whole numbers, so that faces meet exactly.
using Nm = std::int64_t;

/// mm to nm, rounded to the nearest. Throws std::logic_error for what is no length of a part (not finite, over 1 km).
Nm nm(double mm);
inline double mm(Nm value) { return static_cast<double>(value) / 1e6; }

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

// Plane geometry on regions. Rings given may overlap and touch (non-zero rule). Results are clean: no zero-length edge,
// no collinear point, outer rings anticlockwise, holes clockwise, each starting at its lowest (x, y), in ascending
// order; so equal sets are equal values.
Region unite(const Region& a, const Region& b);
Region subtract(const Region& a, const Region& b);
Region intersect(const Region& a, const Region& b);
/// Moves every edge outward by `by` nm (negative: inward). Corners of 60 degrees and more are kept sharp, sharper ones
/// are cut off square.
Region grow(const Region& region, Nm by);

// Makers. Lengths in mm. They throw std::logic_error for what no design may ask for (an empty rectangle, 2 facets).
Ring rectangle(double x0, double y0, double x1, double y1);
/// Regular polygon inscribed in the circle of diameter `diameter_mm`, first vertex at angle 0, anticlockwise; vertices
/// rounded to the nearest nm.
Ring polygon(double cx, double cy, double diameter_mm, int facets);

/// Whether text can be made. Error: Code::io when the font (DejaVu Sans Bold) is not installed. A caller that makes
/// labels asks once, before anything else.
Result<Done> text_ready();
/// Outline of one line of text, bold upright letters; baseline from (x, y) along direction `turn_deg` (anticlockwise
/// from X); `capital_height_mm` is the height of the letter H. Font fixed, no hinting, no kerning, curves flattened to
/// within 0.01 mm, so that equal input gives equal outlines. Throws std::runtime_error when the font is missing.
Region text(const std::string& line, double x, double y, double capital_height_mm, double turn_deg = 0);
/// Width in mm of that line: from the start of its baseline to where the next letter would stand. Throws as text().
double text_width_mm(const std::string& line, double capital_height_mm);

}  // namespace fitwright
