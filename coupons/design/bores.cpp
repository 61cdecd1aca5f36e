// The bores: how much round holes close and round pegs pull in, from 2 to 20 mm.
//
// Why it is as it is:
// - A hole's loss falls with its size, so the sizes run from 2 to 20 mm, closer together where it changes fast. Inside
//   jaws do not enter 2 and 3 mm: there a graded shank is the gauge (kind pin).
// - Every hole is a standing ring, every peg stands free on a floor of two layers: a full plate of that height would
//   weigh three times as much and say no more. The walls of the rings are as thick as the jaws' force asks for.
// - Pegs stand in one row at the front, 10 mm apart: jaws come down on both sides of each, along X and along Y, and
//   nothing higher than the floor is nearer than 10 mm.
// - Holes widen over the first layers, so that the flare stays out of the bore; pegs start on the floor, above it.
// - Each loop has one small notch at 45 degrees that takes the seam (round_shapes.hpp).
// - Circles are polygons inscribed in the nominal, first corner on the X axis. The number of sides is a multiple of
//   four, so that X and Y meet the same corners; 320 by default, where the flats of the largest lose 0.96 micrometre.

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/drafting.hpp"
#include "design/parameters.hpp"
#include "design/relief.hpp"
#include "design/round_shapes.hpp"

