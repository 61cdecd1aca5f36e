// The latch: pairs of arms with hooks that snap into a window, graded in thickness and undercut. What bends, holds, and
// does not break?
//
// Why it is as it is:
// - Two arms side by side guide each other: the window bends both alike by the undercut and no hand has to hold the
//   part straight. All pairs are equally wide outside, so that one window fits all.
// - An arm held at one end and bent by y at its hook is strained by 3 t y / (2 L^2) at its root (beam theory; Roark's
//   Formulas, cantilever with end load). The grading goes from what any plastic bears to what most do not.
// - Arms lie flat: layers run along them. Standing arms part between two layers at a fraction of the strain.
// - Arms widen to their root, where they would crack at a sharp corner.
// - The hook is steep on the side that holds, with a lead on the side that comes first.
// - The window's corners are cut out: the lip of the arms' first layers passes there.
// - The left arm of each pair is measured near its root, where the jaws bend nothing, and so is the window.

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/grading.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

constexpr const char* length_name = "length_mm";
constexpr const char* thickness_name = "thickness_mm";
constexpr const char* thickness_step_name = "thickness_step_mm";
constexpr const char* thickness_count_name = "thickness_count";
constexpr const char* undercut_name = "undercut_mm";
constexpr const char* undercut_step_name = "undercut_step_mm";
constexpr const char* undercut_count_name = "undercut_count";

constexpr double height_mm = 5;           ///< of arms, spine and window piece: what one hook holds with
constexpr double spine_mm = 9.2;          ///< width of the spine: two rows of names
constexpr double fillet_mm = 0.8;         ///< at the roots
constexpr double arm_at_mm = 4.5;         ///< where an arm is read, from its root
constexpr double between_mm = 6.6;        ///< least between two arms: outside jaws of 3 mm go in beside an arm
constexpr double free_mm = 1;             ///< left between two arms that are bent inward
constexpr double play_mm = 0.3;           ///< of the window, in width and in height
constexpr double frame_mm = 3.2;          ///< of the window piece around its window
constexpr double name_side_mm = 5.6;      ///< its side with the name
constexpr double ear_mm = 0.8;            ///< side of the cut-outs in the window's corners
constexpr double flat_mm = 0.5;           ///< of a hook at its widest
constexpr double hold_slope = 0.5;        ///< of the side that holds: along per across
constexpr double lead_slope = 1.8;        ///< of the side that comes first
constexpr double tip_share = 0.35;        ///< of the thickness that the lead takes off the tip
constexpr double least_window_mm = 10.2;  ///< inside jaws need 10
constexpr double floor_mm = 0.6;
constexpr double apart_mm = 5;
constexpr double beyond_mm = 2;  ///< spine beyond the last pair: the window piece passes the plate with the bearings
constexpr double label_gap_mm = 1.2;

struct Pair {
  std::string id;
  double thickness = 0, undercut = 0;
};

std::vector<Pair> pairs_of(const DesignValues& values) {
  std::vector<Pair> pairs;
  for (int t = 0; t < static_cast<int>(values.at(thickness_count_name)); ++t)
    for (int u = 0; u < static_cast<int>(values.at(undercut_count_name)); ++u) {
      Pair p;
      p.thickness = whole_nm(values.at(thickness_name) + t * values.at(thickness_step_name));
      p.undercut = whole_nm(values.at(undercut_name) + u * values.at(undercut_step_name));
      p.id = engraved(p.thickness) + "/" + engraved(p.undercut);
      pairs.push_back(p);
    }
  return pairs;
}

/// Sizes that all pairs share. Pairs stand along X on both sides of the spine; y = 0 is its front edge.
struct Set {
  std::vector<Pair> pairs;
  double length = 0, outside = 0, pitch = 0, longest = 0;
  double window = 0, window_high = 0;
  int front = 0;
  [[nodiscard]] double piece_x() const { return window + 2 * frame_mm; }
  [[nodiscard]] double piece_y() const { return window_high + frame_mm + name_side_mm; }
  [[nodiscard]] double spine_x() const { return pitch * front + beyond_mm; }
  [[nodiscard]] double middle(int i) const { return pitch * ((i < front ? i : i - front) + 0.5); }
  [[nodiscard]] double size_x() const { return spine_x() + bearings_x_mm + apart_mm + piece_x(); }
  [[nodiscard]] double size_y() const { return spine_mm + 2 * longest; }
};

/// From the root to the tip of an arm.
double reach(const Set& set, const Pair& p) {
  return to_tenths(set.length + hold_slope * p.undercut + flat_mm +
                   lead_slope * (p.undercut + tip_share * p.thickness));
}

