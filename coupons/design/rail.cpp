// The rail: round pegs in round sockets, from tight to loose. Which clearance feels right?
//
// Why it is as it is:
// - Sockets are standing rings on a thin floor, open below, so that a stuck peg can be pushed out. Each is marked with
//   its clearance; all pegs are drawn alike, at the nominal diameter.
// - Two loose pegs, each with a plate to hold it by: a fit needs the error of the peg as well, and one peg alone would
//   carry the same error into every trial. The second is there when the first is worn, too.
// - Pegs are no longer than the sockets are deep: flush is in.
// - Sockets and pegs are measured like those of the bores (first along X, then along Y), so that trials can use the
//   clearance as it came out. The first layers of the sockets widen, so that the flare stays out of the fit.
// - Sockets and pegs are polygons of the same number of sides: what the flats take away cancels in the fit.

#include <algorithm>
#include <cmath>

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

constexpr const char* diameter_name = "diameter_mm";

constexpr int facets = 160;            ///< of sockets and pegs, a multiple of four: 8 mm lose 1.5 micrometres
constexpr int ring_facets = 96;        ///< of the rings' outsides, which nobody measures
constexpr double floor_mm = 0.6;       ///< least: carries the names and holds the rings together
constexpr double socket_mm = 4.2;      ///< least depth above the relief: inside jaws need 4
constexpr double peg_mm = 4.2;         ///< least height of a peg above its plate
constexpr double plate_mm = 2.4;       ///< least thickness of the plate that a peg is held by
constexpr double least_plate_mm = 10;  ///< width of it: two fingers
constexpr double apart_mm = 5;         ///< between pieces

/// A peg on its plate, in front of the sockets.
struct PegPiece {
  RoundSpot spot;
  Area plate;
  Label label;
};

std::vector<PegPiece> peg_pieces(double diameter, const std::vector<std::string>& ids) {
  std::vector<PegPiece> all;
  const double deep = std::max(diameter + 4, least_plate_mm);
  double x = 0;
  for (const std::string& id : ids) {
    const double width = text_width_mm(id, fit_label_mm), beside = 3;
    const double cx = x + beside + diameter / 2, cy = -apart_mm - deep / 2;
    const double label = cx + diameter / 2 + 2.6 + width / 2, end = to_tenths(label + width / 2 + 1.6);
    all.push_back(
        {{diameter, cx, cy}, {x, cy - deep / 2, end, cy + deep / 2}, centred_label(id, label, cy, fit_label_mm)});
    x = end + apart_mm;
  }
  return all;
}

void add_notes(Coupon& coupon) {
  coupon.printing_notes.push_back(
      tr("Seam to the notches of sockets and pegs. In your own parts a seam inside a plain hole takes room: give it "
         "such a notch, or leave more clearance."));
  coupon.measuring_notes.push_back(
      tr("Read before the first trial: a tight fit wears both. Sockets: inside jaws straight up, let the caliper find "
         "the largest reading across and the smallest along. The rows may stay empty if you try by drawn clearances "
         "only."));
  coupon.trying_notes.push_back(
      tr("From the loosest socket to the tightest, so that the pegs wear last: first one peg in all, then the other."));
  coupon.trying_notes.push_back(tr("Notch on notch, straight, by hand first. A stuck peg is pushed out from below."));
}

}  // namespace

DesignInfo rail_info() {
  return {"rail", noted("Which clearance lets a pin slide, hold or stick in a round hole?"),
          with_setup(with_grading({{diameter_name, 8, 3, 20, "mm", noted("drawn diameter of the pegs")}}))};
}

Result<Coupon> make_rail(const DesignValues& values) {
  Problems problems = grading_problems(values);
  if (!problems.empty()) return problems;
  const double d = values.at(diameter_name);
  const std::vector<double> clearances = clearances_mm(values);
  const std::vector<std::string> ids = clearance_ids('S', clearances);
  const double largest = whole_nm(d + clearances.back());
  const TrialGrid grid = trial_grid(values, ids, largest + 2 * ring_wall_mm(largest));
  const std::string name = "P" + engraved(d);
  const std::vector<PegPiece> pegs = peg_pieces(d, {name + "a", name + "b"});
  const double size_x = std::max(grid.size_x(), pegs.back().plate.x1);
  problems = bed_problems(values, size_x, grid.size_y() - pegs.front().plate.y0,
                          said("set {} to {} and print in two goes", param::count, (ids.size() + 1) / 2));
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "rail";
  coupon.values = values;
  coupon.trials = {{}, {name + "a", name + "b"}, d, tr("peg"), false};
  const Layering layering = layering_of(values);
  LayerStack stack(layering);
  const int floor = std::max(2, layering.at_least(floor_mm)), relief = relief_layers(layering);
  const int rings = layering.at_least(layering.height_mm(relief) + socket_mm);
  const int plate = layering.at_least(plate_mm), top = layering.at_least(layering.height_mm(plate) + peg_mm);

  std::vector<Label> plate_labels;
  for (const PegPiece& piece : pegs) {
    stack.add(0, plate, {rectangle(piece.plate.x0, piece.plate.y0, piece.plate.x1, piece.plate.y1)});
    stack.add(plate, top, notched_peg(piece.spot, facets));
    coupon.features.push_back(round_feature(piece.label.text, Kind::peg, d, facets));
    const double low = layering.height_mm(plate), high = layering.height_mm(top);
    coupon.places.push_back(
        round_place(coupon.features.back(), piece.spot, (low + high) / 2, cylinder_closing(d, high - low)));
    plate_labels.push_back(piece.label);
  }

  stack.add(0, floor, {rectangle(0, 0, grid.size_x(), grid.size_y())});
  for (int i = 0; i < static_cast<int>(ids.size()); ++i) {
    const double bore = whole_nm(d + clearances[i]), wall = (grid.cell_mm - bore) / 2;
    const RoundSpot spot{bore, grid.x(i), grid.y(i)};
    stack.add(0, rings, {polygon(spot.cx, spot.cy, grid.cell_mm, ring_facets)});
    for (int layer = 0; layer < relief; ++layer)
      stack.cut(layer, layer + 1, notched_bore(spot, facets, relief_inset_mm(layering, layer)));
    stack.cut(relief, rings, notched_bore(spot, facets));
    coupon.features.push_back(round_feature(ids[i], Kind::hole, bore, facets));
    const double high = layering.height_mm(rings);
    coupon.places.push_back(round_place(coupon.features.back(), spot, (layering.height_mm(relief) + high) / 2,
                                        ring_closing(bore, wall, high)));
    coupon.labels.push_back(centred_label(ids[i], spot.cx, grid.label_y(i), fit_label_mm));
    coupon.trials.places.push_back({ids[i], clearances[i]});
  }
  const Region marks = fit_bearings(coupon, grid.right(), (grid.size_y() - bearings_y_mm) / 2);
  engrave(coupon, stack, floor - 1, coupon.labels, marks);
  engrave(coupon, stack, plate - 1, plate_labels, {});
  coupon.labels.insert(coupon.labels.end(), plate_labels.begin(), plate_labels.end());
  finish(coupon, stack);
  add_notes(coupon);
  return coupon;
}

}  // namespace fitwright
