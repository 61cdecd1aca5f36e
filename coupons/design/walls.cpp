// The walls: how wide a bead comes out, and how much plastic comes out at all.
//
// Why it is as it is:
// - A wall of one bead is as wide as the bead; its width grows with the flow. The caliper's zero and the ripple of the
//   layers are in the reading too. Two one-bead walls, printed with two bead widths, differ by the flow times the
//   difference of the widths, and zero and ripple drop out: so two loops, at one and at two bead widths.
// - A wall of two beads at the program's own pitch reads one bead and one pitch whatever the flow: it tells nothing of
//   flow. It stands here as a check of the pitch: two-bead less one-bead wall, from one edge to the next edge facing
//   the same way (kind pitch), free of growth and zero. It is drawn 2 w - k wide, k = h (1 - pi/4): beads are stadiums.
// - Flow is told best by weight: a solid block of at least 10 g.
// - The pieces are separate, so that each loop can be given its own bead width and the block can be weighed alone;
//   `piece` makes one of them by itself.
// - Loops are closed, so that beads are laid without start and stop but at one corner, which is marked for the seam.
//   They stand on a floor of two layers: a single bead does not hold to the bed, and the flare stays in the floor.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/drafting.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

constexpr const char* wide_name = "wide_bead_width_mm";
constexpr const char* piece_name = "piece";

constexpr double cell_mm = 39;        ///< side of each piece's floor
constexpr double apart_mm = 5;        ///< between pieces
constexpr double inset_mm = 6.5;      ///< from the floor's edge to the loop: room for names outside it
constexpr int floor_layers = 2;       ///< one to hold to the bed, one to take the labels
constexpr double wall_height_mm = 8;  ///< least height above the floor
constexpr double block_mm = 30;       ///< side of the block
constexpr double block_g = 10.1;      ///< to be weighed: 10 g and what the names take away
constexpr double least_difference_mm = 0.1;
constexpr double widest_mm = 1.6;  ///< bead: a nozzle lays up to about twice its bore
constexpr double label_mm = 2.6;   ///< capital height: strokes of 0.7 mm, wider than a bead
constexpr double label_clear_mm = 2.4;

enum Piece { all, narrow, wide, two_bead, block };

/// A loop to be drawn: its thickness, and the feature on each side (front, right, back, left), empty for none.
struct Loop {
  double x, y;  ///< corner of its floor
  double thickness_mm;
  std::array<Feature, 4> sides;
};

Feature wall_feature(double bead_mm, char side) {
  Feature f;
  f.id = "W" + engraved(std::round(bead_mm * 100)) + side;
  f.kind = Kind::wall;
  f.axis = Axis::n;
  f.nominal_mm = bead_mm;
  f.label = "one-bead wall, bead width " + shortest(bead_mm) + " mm";
  return f;
}

Feature pitch_feature(double bead_mm, double pitch_mm, Axis axis) {
  Feature f;
  f.id = std::string(axis == Axis::x ? "PX" : "PY") + engraved(std::round(bead_mm * 100));
  f.kind = Kind::pitch;
  f.axis = axis;
  f.nominal_mm = pitch_mm;
  f.label = "two-bead wall less one-bead wall beside it: check of pitch, tells nothing of flow";
  return f;
}

std::array<Feature, 4> four_walls(double bead_mm) {
  return {wall_feature(bead_mm, 'a'), wall_feature(bead_mm, 'b'), wall_feature(bead_mm, 'c'),
          wall_feature(bead_mm, 'd')};
}

/// Axes, from (x, y), arrows of `length_mm`.
Region axes(Coupon& coupon, double x, double y, double length_mm) {
  constexpr double w = 0.7;
  coupon.labels.push_back(centred_label("X", x + length_mm + 1.8, y, label_mm));
  coupon.labels.push_back(centred_label("Y", x, y + length_mm + 1.9, label_mm));
  return unite(arrow(x, y, x + length_mm, y, w), arrow(x, y, x, y + length_mm, w));
}

