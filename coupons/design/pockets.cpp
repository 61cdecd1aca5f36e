// The pockets: one bought part (bearing, magnet, nut, pin, screw, a part of one's own) and pockets for it from tight to
// loose. How large is the pocket to be drawn?
//
// Why it is as it is:
// - Each pocket is a standing ring on a thin floor, drawn larger than the part by the clearance that stands in front.
//   The walls are as thick as the jaws' force asks for, which is about what a pocket in a part has.
// - A hole in the floor lets a rod push the part out again. Small pockets are open below for the same reason.
// - Round, square (read along X) and hexagonal pockets (flats along X, as jaws need it), by the number of sides.
// - Pockets are measured, so that trials can use the clearance as it came out: the part itself is read with the same
//   caliper, whose zero then cancels. Pockets less than 4 mm deep take no inside jaws and are not measured.

#include "design/pockets.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/grading.hpp"
#include "design/parameters.hpp"
#include "design/relief.hpp"
#include "design/round_shapes.hpp"

namespace fitwright {
namespace {

constexpr int facets = 160;  ///< a multiple of four: 22 mm lose 4 micrometres
constexpr int ring_facets = 96;
constexpr int hole_facets = 24;         ///< of the holes to push through, which nobody measures
constexpr double floor_mm = 0.6;        ///< least
constexpr double measured_deep_mm = 4;  ///< inside jaws need it
constexpr double measured_flat_mm =
    5.5;                             ///< least width of flat pockets that is read: the flats of a hexagon are 3.2 mm
constexpr double open_up_to_mm = 5;  ///< parts up to this size: pockets open below
constexpr double push_share = 0.4;   ///< of the part's size: the hole to push through

enum Shape { round = 0, square = 4, hexagon = 6 };

/// What the pocket is enlarged by on its widest line: corner over flat.
double corner_share(int sides) {
  return sides == hexagon ? 2 / std::numbers::sqrt3 : sides == square ? std::numbers::sqrt2 : 1;
}

/// A hexagon of that width over the flats, flats normal to X.
Ring hexagon_ring(double cx, double cy, double flats) {
  const double half = flats / 2, side = flats / std::numbers::sqrt3;
  const auto at = [&](double x, double y) { return Point{nm(cx + x), nm(cy + y)}; };
  return {at(half, -side / 2), at(half, side / 2),   at(0, side),
          at(-half, side / 2), at(-half, -side / 2), at(0, -side)};
}

Region pocket(const RoundSpot& spot, int sides, double widened_mm) {
  const double size = spot.diameter_mm + 2 * widened_mm, half = size / 2;
  if (sides == hexagon) return {hexagon_ring(spot.cx, spot.cy, size)};
  if (sides == square) return {rectangle(spot.cx - half, spot.cy - half, spot.cx + half, spot.cy + half)};
  return notched_bore(spot, facets, widened_mm);
}

/// Outside of a pocket: a square around a square, a ring around all else.
Region outside(double cx, double cy, int sides, double cell) {
  if (sides == square) return {rectangle(cx - cell / 2, cy - cell / 2, cx + cell / 2, cy + cell / 2)};
  return {polygon(cx, cy, cell, ring_facets)};
}

double cell_mm(double size, int sides) {
  return sides == square ? size + 2 * ring_wall_mm(size) : size * corner_share(sides) + 2 * ring_wall_mm(size);
}

/// Closing of a flat pocket: a square's walls as bars held at both ends, loaded in the middle; a hexagon's as a ring.
double flat_closing(double size, int sides, double height) {
  if (sides == hexagon) return ring_closing(size * corner_share(sides), ring_wall_mm(size), height);
  const Section wall = rectangle_section(0, ring_wall_mm(size), 0, height);
  return 2 * size * size * size / (192 * youngs_modulus_mpa * wall.inertia_plan_mm4);
}

Feature pocket_feature(const std::string& id, int sides, double size) {
  if (sides == round) return round_feature(id, Kind::hole, size, facets);
  Feature f;
  f.id = id;
  f.kind = Kind::inner;
  f.axis = Axis::x;
  f.nominal_mm = size;
  f.label = "pocket, between the flats";
  return f;
}

void add_notes(Coupon& coupon, bool measured) {
  coupon.printing_notes.push_back(
      tr("Seam to the notches or corners of the pockets. In your own parts a seam inside a plain hole takes room: give "
         "it such a notch, or leave more clearance."));
  if (measured)
    coupon.measuring_notes.push_back(
        tr("Read the pockets before the first trial, and the part that goes in with the same caliper: what the caliper "
           "is off by then cancels."));
  else
    coupon.measuring_notes.push_back(
        tr("These pockets are too small or too shallow for inside jaws: try them by their drawn clearances."));
  coupon.trying_notes.push_back(tr("From the loosest pocket to the tightest, always the same part."));
  coupon.trying_notes.push_back(tr("Straight, by hand first. Push it out again from below with a blunt rod."));
}

}  // namespace

DesignInfo pockets_info() {
  return {"pockets", noted("How large must the pocket be for this bearing, magnet, nut or pin?"),
          with_setup(with_grading(
              {{pockets_param::size, 6, 2, 40, "mm", noted("of the part: its diameter, or its width over the flats")},
               {pockets_param::depth, 4.2, 1, 12, "mm", noted("depth of each pocket; 4 or more to be measured")},
               {pockets_param::sides, 0, 0, 6, "1", noted("shape: 0 round, 4 square, 6 hexagonal"), true}},
              {-0.1, 0.05, 8, 20}))};
}

Result<Coupon> make_pockets(const DesignValues& values) {
  Problems problems = grading_problems(values);
  const double size = values.at(pockets_param::size), depth = values.at(pockets_param::depth);
  const int sides = static_cast<int>(values.at(pockets_param::sides));
  if (sides != round && sides != square && sides != hexagon)
    problems.push_back({Code::bad_input,
                        {},
                        said("{} is no shape that pockets come in", named_value(pockets_param::sides, sides)),
                        tr("choose 0 for round, 4 for square or 6 for hexagonal")});
  if (!problems.empty()) return problems;
  const std::vector<double> clearances = clearances_mm(values);
  const std::vector<std::string> ids = clearance_ids('K', clearances);
  const TrialGrid grid = trial_grid(values, ids, cell_mm(whole_nm(size + clearances.back()), sides));
  problems = bed_problems(values, grid.size_x(), grid.size_y(),
                          said("set {} to {} and print in two goes", param::count, (ids.size() + 1) / 2));
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "pockets";
  coupon.values = values;
  coupon.trials = {{}, {}, size, said("part of {} mm", shortest(size)), true};
  const Layering layering = layering_of(values);
  LayerStack stack(layering);
  const bool open = size <= open_up_to_mm;
  const int floor = std::max(2, layering.at_least(floor_mm));
  const int bottom = open ? relief_layers(layering) : floor;
  const int top = layering.at_least(layering.height_mm(bottom) + depth);
  const bool measured = depth >= measured_deep_mm && (sides == round || size + clearances.front() >= measured_flat_mm);
  stack.add(0, floor, {rectangle(0, 0, grid.size_x(), grid.size_y())});
  for (int i = 0; i < static_cast<int>(ids.size()); ++i) {
    const auto n = static_cast<std::size_t>(i);
    const double drawn = whole_nm(size + clearances[n]);
    const RoundSpot spot{drawn, grid.x(i), grid.y(i)};
    stack.add(0, top, outside(spot.cx, spot.cy, sides, grid.cell_mm));
    stack.cut(bottom, top, pocket(spot, sides, 0));
    if (open)
      for (int layer = 0; layer < bottom; ++layer)
        stack.cut(layer, layer + 1, pocket(spot, sides, relief_inset_mm(layering, layer)));
    else
      stack.cut(0, bottom, {polygon(spot.cx, spot.cy, push_share * size, hole_facets)});
    coupon.labels.push_back(centred_label(ids[n], spot.cx, grid.label_y(i), fit_label_mm));
    coupon.trials.places.push_back({ids[n], clearances[n]});
    if (!measured) continue;
    coupon.features.push_back(pocket_feature(ids[n], sides, drawn));
    const double low = layering.height_mm(bottom), high = layering.height_mm(top);
    const double closing =
        sides == round ? ring_closing(drawn, (grid.cell_mm - drawn) / 2, high) : flat_closing(drawn, sides, high);
    coupon.places.push_back(round_place(coupon.features.back(), spot, (low + high) / 2, closing));
  }
  const Region marks = fit_bearings(coupon, grid.right(), (grid.size_y() - bearings_y_mm) / 2);
  engrave(coupon, stack, floor - 1, coupon.labels, marks);
  finish(coupon, stack);
  add_notes(coupon, measured);
  return coupon;
}

}  // namespace fitwright
