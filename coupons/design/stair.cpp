// The stair: heights, and the flare of the first layers.
//
// Why it is as it is:
// - A height read from the bed holds the error of the first layer and a share that grows with height. To tell them
//   apart takes heights far apart: four steps, 5 mm and a quarter, a half and all of the tallest (40 mm by default),
//   each the first layer and whole layers.
// - The lowest step is a square plinth, wide enough to stand by itself and to carry the names; the others stand in
//   three of its corners, rising anticlockwise, so that each top can be reached from outside and is alone there.
// - Jaws go to the bottom face through a notch in front of each step: upright through the plinth, up to the step's own
//   face, so nothing overhangs. In the notch the first layers stand back: no lip lies where the jaw comes in.
// - Between the notches the plinth's outsides are read twice. Nearer to the front left corner with a relief below, as
//   on every coupon; farther from it they go straight down to the bed, and there the flare shows as the width over the
//   first layers (kind foot). Both have the same length, and X and Y are mirror images at the diagonal.
// - Seams: the plinth's goes to the marked inner corner of the notch at the back; each step has a corner cut out on the
//   inner side, where no jaw comes.

#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/drafting.hpp"
#include "design/parameters.hpp"
#include "design/relief.hpp"

namespace fitwright {
namespace {

constexpr const char* tallest_name = "tallest_mm";

constexpr double side_mm = 38;   ///< of the plinth
constexpr double plinth_mm = 5;  ///< its height, the lowest step
constexpr double step_mm = 8;    ///< side of the other steps: a 3 mm jaw lies on the outer half
constexpr double inset_mm = 2;   ///< from the plinth's outside to the steps: depth of the notches
constexpr double near_step = inset_mm, near_end = inset_mm + step_mm;  ///< of a step along a side
constexpr double far_step = side_mm - near_end, far_end = side_mm - inset_mm;
constexpr double jaw_in_mm = 2.5;     ///< from a step's face to the middle of where jaws seat on it
constexpr double above_at_mm = 13.5;  ///< where widths are read above the relief: 2 mm of face left of the jaw
constexpr double foot_at_mm = 24;     ///< where they are read over the first layers
constexpr double relief_from_mm = near_end + 1, relief_to_mm = (above_at_mm + foot_at_mm) / 2;
constexpr double seam_mm = 1.2;   ///< side of the corner cut-outs that take the steps' seams
constexpr double label_mm = 2.6;  ///< capital height: strokes of 0.7 mm, wider than a bead

struct Step {
  double share;         ///< of the tallest; 0 for the plinth
  double x, y;          ///< its corner
  double jaw_x, jaw_y;  ///< where the jaws seat
  double seam_x, seam_y;
};

constexpr double near_mid = near_step + step_mm / 2, far_mid = far_step + step_mm / 2;
constexpr std::array<Step, 4> steps{
    {{0, near_step, near_step, near_mid, near_step + jaw_in_mm, 0, 0},
     {0.25, far_step, near_step, far_end - jaw_in_mm, near_mid, far_step, near_end - seam_mm},
     {0.5, far_step, far_step, far_end - jaw_in_mm, far_mid, far_step, far_step},
     {1, near_step, far_step, near_mid, far_end - jaw_in_mm, near_end - seam_mm, far_step}}};

Region notches() {
  return {rectangle(near_step, 0, near_end, inset_mm),       // front, to the plinth itself
          rectangle(far_end, near_step, side_mm, near_end),  // right, two steps
          rectangle(far_end, far_step, side_mm, far_end), rectangle(near_step, far_end, near_end, side_mm)};  // back
}

/// Where the first layers stand back: the widths' near places, and the ends of the notches.
Region relieved() {
  constexpr double deep = 1.5;  // more than the relief
  Region places{rectangle(near_step, inset_mm - 0.01, near_end, inset_mm + deep)};
  for (const Ring& ring : {rectangle(far_end - deep, near_step, far_end + 0.01, near_end),
                           rectangle(far_end - deep, far_step, far_end + 0.01, far_end),
                           rectangle(near_step, far_end - deep, near_end, far_end + 0.01),
                           rectangle(-1, relief_from_mm, deep, relief_to_mm),
                           rectangle(side_mm - deep, relief_from_mm, side_mm + 1, relief_to_mm),
                           rectangle(relief_from_mm, -1, relief_to_mm, deep),
                           rectangle(relief_from_mm, side_mm - deep, relief_to_mm, side_mm + 1)})
    places = unite(places, {ring});
  return places;
}

int layers_of(const Step& step, double tallest, const Layering& layering) {
  return layering.nearest(step.share > 0 ? tallest * step.share : plinth_mm);
}

void add_widths(Coupon& coupon, const Layering& layering) {
  const double relief_top = layering.height_mm(relief_layers(layering));
  const double top = layering.height_mm(layering.nearest(plinth_mm));
  const Section section = rectangle_section(0, step_mm, 0, top);  // what works between the jaws at least
  for (const bool foot : {false, true})
    for (const Axis axis : {Axis::x, Axis::y}) {
      Feature f;
      f.id = std::string(foot ? "F" : "") + (axis == Axis::x ? "X" : "Y") + engraved(side_mm);
      f.kind = foot ? Kind::foot : Kind::outer;
      f.axis = axis;
      f.nominal_mm = side_mm;
      f.label = foot ? "plinth over its first layers" : "plinth above its first layers";
      coupon.features.push_back(f);

      JawPlace p;
      p.feature_id = f.id;
      p.ax = 0, p.bx = side_mm;
      p.ay = p.by = foot ? foot_at_mm : above_at_mm;
      if (axis == Axis::y) std::swap(p.ax, p.ay), std::swap(p.bx, p.by);
      p.z_mm = foot ? relief_top / 2 : (relief_top + top) / 2;
      p.compliance_mm_per_n = bar_closing(section, side_mm, section.centre_across_mm, section.centre_up_mm);
      coupon.places.push_back(p);
    }
}

void add_heights(Coupon& coupon, const Layering& layering) {
  const double tallest = coupon.values.at(tallest_name);
  for (const Step& step : steps) {
    const int layers = layers_of(step, tallest, layering);
    Feature f;
    f.id = "Z" + engraved(step.share > 0 ? tallest * step.share : plinth_mm);
    f.kind = Kind::outer;
    f.axis = Axis::z;
    f.nominal_mm = layering.height_mm(layers);
    f.label = "height, " + std::to_string(layers) + " layers";
    coupon.features.push_back(f);

    JawPlace p;
    p.feature_id = f.id;
    p.ax = p.bx = step.jaw_x;
    p.ay = p.by = step.jaw_y;
    p.z_mm = f.nominal_mm / 2;
    p.compliance_mm_per_n =
        bar_closing(rectangle_section(0, step_mm, 0, step_mm), f.nominal_mm, jaw_in_mm, step_mm / 2);
    coupon.places.push_back(p);
  }
}

/// Names on the plinth, each next to where its jaws go.
Region add_labels(Coupon& coupon) {
  const auto put = [&](const std::string& words, double cx, double cy, double turn = 0) {
    coupon.labels.push_back(centred_label(words, cx, cy, label_mm, turn));
  };
  const std::vector<Feature>& f = coupon.features;
  // Names of heights grow with them: those at the right end, that of the tallest begins, at a fixed place.
  const auto half = [&](std::size_t i) { return text_width_mm(f[i].id, label_mm) / 2; };
  put(f[0].id, 6.6, above_at_mm), put(f[2].id, 7.8, foot_at_mm);
  put(f[1].id, above_at_mm, 6.6, 90), put(f[3].id, foot_at_mm, 7.8, 90);
  put(f[4].id, near_mid, 8.9), put(f[5].id, 35.4 - half(5), 12.9), put(f[6].id, 35.4 - half(6), 25.1);
  put(f[7].id, 11.1 + half(7), 27.8);
  put("FRONT", 18.6, 15.1);
  put("copy", 21, 31.2), put("1 2 3 4", 20.2, 34.4);

  constexpr double ox = 15.4, oy = 19.4, w = 0.7;
  put("X", ox + 9.4, oy), put("Y", ox + 3.2, oy + 4.8);
  Region marks = unite(arrow(ox, oy, ox + 7.5, oy, w), arrow(ox, oy, ox, oy + 6, w));
  marks = unite(marks, arrow(18.8, 12.6, 18.8, 6.5, w));
  return unite(marks, {pointer(near_end + 0.9, far_end - 0.9, -1, 1, 1.8)});  // the seam's corner
}

}  // namespace

DesignInfo stair_info() {
  return {"stair", noted("Are heights right, and how far do the first layers stand out?"),
          with_setup({{tallest_name, 40, 30, 140, "mm",
                       noted("height of the tallest step; two others are a half and a quarter of it")}})};
}

Result<Coupon> make_stair(const DesignValues& values) {
  Problems problems = bed_problems(values, side_mm, side_mm, "");
  const double tallest = values.at(tallest_name), range = values.at(param::caliper_range);
  if (tallest > readable_mm(range))
    problems.push_back(
        {Code::bad_input,
         {},
         said("{} is more than a caliper of {} mm ({}) reads safely ({} mm)", named_value(tallest_name, tallest),
              said_shortest(range), param::caliper_range, said_fixed(readable_mm(range), 1)),
         said("set {} to {} or less, or set {} to {} or more if the caliper is that long", tallest_name,
              said_shortest(std::floor(readable_mm(range))), param::caliper_range,
              said_shortest(std::ceil(tallest / 0.99)))});
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "stair";
  coupon.values = values;
  const Layering layering = layering_of(values);
  const int plinth = layers_of(steps[0], tallest, layering);
  add_widths(coupon, layering);
  add_heights(coupon, layering);

  LayerStack stack(layering);
  const Region outline = subtract({rectangle(0, 0, side_mm, side_mm)}, notches());
  const Region places = relieved();
  stack.add(0, plinth, outline);
  cut_relief(stack, layering, outline, &places);
  for (const Step& s : steps) {
    if (s.share == 0) continue;
    const Region corner{rectangle(s.seam_x, s.seam_y, s.seam_x + seam_mm, s.seam_y + seam_mm)};
    stack.add(plinth, layers_of(s, tallest, layering),
              subtract({rectangle(s.x, s.y, s.x + step_mm, s.y + step_mm)}, corner));
  }
  const Region marks = add_labels(coupon);
  engrave(coupon, stack, plinth - 1, coupon.labels, marks);
  finish(coupon, stack);

  coupon.measuring_notes.push_back(tr(
      "Heights: one jaw flat on the step, the other through the notch on the bottom face, both 1 to 4 mm in from the "
      "step's outer face."));
  coupon.measuring_notes.push_back(
      tr("FX and FY: jaws at the very bottom, over the lip of the first layers. X and Y: above it."));
  return coupon;
}

}  // namespace fitwright