void add_loop(Coupon& coupon, LayerStack& stack, const Layering& layering, const Loop& loop) {
  const int top = layering.at_least(layering.height_mm(floor_layers) + wall_height_mm);
  const double x = loop.x, y = loop.y, w = loop.thickness_mm;
  const double low = inset_mm, high = cell_mm - inset_mm, middle = cell_mm / 2;
  stack.add(0, floor_layers, {rectangle(x, y, x + cell_mm, y + cell_mm)});
  stack.add(floor_layers, top,
            subtract({rectangle(x + low, y + low, x + high, y + high)},
                     {rectangle(x + low + w, y + low + w, x + high - w, y + high - w)}));

  const double z = (layering.height_mm(floor_layers) + layering.height_mm(top)) / 2;
  // Outer face to inner face, in the middle of the front, right, back and left side; names inside the loop.
  struct Side {
    double ax, ay, dx, dy, turn;
  };
  const std::array<Side, 4> sides{
      {{middle, low, 0, 1, 0}, {high, middle, -1, 0, 90}, {middle, high, 0, -1, 0}, {low, middle, 1, 0, 90}}};
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const Feature& f = loop.sides[i];
    const Side& s = sides[i];
    if (f.id.empty()) continue;
    coupon.features.push_back(f);
    JawPlace p;
    p.feature_id = f.id;
    p.ax = x + s.ax, p.ay = y + s.ay;
    p.bx = p.ax + w * s.dx, p.by = p.ay + w * s.dy;
    p.z_mm = z;
    // Jaws of 3 mm over half the height press the wall together; they do not bend it.
    const Section pressed = rectangle_section(0, 3, 0, wall_height_mm / 2);
    p.compliance_mm_per_n = bar_closing(pressed, w, pressed.centre_across_mm, pressed.centre_up_mm);
    coupon.places.push_back(p);
    // Between the names on the neighbouring sides.
    const double room = high - low - 2 * (w + label_clear_mm + label_mm + 0.6);
    const double height = label_mm * std::min(1.0, room / text_width_mm(f.id, label_mm));
    const double in = w + label_clear_mm + label_mm / 2;
    coupon.labels.push_back(centred_label(f.id, x + s.ax + in * s.dx, y + s.ay + in * s.dy, height, s.turn));
  }
  coupon.labels.push_back(centred_label("FRONT", x + middle, y + 2.2, label_mm));
  coupon.labels.push_back(centred_label("copy 1 2 3 4", x + middle, y + cell_mm - 2.2, label_mm));
  Region marks = axes(coupon, x + middle - 4, y + middle - 4, 5);
  marks = unite(marks, {pointer(x + high + 1.2, y + high + 1.2, -1, -1, 2)});  // the seam's corner
  engrave(coupon, stack, floor_layers - 1, {}, marks);
}

/// Layers of a block that weighs at least 10 g.
int block_layers(const DesignValues& values, const Layering& layering) {
  return layering.at_least(block_g / (values.at(param::density) * 1e-3 * block_mm * block_mm));
}

void add_block(Coupon& coupon, LayerStack& stack, const Layering& layering, double x, double y) {
  const int top = block_layers(coupon.values, layering);
  stack.add(0, top, {rectangle(x, y, x + block_mm, y + block_mm)});
  std::vector<Label> labels{centred_label("weigh", x + block_mm / 2, y + block_mm - 5, 3.5),
                            centred_label("copy 1 2 3 4", x + block_mm / 2, y + block_mm - 10, label_mm),
                            centred_label("FRONT", x + block_mm / 2, y + 3, label_mm)};
  const std::size_t before = coupon.labels.size();
  const Region marks = axes(coupon, x + 11, y + 6.8, 6);
  labels.insert(labels.end(), coupon.labels.begin() + static_cast<std::ptrdiff_t>(before), coupon.labels.end());
  coupon.labels.resize(before);
  engrave(coupon, stack, top - 1, labels, marks);
  coupon.labels.insert(coupon.labels.end(), labels.begin(), labels.end());
}

