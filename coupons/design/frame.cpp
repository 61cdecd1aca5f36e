// The frame: scale of X and Y, edge growth and squareness from one flat square.
//
// Why it is as it is:
// - Scale needs lengths as long as bed and caliper allow; edge growth needs outsides and slots of the same lengths. So:
//   a square of side B read over its outside, and along one inner side per axis two blocks that make slots, blocks and
//   a middle length which begin and end on the same faces: block + slot + block = outer, so the chain must close.
// - An open frame gives way to the jaws (0.14 mm/N at mid-side). A floor web closes it: then it is a shear panel, and
//   every place stays below the limit of compliance.hpp. The outside is read 5 to 9 mm from the corners, in line with
//   the bar that runs between the jaws, never at mid-side.
// - Along each axis the long slot comes first, from the front left corner, then block, slot, block, the 10 mm slot and
//   a pad that takes up what is left. So the two axes, mirrored at the diagonal, share a corner where both have room
//   for the jaws, and every feature has web beside it for its label. Turned by 90 degrees the coupon offers the same
//   kinds and lengths along both machine axes.
// - All inner faces stand on the web, which takes up the flare; the outer faces have a relief instead.
// - Labels are cut into the web's upper layer, never into a bar: nothing is within 2 mm of a jaw.
// - Thick layers make a heavy web and high faces. Where the frame would weigh more than 15 g, the faces are as low as
//   inside jaws allow, and where that is not enough the web is as thin as it can be, with the labels on plates of one
//   more layer and bars wide enough to keep it stiff.
// - The seam of the outer loop goes to the notch at mid-side at the back, that of the inner loop to the corner at the
//   back right: both concave, both away from what is read, both found by a setting that puts seams to the back.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/designs.hpp"
#include "design/drafting.hpp"
#include "design/frame_shape.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

using namespace frame_shape;

double over_flats_mm(double side_mm) { return std::numbers::sqrt2 * (side_mm - corner_mm); }

std::string label_of(const Item& item, double side_mm) {
  switch (item.part) {
    case Part::block:
      return "block";
    case Part::chain:
      return "over both blocks";
    case Part::slot:
      return "slot";
    case Part::outside:
      break;
  }
  return item.line_mm < side_mm / 2 ? "outside, at the low end" : "outside, at the high end";
}

/// Closing per newton of an item. The force runs through the bar and what of the web works with it; over the blocks
/// and at the ends the section is that of bar and block.
double closing(const Frame& frame, const Item& item) {
  const double length = item.high_mm - item.low_mm, height = frame.height_mm();
  const Section bar = rectangle_section(0, frame.bar_mm, 0, height);
  const auto webbed = [&](double span) {
    const double strip = std::max(protrude_mm, working_width_mm(span));
    return together(bar, rectangle_section(frame.bar_mm, frame.bar_mm + strip, 0, frame.web_mm()));
  };
  const Section block = rectangle_section(0, frame.block_end_mm(), 0, height);
  const double up = item.part == Part::outside ? frame.outer_z_mm() : frame.inner_z_mm();
  const double line = std::min(item.line_mm, frame.side_mm - item.line_mm);
  if (item.part == Part::block) return bar_closing(block, length, line, up);
  if (item.part == Part::chain)
    return bar_closing(webbed(frame.layout.middle_slot_mm), frame.layout.middle_slot_mm, line, up) +
           2 * bar_closing(block, block_mm, line, up);
  return bar_closing(webbed(length), length, line, up);
}

void add_features(Coupon& coupon, const Frame& frame) {
  const double side = frame.side_mm;
  std::vector<JawPlace> places;
  std::vector<Feature> features;
  for (const char axis : {'x', 'y'})
    for (const Item& item : items(frame, axis)) {
      const bool inside = item.part == Part::slot;
      Feature f;
      f.nominal_mm = item.high_mm - item.low_mm;
      f.id = (inside ? "S" : "") + std::string(1, static_cast<char>(axis - 'a' + 'A')) + engraved(f.nominal_mm);
      f.kind = inside ? Kind::inner : Kind::outer;
      f.axis = axis == 'x' ? Axis::x : Axis::y;
      f.edge_a = item.edge_low, f.edge_b = item.edge_high;
      f.label = label_of(item, side);
      features.push_back(f);

      JawPlace p;
      p.ax = item.low_mm, p.bx = item.high_mm, p.ay = p.by = item.line_mm;
      if (axis == 'y') std::swap(p.ax, p.ay), std::swap(p.bx, p.by);
      p.z_mm = item.part == Part::outside ? frame.outer_z_mm() : frame.inner_z_mm();
      p.inside = inside;
      p.compliance_mm_per_n = closing(frame, item);
      places.push_back(p);
    }
  for (const bool plus : {true, false}) {
    Feature f;
    f.id = plus ? "D1" : "D2";
    f.kind = plus ? Kind::flats_plus : Kind::flats_minus;
    f.axis = Axis::xy;
    f.nominal_mm = over_flats_mm(side);
    f.side_a_mm = f.side_b_mm = side;
    f.edge_a = plus ? "front left" : "front right";
    f.edge_b = plus ? "back right" : "back left";
    f.label = "over the flats, " + f.edge_a + " to " + f.edge_b;
    features.push_back(f);

    const double h = corner_mm / 2;
    JawPlace p;
    p.ax = plus ? h : side - h, p.ay = h;
    p.bx = plus ? side - h : h, p.by = side - h;
    p.z_mm = frame.outer_z_mm();
    p.compliance_mm_per_n = frame.diagonal_closing();
    places.push_back(p);
  }
  letter_repeated(features);
  for (std::size_t i = 0; i < features.size(); ++i) places[i].feature_id = features[i].id;

  // All outsides first, then all insides: the caliper is turned over once.
  std::stable_sort(places.begin(), places.end(),
                   [](const JawPlace& a, const JawPlace& b) { return a.inside < b.inside; });
  coupon.features = std::move(features);
  coupon.places = std::move(places);
}

