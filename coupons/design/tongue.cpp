// The tongue: flat tongues in grooves, from tight to loose. Which clearance lets a lid or a drawer slide?
//
// Why it is as it is:
// - Grooves in two rows, back to back on one spine, open at the front and at the back, so that a tongue goes in as a
//   drawer does. Each is marked with its clearance; both tongues are drawn alike, at the nominal width.
// - Two tongues, for a fit needs the error of the tongue as well, and one alone would carry it into every trial.
// - The grooves stand on a floor that takes up the flare; the tongues have a relief at their foot, and cut corners at
//   the end that goes in.
// - Walls between grooves are held by the spine: there the inside jaws stand, where nothing gives way.
// - All widths lie along X: what the axes differ by stays out of the fit.

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/compliance.hpp"
#include "design/designs.hpp"
#include "design/grading.hpp"
#include "design/parameters.hpp"
#include "design/relief.hpp"

namespace fitwright {
namespace {

constexpr const char* width_name = "width_mm";

constexpr double floor_mm = 0.6;        ///< least: carries names and walls
constexpr double groove_mm = 4.2;       ///< least depth: inside jaws need 4
constexpr double length_mm = 10;        ///< of a groove
constexpr double wall_mm = 3.2;         ///< least between grooves: holds against the jaws
constexpr double strip_mm = 4.6;        ///< floor before the grooves, with their names
constexpr double label_gap_mm = 1.2;    ///< between names
constexpr double apart_mm = 5;          ///< between pieces
constexpr double tongue_mm = 24;        ///< length of a tongue: 10 to go in, the rest to hold it by
constexpr double tongue_face_mm = 3.6;  ///< least height of its sides above the relief
constexpr double corner_mm = 1;         ///< cut off where it goes in
constexpr double tongue_at_mm = 5;      ///< where its width is read, from that end
constexpr double groove_at_mm = 4;      ///< where grooves are read, from the spine

/// Front row and back row.
struct Rows {
  double pitch = 0;
  int front = 0, back = 0;
  [[nodiscard]] double x(int i) const { return wall_mm / 2 + pitch * ((i < front ? i : i - front) + 0.5); }
  [[nodiscard]] double width(int grooves) const { return pitch * grooves + wall_mm; }
  [[nodiscard]] double depth() const { return 2 * (strip_mm + length_mm) + wall_mm; }
  [[nodiscard]] double size_x() const { return width(front) + bearings_x_mm; }
};

Rows rows_of(const std::vector<std::string>& ids, double widest) {
  Rows r;
  double label = 0;
  for (const std::string& id : ids) label = std::max(label, text_width_mm(id, fit_label_mm));
  r.pitch = to_tenths(std::max(widest + wall_mm, label + label_gap_mm));
  r.front = static_cast<int>(ids.size() + 1) / 2;
  r.back = static_cast<int>(ids.size()) - r.front;
  return r;
}

/// Closing of a groove read at `at` from the spine: both walls as bars held at the spine, bending and shear; half more
/// for the joint.
double groove_closing(double height, double at) {
  const Section wall = rectangle_section(0, wall_mm, 0, height);
  const double shear_mpa = youngs_modulus_mpa / (2 * (1 + poissons_ratio)), joint = 1.5, shear_share = 1.2;
  return 2 * joint *
         (at * at * at / (3 * youngs_modulus_mpa * wall.inertia_plan_mm4) +
          shear_share * at / (shear_mpa * wall.area_mm2));
}

Feature width_feature(const std::string& id, Kind kind, double nominal) {
  Feature f;
  f.id = id;
  f.kind = kind;
  f.axis = Axis::x;
  f.nominal_mm = nominal;
  f.label = kind == Kind::inner ? "groove" : "tongue";
  return f;
}

JawPlace width_place(const Feature& f, double middle, double y, double z, double compliance) {
  JawPlace p;
  p.feature_id = f.id;
  p.ax = middle - f.nominal_mm / 2, p.bx = middle + f.nominal_mm / 2;
  p.ay = p.by = y;
  p.z_mm = z;
  p.inside = f.kind == Kind::inner;
  p.compliance_mm_per_n = compliance;
  return p;
}

/// Tongues in front of the grooves, side by side; the end that goes in looks to the back.
void add_tongues(Coupon& coupon, LayerStack& stack, const Layering& layering, double width) {
  const int top = layering.at_least(layering.height_mm(relief_layers(layering)) + tongue_face_mm);
  std::vector<Label> names;
  double x = 0;
  for (const std::string& id : coupon.trials.mates) {
    const double end = -apart_mm, middle = x + width / 2;
    Region outline{rectangle(x, end - tongue_mm, x + width, end)};
    for (const double side : {x, x + width})  // cut corners: squares on their corners
      outline = subtract(outline, {stroke(side - corner_mm, end, side + corner_mm, end, corner_mm * std::sqrt(2.0))});
    stack.add(0, top, outline);
    cut_relief(stack, layering, outline);
    const Feature f = width_feature(id, Kind::outer, width);
    coupon.features.push_back(f);
    const double low = layering.height_mm(relief_layers(layering)), high = layering.height_mm(top);
    const Section section = rectangle_section(0, 6, 0, high);
    coupon.places.push_back(width_place(f, middle, end - tongue_at_mm, (low + high) / 2,
                                        bar_closing(section, width, section.centre_across_mm, section.centre_up_mm)));
    const double label = text_width_mm(id, fit_label_mm);
    names.push_back(centred_label(id, middle, end - tongue_mm + 1.5 + label / 2, fit_label_mm, 90));
    x += width + apart_mm;
  }
  engrave(coupon, stack, top - 1, names, {});
  coupon.labels.insert(coupon.labels.end(), names.begin(), names.end());
}

void add_grooves(Coupon& coupon, LayerStack& stack, const Layering& layering, const Rows& rows, double width) {
  const int floor = std::max(2, layering.at_least(floor_mm)),
            top = layering.at_least(layering.height_mm(floor) + groove_mm);
  const double low = layering.height_mm(floor), high = layering.height_mm(top);
  const double spine0 = strip_mm + length_mm, spine1 = spine0 + wall_mm, back_end = spine1 + length_mm;
  stack.add(0, floor, {rectangle(0, 0, rows.size_x(), rows.depth())});
  Region walls = unite({rectangle(0, spine0, rows.width(rows.front), spine1)},
                       {rectangle(0, strip_mm, rows.width(rows.front), spine0)});
  if (rows.back > 0) walls = unite(walls, {rectangle(0, spine1, rows.width(rows.back), back_end)});
  const auto first_name = static_cast<std::ptrdiff_t>(coupon.labels.size());
  for (int i = 0; i < rows.front + rows.back; ++i) {
    const bool front = i < rows.front;
    const Trial& trial = coupon.trials.places[static_cast<std::size_t>(i)];
    const Feature f = width_feature(trial.id, Kind::inner, whole_nm(width + trial.clearance_mm));
    const double middle = rows.x(i), half = f.nominal_mm / 2;
    walls = subtract(walls, {front ? rectangle(middle - half, strip_mm - 1, middle + half, spine0)
                                   : rectangle(middle - half, spine1, middle + half, back_end + 1)});
    coupon.features.push_back(f);
    coupon.places.push_back(width_place(f, middle, front ? spine0 - groove_at_mm : spine1 + groove_at_mm,
                                        (low + high) / 2, groove_closing(high - low, groove_at_mm)));
    const double strip_middle = strip_mm / 2;
    coupon.labels.push_back(
        centred_label(trial.id, middle, front ? strip_middle : rows.depth() - strip_middle, fit_label_mm));
  }
  stack.add(floor, top, walls);
  const Region marks = fit_bearings(coupon, rows.width(rows.front), (rows.depth() - bearings_y_mm) / 2);
  engrave(coupon, stack, floor - 1, {coupon.labels.begin() + first_name, coupon.labels.end()}, marks);
}

}  // namespace

DesignInfo tongue_info() {
  return {"tongue", noted("Which clearance lets a flat lid or a drawer slide in its groove?"),
          with_setup(with_grading({{width_name, 12, 10.7, 30, "mm", noted("drawn width of the tongues")}}))};
}

Result<Coupon> make_tongue(const DesignValues& values) {
  Problems problems = grading_problems(values);
  if (!problems.empty()) return problems;
  const double width = values.at(width_name);
  const std::vector<double> clearances = clearances_mm(values);
  const std::vector<std::string> ids = clearance_ids('G', clearances);
  if (constexpr double least_mm = 10; width + clearances.front() < least_mm - 1e-9)
    problems.push_back({Code::bad_input,
                        {},
                        said("{} with {} makes a groove of {} mm, and inside jaws need {} mm between flat faces",
                             named_value(width_name, width), named_value(param::start, clearances.front()),
                             shortest(whole_nm(width + clearances.front())), shortest(least_mm)),
                        said("set {} to {} or more", width_name, shortest(whole_nm(least_mm - clearances.front())))});
  const Rows rows = rows_of(ids, whole_nm(width + clearances.back()));
  const std::string name = "T" + engraved(width);
  const double tongues = 2 * width + apart_mm;
  const Problems bed = bed_problems(values, std::max(rows.size_x(), tongues), rows.depth() + apart_mm + tongue_mm,
                                    said("set {} to {} and print in two goes", param::count, (ids.size() + 1) / 2));
  problems.insert(problems.end(), bed.begin(), bed.end());
  if (!problems.empty()) return problems;

  Coupon coupon;
  coupon.design = "tongue";
  coupon.values = values;
  coupon.trials = {{}, {name + "a", name + "b"}, width, tr("tongue"), false};
  for (std::size_t i = 0; i < ids.size(); ++i) coupon.trials.places.push_back({ids[i], clearances[i]});
  const Layering layering = layering_of(values);
  LayerStack stack(layering);
  add_tongues(coupon, stack, layering, width);  // read first, with the outside jaws
  add_grooves(coupon, stack, layering, rows, width);
  finish(coupon, stack);

  coupon.printing_notes.push_back(tr("Seam to the corners: none may lie inside a groove or on the side of a tongue."));
  coupon.measuring_notes.push_back(
      tr("Read before the first trial. Grooves: inside jaws near the spine, where the walls are held. Tongues: at the "
         "end with the cut corners. The rows may stay empty if you try by drawn clearances only."));
  coupon.trying_notes.push_back(
      tr("From the loosest groove to the tightest: first one tongue in all, then the other, cut corners first."));
  coupon.trying_notes.push_back(tr("Slide it in from the open end, flat on the floor, as a drawer goes."));
  return coupon;
}

}  // namespace fitwright