void add_notes(Coupon& coupon, Piece piece, double bead, double wide_bead, double block_cm3) {
  std::vector<std::string>& notes = coupon.printing_notes;
  const auto has = [&](Piece p) { return piece == all || piece == p; };
  if (has(narrow) || has(two_bead))
    notes.push_back(said("Print the loops with walls W{} and of two beads with a bead width of {} mm.",
                         engraved(std::round(bead * 100)), said_shortest(bead)));
  if (has(wide))
    notes.push_back(
        said("Print the loop with walls W{} with a bead width of {} mm. If the nozzle cannot lay such a bead, "
             "set {} to the widest it can: the closer the two widths, the less sure the flow.",
             engraved(std::round(wide_bead * 100)), said_shortest(wide_bead), wide_name));
  if (has(narrow) || has(wide))
    notes.push_back(tr("Look at the preview first: a one-bead wall must show as one line."));
  if (has(two_bead))
    coupon.measuring_notes.push_back(
        tr("Two-bead wall: enter its reading less that of the one-bead wall on the same side."));
  if (has(block)) {
    const double grams = block_cm3 * coupon.values.at(param::density);
    notes.push_back(
        said("Block: print it solid (100 % filled) and weigh it to {} g or better. Drawn {} cm3, {} g at {} "
             "g/cm3; weight over that is the flow, as sure as the density of the material.",
             said_shortest(0.05), said_fixed(block_cm3, 3), said_fixed(grams, 2),
             said_shortest(coupon.values.at(param::density))));
  }
}

}  // namespace

DesignInfo walls_info() {
  return {"walls", noted("Does the right amount of plastic come out?"),
          with_setup({{wide_name, 0.9, 0.3, widest_mm, "mm", noted("width of the wider bead")},
                      {piece_name, 0, 0, 4, "1", noted("0 all, 1 narrow loop, 2 wide loop, 3 two-bead loop, 4 block"),
                       true}})};
}

Result<Coupon> make_walls(const DesignValues& values) {
  const double bead = values.at(param::bead_width), wide_bead = values.at(wide_name);
  const auto piece = static_cast<Piece>(std::lround(values.at(piece_name)));
  const double size = piece == all ? 2 * cell_mm + apart_mm : piece == block ? block_mm : cell_mm;
  Problems problems = bed_problems(values, size, size, piece == all ? tr("set piece to 1, 2, 3 and 4 in turn") : "");
  if (wide_bead < bead + least_difference_mm - 1e-9)
    problems.push_back({Code::bad_input,
                        {},
                        said("{} is not wider than {} by {} mm: the two walls would tell nothing apart",
                             named_value(wide_name, wide_bead), named_value(param::bead_width, bead),
                             said_shortest(least_difference_mm)),
                        said("set {} to {}, twice the bead width if the nozzle lays it", wide_name,
                             said_shortest(std::min(2 * bead, widest_mm)))});
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "walls";
  coupon.values = values;
  const Layering layering = layering_of(values);
  LayerStack stack(layering);
  const double second = cell_mm + apart_mm;
  // A stadium of width w and height h fills its slot at this pitch.
  const double pitch = std::round((bead - layering.layer_mm * (1 - std::numbers::pi / 4)) * 1e6) / 1e6;  // whole nm

  const auto has = [&](Piece p) { return piece == all || piece == p; };
  if (has(narrow)) add_loop(coupon, stack, layering, {0, 0, bead, four_walls(bead)});
  if (has(wide)) add_loop(coupon, stack, layering, {second, 0, wide_bead, four_walls(wide_bead)});
  if (has(two_bead))
    add_loop(coupon, stack, layering,
             {0,
              second,
              bead + pitch,
              {pitch_feature(bead, pitch, Axis::y), Feature{}, Feature{}, pitch_feature(bead, pitch, Axis::x)}});
  // The names of the loops are in their floors; those of the block in its top.
  engrave(coupon, stack, floor_layers - 1, coupon.labels, {});
  const double half = (cell_mm - block_mm) / 2;
  if (has(block)) add_block(coupon, stack, layering, second + half, second + half);
  finish(coupon, stack);
  const double block_cm3 = layering.height_mm(block_layers(values, layering)) * block_mm * block_mm * 1e-3;
  add_notes(coupon, piece, bead, wide_bead, block_cm3);
  return coupon;
}

}  // namespace fitwright
