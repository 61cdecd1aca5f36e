#pragma once
// What all designs draw alike: labels, arrows, marks, and the last steps of a coupon.

#include <array>
#include <string>
#include <vector>

#include "design/design.hpp"
#include "design/layers.hpp"

namespace fitwright {

/// A rectangle of the plan, mm.
struct Area {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  [[nodiscard]] bool meets(const Area& other, double gap_mm = 0) const;
};

/// The area that a label covers (quarter turns only).
Area area_of(const Label& label);

/// A label whose middle lies at (cx, cy).
Label centred_label(const std::string& text, double cx, double cy, double capital_height_mm, double turn_deg = 0);

/// A straight stroke of `width_mm` between two points, square ends.
Ring stroke(double x0, double y0, double x1, double y1, double width_mm);
/// An arrow from the first point to the tip at the second, shaft of `width_mm`.
Region arrow(double x0, double y0, double x1, double y1, double width_mm);
/// A triangle that points along (dx, dy), its tip at (x, y).
Ring pointer(double x, double y, double dx, double dy, double size_mm);

/// Cuts `labels` and `marks` into layer `layer`, and adds them to what the coupon has engraved.
void engrave(Coupon& coupon, LayerStack& stack, int layer, const std::vector<Label>& labels, const Region& marks);

/// Moves everything so that the corner of the bounding box is the origin; fills solid, sizes, layers, volume, grams;
/// numbers the places in their order.
void finish(Coupon& coupon, const LayerStack& stack);

/// "10", "99.5": a nominal as it is engraved.
std::string engraved(double mm);
/// Adds a, b, c ... to ids that occur more than once, in their order.
void letter_repeated(std::vector<Feature>& features);

/// Problems when a part of that size does not lie on the bed, room for a skirt around it included. `remedy` says what
/// to change on the part; the bed is offered beside it.
Problems bed_problems(const DesignValues& values, double size_x_mm, double size_y_mm, const std::string& remedy);
/// Longest length that a caliper of that range is taken to read: 1 % is left for parts that come out large.
double readable_mm(double caliper_range_mm);

}  // namespace fitwright