Problems misfits(const DesignValues& values) {
  const double side = values.at(param::side), range = values.at(param::caliper_range);
  const double bed = std::min(values.at(param::bed_x), values.at(param::bed_y));
  const double diagonal = over_flats_mm(side), readable = readable_mm(range);
  // The largest side that suits both, so that the advice does not fail the next check.
  const double by_caliper = std::floor(readable / std::numbers::sqrt2 + corner_mm), by_bed = std::floor(bed - 4);
  const double largest = std::min(by_caliper, by_bed), smallest = frame_info().parameters.front().min;
  const std::string remedy =
      largest < smallest ? std::string() : said("set {} to {} or less", param::side, said_shortest(largest));
  Problems problems = bed_problems(values, side, side, remedy);
  if (diagonal > readable)
    problems.push_back({Code::bad_input,
                        {},
                        said("{}: the diagonal over the flats is {} mm, more than a caliper of {} mm ({}) reads safely "
                             "({} mm)",
                             named_value(param::side, side), said_fixed(diagonal, 1), said_shortest(range),
                             param::caliper_range, said_fixed(readable, 1)),
                        remedy + (remedy.empty() ? "" : tr(", or ")) +
                            said("set {} to {} or more if the caliper is that long", param::caliper_range,
                                 said_shortest(std::ceil(diagonal / 0.99)))});
  return problems;
}

}  // namespace

DesignInfo frame_info() {
  return {"frame", noted("How far off are lengths along X and Y, do edges stand out, and is the machine square?"),
          with_setup({{param::side, 100, 60, 300, "mm",
                       noted("side of the square; below 60 there is no room for two slot lengths and their names")}})};
}

namespace {

/// Plates under the names and marks, within the inner faces.
Region plates_under(const Frame& frame, const Lettering& lettering) {
  Region named = lettering.marks;
  for (const Label& label : lettering.labels) {
    const Area a = area_of(label);
    named = unite(named, {rectangle(a.x0, a.y0, a.x1, a.y1)});
  }
  const double low = frame.bar_mm, high = frame.side_mm - frame.bar_mm;
  return intersect(grow(named, nm(plate_margin_mm)), {rectangle(low, low, high, high)});
}

Coupon drawn(const DesignValues& values, Build build) {
  const Frame frame = frame_of(values, build);
  const double side = frame.side_mm, bar = frame.bar_mm, block_end = frame.block_end_mm();

  Coupon coupon;
  coupon.design = "frame";
  coupon.values = values;
  add_features(coupon, frame);

  const Region outer = outline(side);
  LayerStack stack(frame.layering);
  stack.add(0, frame.layers, outer);
  stack.cut(frame.web_layers, frame.layers, {rectangle(bar, bar, side - bar, side - bar)});
  for (const auto& [low, high] : raised_mm(frame)) {
    stack.add(frame.web_layers, frame.layers, {rectangle(low, bar, high, block_end)});
    stack.add(frame.web_layers, frame.layers, {rectangle(bar, low, block_end, high)});
  }
  cut_relief(stack, frame.layering, outer);

  const Lettering lettering = letter(frame, coupon.features);
  coupon.labels = lettering.labels;
  if (frame.plates) stack.add(frame.name_layer(), frame.name_layer() + 1, plates_under(frame, lettering));
  engrave(coupon, stack, frame.name_layer(), lettering.labels, lettering.marks);
  finish(coupon, stack);

  coupon.measuring_notes.push_back(
      tr("Read the outside with the jaws 5 to 9 mm from the corner, above the stepped-back first layers; slots and "
         "blocks at mid-height of the face, in the middle of the blocks' length."));
  coupon.measuring_notes.push_back(
      tr("Outside jaws over the flats: let the caliper find the smallest reading while rocking it."));
  return coupon;
}

/// Whether it is as light as a frame of its size should be, whatever the material.
bool light_enough(const Coupon& coupon) {
  const double larger = std::max(1.0, std::pow(coupon.values.at(param::side) / at_side_mm, 2));
  return coupon.volume_mm3 * 1e-3 * at_density_g_cm3 <= most_g * larger;
}

}  // namespace

Result<Coupon> make_frame(const DesignValues& values) {
  if (Problems problems = misfits(values); !problems.empty()) return problems;
  for (const Build build : {Build::usual, Build::low_faces})
    if (Coupon coupon = drawn(values, build); light_enough(coupon)) return coupon;
  return drawn(values, Build::thin_web);
}

}  // namespace fitwright
