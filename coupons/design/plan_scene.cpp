#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/words.hpp"
#include "design/plan.hpp"

namespace fitwright {
namespace {

constexpr Colour outline_edge{0x5f, 0x63, 0x68};
constexpr Colour engraved_fill{0x8d, 0x93, 0x99};
constexpr double outline_mm = 0.15;
constexpr double jaw_mm = 2.0;
constexpr double surround_mm = 9;  ///< from the outermost mark to axes and front

/// Grey of a surface at `height` of `most`: low ones are light. By the square root, so that low steps differ too.
Colour shade(double height, double most) {
  const double dark = std::sqrt(std::clamp(height / most, 0.0, 1.0));
  const auto channel = [&](double light, double deep) {
    return static_cast<unsigned char>(std::lround(light + (deep - light) * dark));
  };
  return {channel(255, 200), channel(255, 204), channel(254, 209)};
}

PlanOutline region_outline(const Region& region, const PlanScale& scale, Colour fill, Colour edge) {
  PlanOutline outline{{}, fill, edge, outline_mm};
  for (const Ring& ring : region) {
    std::vector<Spot2> points;
    for (const Point& p : ring) {
      const Spot2 spot = scale.at(mm(p.x), mm(p.y));
      constexpr double finest_mm = 0.01;  // finer than the drawing
      if (points.empty() || std::hypot(spot.x - points.back().x, spot.y - points.back().y) >= finest_mm)
        points.push_back(spot);
    }
    outline.rings.push_back(std::move(points));
  }
  return outline;
}

/// A jaw: a small triangle whose tip touches the face at `at`, coming along (dx, dy).
PlanOutline jaw(Spot2 at, double dx, double dy, Colour fill, double length = jaw_mm) {
  const double half = 0.55 * length;
  const Spot2 back{at.x - dx * length, at.y - dy * length};
  return {{{at, {back.x - dy * half, back.y + dx * half}, {back.x + dy * half, back.y - dx * half}}}, fill, fill, 0};
}

bool is_round(Kind kind) { return kind == Kind::hole || kind == Kind::peg || kind == Kind::pin; }

void add_jaws(std::vector<PlanItem>& items, const PlanMark& m) {
  if (m.feature && m.feature->kind == Kind::pin) return;  // a shank, no jaws
  const Colour c = axis_colour(m.feature ? m.feature->axis : Axis::n);
  if (m.dx == 0 && m.dy == 0) {  // a height: one jaw above, one below
    constexpr double half = 1.3;
    items.push_back(PlanOutline{{{{m.a.x - half, m.a.y - half},
                                  {m.a.x + half, m.a.y - half},
                                  {m.a.x + half, m.a.y + half},
                                  {m.a.x - half, m.a.y + half}}},
                                c,
                                c,
                                0});
    return;
  }
  if (m.moved_out) {
    items.push_back(PlanLine{m.a, m.line_a, c, 0.18, 0.7});
    items.push_back(PlanLine{m.b, m.line_b, c, 0.18, 0.7});
    items.push_back(PlanLine{m.line_a, m.line_b, c, 0.3});
    items.push_back(jaw(m.line_a, -m.dx, -m.dy, c));
    items.push_back(jaw(m.line_b, m.dx, m.dy, c));
  } else if (m.dx == 0 || m.dy == 0) {
    items.push_back(PlanLine{m.a, m.b, c, 0.25, 0.6});
  }
  // Inside jaws in a small hole: no longer than lets them stand side by side.
  const double sign = m.place->inside ? -1 : 1;
  const double apart = std::hypot(m.b.x - m.a.x, m.b.y - m.a.y);
  const double size = m.place->inside ? std::min(jaw_mm, apart / 3.5) : jaw_mm;
  items.push_back(jaw(m.a, sign * m.dx, sign * m.dy, c, size));
  items.push_back(jaw(m.b, -sign * m.dx, -sign * m.dy, c, size));
  if (m.feature && is_round(m.feature->kind)) {  // second reading, at right angles
    const Spot2 centre{(m.a.x + m.b.x) / 2, (m.a.y + m.b.y) / 2};
    items.push_back(jaw({centre.x, centre.y - apart / 2}, 0, sign, c, size));
    items.push_back(jaw({centre.x, centre.y + apart / 2}, 0, -sign, c, size));
  }
}

/// A thin line to a number that had to go far from its place.
void add_leader(std::vector<PlanItem>& items, const PlanMark& m) {
  if (m.moved_out || m.numbers.size() != 1) return;
  constexpr double near_mm = 4;  // from the number's edge
  const Spot2 middle{(m.a.x + m.b.x) / 2, (m.a.y + m.b.y) / 2}, number = m.numbers.front();
  const double away = std::hypot(number.x - middle.x, number.y - middle.y) - number_radius_mm;
  if (away > std::hypot(m.b.x - m.a.x, m.b.y - m.a.y) / 2 + near_mm)
    items.push_back(PlanLine{middle, number, axis_colour(m.feature ? m.feature->axis : Axis::n), 0.2, 0.8});
}

void add_axes(std::vector<PlanItem>& items, Spot2 o) {
  constexpr double length = 11;
  items.push_back(PlanLine{o, {o.x + length - jaw_mm, o.y}, plan_colour::blue, 0.5});
  items.push_back(jaw({o.x + length, o.y}, 1, 0, plan_colour::blue));
  items.push_back(PlanLine{o, {o.x, o.y - length + jaw_mm}, plan_colour::vermilion, 0.5});
  items.push_back(jaw({o.x, o.y - length}, 0, -1, plan_colour::vermilion));
  items.push_back(PlanWords{{o.x + length + 1.2, o.y + 1.2}, "X", 3.4, plan_colour::blue, Anchor::start, true});
  items.push_back(PlanWords{{o.x, o.y - length - 1.4}, "Y", 3.4, plan_colour::vermilion, Anchor::middle, true});
}

/// Part, engraved names and jaw marks with their numbers.
std::vector<PlanItem> part_items(const Coupon& coupon, const PlanScale& scale, const std::vector<PlanMark>& marks) {
  std::vector<PlanItem> items;
  for (const Slab& slab : coupon.solid.slabs)
    items.push_back(region_outline(slab.region, scale, shade(mm(slab.top), coupon.size_z_mm), outline_edge));
  items.push_back(region_outline(coupon.engraved, scale, engraved_fill, engraved_fill));
  for (const PlanMark& m : marks) add_jaws(items, m);
  for (const PlanMark& m : marks) add_leader(items, m);
  for (const PlanMark& m : marks)
    for (const Spot2& s : m.numbers)
      add_number(items, s, number_radius_mm, m.place->number, tool_of(*m.place, m.feature),
                 axis_colour(m.feature ? m.feature->axis : Axis::n));
  return items;
}

/// Smallest box around what was given to it.
struct Extent {
  double x0 = std::numeric_limits<double>::max(), y0 = x0, x1 = -x0, y1 = -x0;
  void take(Spot2 s, double around_x, double around_y) {
    x0 = std::min(x0, s.x - around_x), x1 = std::max(x1, s.x + around_x);
    y0 = std::min(y0, s.y - around_y), y1 = std::max(y1, s.y + around_y);
  }
};

/// Calls `see(spot, around_x, around_y)` for every point of an item; words by a width no letter of the font exceeds
/// on average.
template <class See>
void each_point(PlanItem& item, const See& see) {
  if (auto* line = std::get_if<PlanLine>(&item)) {
    see(line->a, line->width_mm / 2, line->width_mm / 2), see(line->b, line->width_mm / 2, line->width_mm / 2);
  } else if (auto* outline = std::get_if<PlanOutline>(&item)) {
    for (auto& ring : outline->rings)
      for (Spot2& spot : ring) see(spot, outline->edge_mm / 2, outline->edge_mm / 2);
  } else if (auto* disc = std::get_if<PlanDisc>(&item)) {
    const double r = disc->radius_mm + disc->edge_mm / 2;
    see(disc->centre, r, r);
  } else if (auto* words = std::get_if<PlanWords>(&item)) {
    constexpr double letter_width = 0.7;
    const double width = letter_width * words->size_mm * static_cast<double>(words->words.size());
    see(words->at, words->anchor == Anchor::middle ? width / 2 : width, words->size_mm);
  }
}

/// Moves the items so that their box begins at (0, 0).
PlanScene framed(std::vector<PlanItem> items) {
  Extent box;
  for (PlanItem& item : items) each_point(item, [&](Spot2& s, double x, double y) { box.take(s, x, y); });
  for (PlanItem& item : items) each_point(item, [&](Spot2& s, double, double) { s = {s.x - box.x0, s.y - box.y0}; });
  return {box.x1 - box.x0, box.y1 - box.y0, std::move(items)};
}

}  // namespace

Colour axis_colour(Axis axis) {
  switch (axis) {
    case Axis::x:
      return plan_colour::blue;
    case Axis::y:
      return plan_colour::vermilion;
    case Axis::z:
      return plan_colour::bluish_green;
    default:
      return plan_colour::ink;
  }
}

const Feature* find_feature(const Coupon& coupon, const std::string& id) {
  const auto found =
      std::find_if(coupon.features.begin(), coupon.features.end(), [&](const Feature& f) { return f.id == id; });
  return found == coupon.features.end() ? nullptr : &*found;
}

Tool tool_of(const JawPlace& place, const Feature* feature) {
  if (feature && feature->kind == Kind::pin) return Tool::shank;
  return place.inside ? Tool::inside_jaws : Tool::outside_jaws;
}

std::string tool_words(Tool tool) {
  return tool == Tool::outside_jaws  ? tr("outside jaws")
         : tool == Tool::inside_jaws ? tr("inside jaws")
                                     : tr("drill shank");
}

void add_number(std::vector<PlanItem>& items, Spot2 centre, double radius_mm, int number, Tool tool, Colour colour) {
  const double edge_mm = 0.17 * radius_mm, r = radius_mm - edge_mm / 2;
  const double x = centre.x, y = centre.y;
  if (tool == Tool::outside_jaws) {
    items.push_back(PlanDisc{centre, r, plan_colour::white, colour, edge_mm});
  } else {
    PlanOutline outline{{}, plan_colour::white, colour, edge_mm};
    if (tool == Tool::inside_jaws) {
      const double half = 0.95 * r;
      outline.rings = {{{x - half, y - half}, {x + half, y - half}, {x + half, y + half}, {x - half, y + half}}};
    } else {
      const double half = 1.3 * r;  // two digits need more room between slanted sides
      outline.rings = {{{x, y - half}, {x + half, y}, {x, y + half}, {x - half, y}}};
    }
    items.push_back(std::move(outline));
  }
  const double size_mm = 1.01 * radius_mm;  // two bold digits within the disc
  constexpr double capital_share = 0.729;   // height of capitals and digits, of the font's size (DejaVu Sans)
  if (number > 0)
    items.push_back(PlanWords{
        {x, y + capital_share * size_mm / 2}, std::to_string(number), size_mm, plan_colour::ink, Anchor::middle, true});
}

std::vector<PlanItem> plan_items(const Coupon& coupon, const PlanScale& scale, const std::string& only) {
  std::vector<PlanMark> marks = plan_layout(coupon, scale).marks;
  if (!only.empty()) std::erase_if(marks, [&](const PlanMark& m) { return m.place->feature_id != only; });
  return part_items(coupon, scale, marks);
}

PlanScene plan_scene(const Coupon& coupon, double page_per_mm) {
  const PlanScale scale{page_per_mm, 0, 0};
  const PlanLayout layout = plan_layout(coupon, scale);
  std::vector<PlanItem> items = part_items(coupon, scale, layout.marks);

  const double front = layout.margins.front + surround_mm;
  add_axes(items, {-layout.margins.left - surround_mm, front});
  const double middle = page_per_mm * coupon.size_x_mm / 2;
  items.push_back(
      PlanWords{{middle, front + 2.5}, "front of the machine", 3.6, plan_colour::ink, Anchor::middle, true});
  return framed(std::move(items));
}

}  // namespace fitwright