Set set_of(const DesignValues& values, double high) {
  Set s;
  s.pairs = pairs_of(values);
  s.length = values.at(length_name);
  double thickest = 0, deepest = 0, label = 0;
  for (const Pair& p : s.pairs) {
    thickest = std::max(thickest, p.thickness), deepest = std::max(deepest, p.undercut);
    label = std::max(label, text_width_mm(p.id, fit_label_mm));
  }
  s.outside = whole_nm(std::max(2 * thickest + std::max(between_mm, 2 * deepest + free_mm), least_window_mm - play_mm));
  s.window = whole_nm(s.outside + play_mm);
  s.window_high = whole_nm(high + play_mm);
  s.front = static_cast<int>(s.pairs.size() + 1) / 2;
  // The window piece goes over one pair and leaves its neighbours alone.
  s.pitch = to_tenths(std::max((s.outside + s.piece_x()) / 2 + deepest + 0.6, label + label_gap_mm));
  for (const Pair& p : s.pairs) s.longest = std::max(s.longest, reach(s, p));
  return s;
}

/// Right arm of a pair whose middle is `middle`, from the root at `y` along `way` (+1 or -1); `side` -1: the left arm.
Ring arm(const Set& set, const Pair& p, double middle, double y, double way, double side) {
  const double out = set.outside / 2, in = out - p.thickness, hook = out + p.undercut;
  const double hold = set.length + hold_slope * p.undercut, tip = reach(set, p), into = 1;
  std::vector<std::pair<double, double>> corners{{in - fillet_mm, -into},
                                                 {out + fillet_mm, -into},
                                                 {out + fillet_mm, 0},
                                                 {out, fillet_mm},
                                                 {out, set.length},
                                                 {hook, hold},
                                                 {hook, hold + flat_mm},
                                                 {out - tip_share * p.thickness, tip},
                                                 {in, tip},
                                                 {in, fillet_mm},
                                                 {in - fillet_mm, 0}};
  Ring ring;
  for (const auto& [x, along] : corners) ring.push_back({nm(middle + side * x), nm(y + way * along)});
  if (side * way < 0) std::reverse(ring.begin(), ring.end());
  return ring;
}

double strain(double thickness, double undercut, double length) {
  return 3 * thickness * undercut / (2 * length * length);
}

void add_pair(Coupon& coupon, LayerStack& stack, const Set& set, int i, int layers, double high) {
  const Pair& p = set.pairs[static_cast<std::size_t>(i)];
  const bool front = i < set.front;
  const double way = front ? -1 : 1, y = front ? 0 : spine_mm, middle = set.middle(i);
  for (const double side : {-1., 1.}) stack.add(0, layers, {arm(set, p, middle, y, way, side)});
  coupon.latches.push_back({p.id, p.thickness, p.undercut, set.length, strain(p.thickness, p.undercut, set.length)});

  Feature f;
  f.id = p.id;
  f.kind = Kind::outer;
  f.axis = Axis::x;
  f.nominal_mm = p.thickness;
  f.label = "left arm, thickness near its root";
  coupon.features.push_back(f);
  JawPlace place;
  place.feature_id = f.id;
  place.ax = middle - set.outside / 2, place.bx = place.ax + p.thickness;
  place.ay = place.by = y + way * arm_at_mm;
  place.z_mm = high / 2;
  constexpr double jaw_mm = 3;
  const Section section = rectangle_section(0, jaw_mm, 0, high);
  place.compliance_mm_per_n = bar_closing(section, p.thickness, section.centre_across_mm, section.centre_up_mm);
  coupon.places.push_back(place);
  const double rows = spine_mm / 4;
  coupon.labels.push_back(centred_label(p.id, middle, front ? rows : 3 * rows, fit_label_mm));
}

/// The piece with the window, its low corner at (x, y).
void add_window(Coupon& coupon, LayerStack& stack, const Set& set, double x, double y, int layers, double high) {
  const double x0 = x + frame_mm, x1 = x0 + set.window, y0 = y + frame_mm, y1 = y0 + set.window_high;
  Region window{rectangle(x0, y0, x1, y1)};
  for (const double cx : {x0, x1})
    for (const double cy : {y0, y1})
      window = unite(window, {rectangle(cx - ear_mm / 2, cy - ear_mm / 2, cx + ear_mm / 2, cy + ear_mm / 2)});
  stack.add(0, layers, subtract({rectangle(x, y, x + set.piece_x(), y + set.piece_y())}, window));
  Feature f;
  f.id = "W" + engraved(set.window);
  f.kind = Kind::inner;
  f.axis = Axis::x;
  f.nominal_mm = set.window;
  f.label = "window";
  coupon.features.push_back(f);
  JawPlace place;
  place.feature_id = f.id;
  place.ax = x0, place.bx = x1;
  place.ay = place.by = (y0 + y1) / 2;
  place.z_mm = high / 2;
  place.inside = true;
  // Both bars between the jaws stretch, the sides bend as bars held at both ends.
  const Section side = rectangle_section(0, frame_mm, 0, high);
  const double span = set.window_high;
  place.compliance_mm_per_n = set.window / (youngs_modulus_mpa * 2 * side.area_mm2) +
                              2 * span * span * span / (192 * youngs_modulus_mpa * side.inertia_plan_mm4);
  coupon.places.push_back(place);
  coupon.labels.push_back(
      centred_label(f.id, x + set.piece_x() / 2, y + set.piece_y() - name_side_mm / 2 + 0.3, fit_label_mm));
}

