#include "design/drafting.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

/// Free bed around a part, mm per side: room for a skirt line.
constexpr double bed_margin_mm = 2;

}  // namespace

bool Area::meets(const Area& other, double gap_mm) const {
  return x0 < other.x1 + gap_mm && other.x0 < x1 + gap_mm && y0 < other.y1 + gap_mm && other.y0 < y1 + gap_mm;
}

Area area_of(const Label& label) {
  const double width = text_width_mm(label.text, label.capital_height_mm), height = label.capital_height_mm;
  switch (static_cast<int>(std::lround(label.turn_deg / 90)) & 3) {
    case 0:
      return {label.x, label.y, label.x + width, label.y + height};
    case 1:
      return {label.x - height, label.y, label.x, label.y + width};
    case 2:
      return {label.x - width, label.y - height, label.x, label.y};
    default:
      return {label.x, label.y - width, label.x + height, label.y};
  }
}

Label centred_label(const std::string& text, double cx, double cy, double capital_height_mm, double turn_deg) {
  const Area area = area_of({text, 0, 0, capital_height_mm, turn_deg});
  return {text, cx - (area.x0 + area.x1) / 2, cy - (area.y0 + area.y1) / 2, capital_height_mm, turn_deg};
}

Ring stroke(double x0, double y0, double x1, double y1, double width_mm) {
  const double length = std::hypot(x1 - x0, y1 - y0);
  const double ox = -(y1 - y0) / length * width_mm / 2, oy = (x1 - x0) / length * width_mm / 2;
  return {
      {nm(x0 - ox), nm(y0 - oy)}, {nm(x1 - ox), nm(y1 - oy)}, {nm(x1 + ox), nm(y1 + oy)}, {nm(x0 + ox), nm(y0 + oy)}};
}

Ring pointer(double x, double y, double dx, double dy, double size_mm) {
  const double length = std::hypot(dx, dy), ux = dx / length * size_mm, uy = dy / length * size_mm;
  return {
      {nm(x), nm(y)}, {nm(x - ux - uy * 0.6), nm(y - uy + ux * 0.6)}, {nm(x - ux + uy * 0.6), nm(y - uy - ux * 0.6)}};
}

Region arrow(double x0, double y0, double x1, double y1, double width_mm) {
  const double head = 4 * width_mm, length = std::hypot(x1 - x0, y1 - y0);
  const double back = (length - head * 0.9) / length;  // the shaft ends inside the head
  return unite({stroke(x0, y0, x0 + (x1 - x0) * back, y0 + (y1 - y0) * back, width_mm)},
               {pointer(x1, y1, x1 - x0, y1 - y0, head)});
}

void engrave(Coupon& coupon, LayerStack& stack, int layer, const std::vector<Label>& labels, const Region& marks) {
  Region all = unite(marks, {});
  for (const Label& label : labels)
    all = unite(all, text(label.text, label.x, label.y, label.capital_height_mm, label.turn_deg));
  coupon.engraved = unite(coupon.engraved, all);
  stack.cut(layer, layer + 1, std::move(all));
}

void finish(Coupon& coupon, const LayerStack& stack) {
  coupon.solid = stack.solid(coupon.design);
  coupon.layers = stack.layers();

  Point low{INT64_MAX, INT64_MAX}, high{INT64_MIN, INT64_MIN};
  for (const Slab& slab : coupon.solid.slabs)
    for (const Ring& ring : slab.region)
      for (const Point& p : ring) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
      }
  const auto move = [&](Region& region) {
    for (Ring& ring : region)
      for (Point& p : ring) p = {p.x - low.x, p.y - low.y};
  };
  for (Slab& slab : coupon.solid.slabs) move(slab.region);
  move(coupon.engraved);
  for (JawPlace& place : coupon.places) {
    place.ax -= mm(low.x), place.bx -= mm(low.x);
    place.ay -= mm(low.y), place.by -= mm(low.y);
  }
  for (Label& label : coupon.labels) label.x -= mm(low.x), label.y -= mm(low.y);

  coupon.size_x_mm = mm(high.x - low.x);
  coupon.size_y_mm = mm(high.y - low.y);
  coupon.size_z_mm = mm(coupon.solid.slabs.back().top);
  coupon.volume_mm3 = volume_mm3(coupon.solid);
  coupon.grams = coupon.volume_mm3 * 1e-3 * coupon.values.at(param::density);
  int number = 0;
  for (JawPlace& place : coupon.places) place.number = ++number;
}

std::string engraved(double mm) { return shortest(mm); }

void letter_repeated(std::vector<Feature>& features) {
  std::map<std::string, int> count, next;
  for (const Feature& f : features) ++count[f.id];
  for (Feature& f : features)
    if (const std::string plain = f.id; count[plain] > 1) f.id += static_cast<char>('a' + next[plain]++);
}

Problems bed_problems(const DesignValues& values, double size_x_mm, double size_y_mm, const std::string& remedy) {
  Problems problems;
  const auto check = [&](const char* bed, double size_mm, const char* axis) {
    const double needed = size_mm + 2 * bed_margin_mm;
    if (needed <= values.at(bed)) return;
    problems.push_back({Code::bad_input,
                        {},
                        "the coupon is " + fixed(size_mm, 1) + " mm along " + axis + " and with " +
                            shortest(bed_margin_mm) + " mm around it does not lie on a bed of " +
                            shortest(values.at(bed)) + " mm (" + bed + ")",
                        remedy + (remedy.empty() ? "" : ", or ") + "set " + bed + " to " + shortest(std::ceil(needed)) +
                            " or more if the bed is that large"});
  };
  check(param::bed_x, size_x_mm, "X");
  check(param::bed_y, size_y_mm, "Y");
  return problems;
}

double readable_mm(double caliper_range_mm) { return caliper_range_mm * 0.99; }

}  // namespace fitwright