namespace fitwright {
namespace {

constexpr const char* facets_name = "facets";

constexpr double size_mm = 94;       ///< of the floor: the row of pegs sets it
constexpr int floor_layers = 2;      ///< one to stand on the bed, one to take the labels
constexpr double bore_mm = 4.2;      ///< least depth of a bore above its relief: inside jaws need 4
constexpr double peg_height_mm = 6;  ///< least height above the floor
constexpr double peg_apart_mm = 10;  ///< free between pegs, and from pegs to rings
constexpr double edge_mm = 3;        ///< floor beyond the outermost pegs
constexpr double ring_gap_mm = 2;    ///< between rings of the first row
constexpr double label_mm = 2.6;     ///< capital height: strokes of 0.7 mm, wider than a bead
constexpr double label_clear_mm = 2.2;
constexpr int ring_facets = 96;  ///< of the rings' outsides, which nobody measures

double ring_mm(double bore) { return bore + 2 * ring_wall_mm(bore); }

std::vector<RoundSpot> peg_spots() {
  std::vector<RoundSpot> spots;
  const double cy = edge_mm + 20.0 / 2;
  double x = edge_mm;
  for (const double d : {20., 12., 8., 5., 3.}) {
    spots.push_back({d, x + d / 2, cy});
    x += d + peg_apart_mm;
  }
  return spots;
}

std::vector<RoundSpot> hole_spots() {
  std::vector<RoundSpot> spots;
  const double behind_pegs = edge_mm + 20 + peg_apart_mm, cy = behind_pegs + ring_mm(20) / 2;
  double x = 2;
  for (const double d : {20., 16., 12., 10.}) {
    spots.push_back({d, x + ring_mm(d) / 2, cy});
    x += ring_mm(d) + ring_gap_mm;
  }
  // The second row, spread over the width.
  const std::vector<double> small{8, 6, 5, 4, 3, 2};
  double sum = 0;
  for (const double d : small) sum += ring_mm(d);
  const double gap = (size_mm - 4 - sum) / static_cast<double>(small.size() - 1);
  x = 2;
  for (const double d : small) {
    spots.push_back({d, x + ring_mm(d) / 2, cy + ring_mm(20) / 2 + 5.6 + ring_mm(8) / 2});
    x += ring_mm(d) + gap;
  }
  return spots;
}

struct Heights {
  Layering layering;
  int ring_layers, peg_layers;
  [[nodiscard]] double relief_mm() const { return layering.height_mm(relief_layers(layering)); }
  [[nodiscard]] double floor_mm() const { return layering.height_mm(floor_layers); }
  [[nodiscard]] double ring_mm() const { return layering.height_mm(ring_layers); }
  [[nodiscard]] double peg_mm() const { return layering.height_mm(peg_layers); }
};

Heights heights_of(const DesignValues& values) {
  Heights h{layering_of(values), 0, 0};
  h.ring_layers = h.layering.at_least(h.relief_mm() + bore_mm);
  h.peg_layers = h.layering.at_least(h.floor_mm() + peg_height_mm);
  return h;
}

void add_feature(Coupon& coupon, const RoundSpot& spot, Kind kind, int facets, const Heights& heights) {
  const double d = spot.diameter_mm;
  const bool peg = kind == Kind::peg;
  coupon.features.push_back(round_feature((peg ? "P" : "H") + engraved(d), kind, d, facets));
  const double z = (peg ? heights.floor_mm() + heights.peg_mm() : heights.relief_mm() + heights.ring_mm()) / 2;
  const double closing = peg ? cylinder_closing(d, heights.peg_mm() - heights.floor_mm())
                             : ring_closing(d, ring_wall_mm(d), heights.ring_mm());
  coupon.places.push_back(round_place(coupon.features.back(), spot, z, closing));
}

/// Names behind each peg and ring; front, axes and copy where the floor is free: beside the small pegs and at the back.
Region add_labels(Coupon& coupon) {
  std::vector<Label>& labels = coupon.labels;
  const auto name = [&](const RoundSpot& spot, const char* letter, double radius) {
    labels.push_back(centred_label(letter + engraved(spot.diameter_mm), spot.cx,
                                   spot.cy + radius + label_clear_mm + label_mm / 2, label_mm));
  };
  for (const RoundSpot& spot : peg_spots()) name(spot, "P", spot.diameter_mm / 2);
  for (const RoundSpot& spot : hole_spots()) name(spot, "H", ring_mm(spot.diameter_mm) / 2 - 1);

  const double ox = 50, oy = 24.5, w = 0.8;
  Region marks = unite(arrow(ox, oy, ox + 10, oy, w), arrow(ox, oy, ox, oy + 7, w));
  labels.push_back(centred_label("X", ox + 12.2, oy, label_mm));
  labels.push_back(centred_label("Y", ox + 3, oy + 5.8, label_mm));
  marks = unite(marks, arrow(72, 30, 72, 23.5, w));
  labels.push_back(centred_label("FRONT", 83, 27, 3.2));

  const double back = size_mm - 3.6;
  double x = 4;
  for (const char* words : {"bores", "copy 1 2 3 4", "turned 0 90 180 270"}) {
    const double width = text_width_mm(words, label_mm);
    labels.push_back(centred_label(words, x + width / 2, back, label_mm));
    x += width + 4;
  }
  return marks;
}

}  // namespace

DesignInfo bores_info() {
  return {
      "bores", noted("How much smaller do holes and pegs come out than drawn?"),
      with_setup({{facets_name, 320, 8, 720, "1", noted("sides of every measured circle, a multiple of four"), true}})};
}

Result<Coupon> make_bores(const DesignValues& values) {
  Problems problems = bed_problems(values, size_mm, size_mm, "");
  const int facets = static_cast<int>(values.at(facets_name));
  if (facets % 4 != 0)
    problems.push_back({Code::bad_input,
                        {},
                        named_value(facets_name, facets) +
                            " is not a multiple of four: jaws along X and Y would meet " + "different corners",
                        said("choose {} or {}", facets / 4 * 4, facets / 4 * 4 + 4)});
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "bores";
  coupon.values = values;
  const Heights heights = heights_of(values);
  LayerStack stack(heights.layering);
  stack.add(0, floor_layers, {rectangle(0, 0, size_mm, size_mm)});

  for (const RoundSpot& spot : peg_spots()) {
    stack.add(floor_layers, heights.peg_layers, notched_peg(spot, facets));
    add_feature(coupon, spot, Kind::peg, facets, heights);
  }
  for (const RoundSpot& spot : hole_spots()) {
    const double d = spot.diameter_mm;
    stack.add(0, heights.ring_layers, {polygon(spot.cx, spot.cy, ring_mm(d), ring_facets)});
    for (int layer = 0; layer < relief_layers(heights.layering); ++layer)
      stack.cut(layer, layer + 1, notched_bore(spot, facets, relief_inset_mm(heights.layering, layer)));
    stack.cut(relief_layers(heights.layering), heights.ring_layers, notched_bore(spot, facets));
    add_feature(coupon, spot, Kind::hole, facets, heights);
  }
  const Region marks = add_labels(coupon);
  engrave(coupon, stack, floor_layers - 1, coupon.labels, marks);
  finish(coupon, stack);

  coupon.measuring_notes.push_back(
      tr("The notch at 45 degrees in every hole and peg takes the seam; the jaws stand along X or Y."));
  coupon.measuring_notes.push_back(tr(
      "Holes: inside jaws straight up, let the caliper find the largest reading across and the smallest along. Holes "
      "of 2 and 3 mm: the largest graded drill shank that enters by hand, without force."));
  return coupon;
}

}  // namespace fitwright