Problems set_problems(const DesignValues& values) {
  Problems problems;
  const double pairs = values.at(thickness_count_name) * values.at(undercut_count_name);
  if (constexpr double most = 12; pairs > most)
    problems.push_back(
        {Code::bad_input,
         {},
         said("{} and {} make {} pairs, more than a coupon of {}",
              named_value(thickness_count_name, values.at(thickness_count_name)),
              named_value(undercut_count_name, values.at(undercut_count_name)), shortest(pairs), shortest(most)),
         said("set {} to {}", undercut_count_name,
              shortest(std::max(1.0, std::floor(most / values.at(thickness_count_name)))))});
  for (const auto& [count, step] :
       {std::pair{thickness_count_name, thickness_step_name}, std::pair{undercut_count_name, undercut_step_name}})
    for (const char* name : {step})
      if (values.at(count) > 1 && values.at(name) < 0.05 - 1e-9)
        problems.push_back({Code::bad_input,
                            {},
                            said("{} is too small a step for {}: nothing would differ",
                                 named_value(name, values.at(name)), named_value(count, values.at(count))),
                            said("set {} to 0.1 or more, or {} to 1", name, count)});
  return problems;
}

void add_notes(Coupon& coupon) {
  coupon.printing_notes.push_back(
      tr("Flat, as it lies: layers along the arms. Arms that stand upright in a part part between their layers at a "
         "fraction of this strain."));
  coupon.printing_notes.push_back(tr("Arms filled with walls only, no gaps: look at the preview."));
  coupon.measuring_notes.push_back(tr("Arms: outside jaws between the arms of a pair, next to the spine."));
  coupon.trying_notes.push_back(
      tr("From the least strain to the most: push the window over both hooks, straight, until they snap; pull it off "
         "again; ten times."));
  coupon.trying_notes.push_back(
      tr("Brittle plastics bear about 1 % for many times, tough ones 2 to 3 % (from memory): less where it is cold or "
         "has grown old. Too much strain? Longer arms, then thinner ones, then less undercut."));
}

}  // namespace

DesignInfo latch_info() {
  return {"latch", noted("How thick may a latch be, and how deep its hook, before it breaks?"),
          with_setup({{length_name, 14, 8, 40, "mm", noted("of an arm, from its root to its hook")},
                      {thickness_name, 1.2, 0.6, 5, "mm", noted("of the thinnest arm")},
                      {thickness_step_name, 0.4, 0, 3, "mm", noted("from one thickness to the next")},
                      {thickness_count_name, 3, 1, 6, "1", noted("number of thicknesses"), true},
                      {undercut_name, 0.5, 0.1, 5, "mm", noted("of the least hook: how far it must bend")},
                      {undercut_step_name, 0.5, 0, 3, "mm", noted("from one undercut to the next")},
                      {undercut_count_name, 3, 1, 6, "1", noted("number of undercuts"), true}})};
}

Result<Coupon> make_latch(const DesignValues& values) {
  Problems problems = set_problems(values);
  if (!problems.empty()) return problems;
  const Layering layering = layering_of(values);
  const int layers = layering.at_least(height_mm), floor = std::max(2, layering.at_least(floor_mm));
  const double high = layering.height_mm(layers);
  const Set set = set_of(values, high);
  problems = bed_problems(values, set.size_x(), set.size_y(),
                          said("set {} or {} smaller", thickness_count_name, undercut_count_name));
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "latch";
  coupon.values = values;
  LayerStack stack(layering);
  stack.add(0, layers, {rectangle(0, 0, set.spine_x(), spine_mm)});
  for (int i = 0; i < static_cast<int>(set.pairs.size()); ++i) add_pair(coupon, stack, set, i, layers, high);
  const double low_y = (spine_mm - bearings_y_mm) / 2;
  add_window(coupon, stack, set, set.spine_x() + bearings_x_mm + apart_mm, (spine_mm - set.piece_y()) / 2, layers,
             high);
  engrave(coupon, stack, layers - 1, coupon.labels, {});
  const auto names = static_cast<std::ptrdiff_t>(coupon.labels.size());
  stack.add(0, floor, {rectangle(set.spine_x() - 1, low_y, set.spine_x() + bearings_x_mm, low_y + bearings_y_mm)});
  const Region marks = fit_bearings(coupon, set.spine_x(), low_y);
  engrave(coupon, stack, floor - 1, {coupon.labels.begin() + names, coupon.labels.end()}, marks);
  finish(coupon, stack);
  add_notes(coupon);
  return coupon;
}

}  // namespace fitwright
