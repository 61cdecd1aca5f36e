#include "design/plan_places.hpp"

#include <algorithm>
#include <cmath>

#include "design/drafting.hpp"

namespace fitwright {
namespace {

constexpr double first_out_mm = 6, step_out_mm = 6.2;  ///< lines beside the part: from its edge, from each other
constexpr double across_share = 0.6;                   ///< longer than this share of the part: the line goes outside
constexpr double same_line_mm = 3;                     ///< jaw lines nearer than this would run into each other

struct Disc {
  Spot2 centre;
  double radius;
};

bool meets(const Disc& disc, const Area& box) {
  const double dx = std::max({box.x0 - disc.centre.x, disc.centre.x - box.x1, 0.0});
  const double dy = std::max({box.y0 - disc.centre.y, disc.centre.y - box.y1, 0.0});
  return std::hypot(dx, dy) < disc.radius;
}

bool along_axis(const PlanMark& m) { return (m.dx != 0) != (m.dy != 0); }
bool is_x(const PlanMark& m) { return m.dx != 0; }
double low(const PlanMark& m) { return is_x(m) ? m.place->ax : m.place->ay; }
double high(const PlanMark& m) { return is_x(m) ? m.place->bx : m.place->by; }
double line(const PlanMark& m) { return is_x(m) ? m.place->ay : m.place->ax; }

/// Whether another, shorter place on the same line needs the room.
bool must_move_out(const PlanMark& m, const std::vector<PlanMark>& all, const Coupon& coupon) {
  if (!along_axis(m)) return false;
  const double length = high(m) - low(m);
  if (length > across_share * (is_x(m) ? coupon.size_x_mm : coupon.size_y_mm)) return true;
  return std::any_of(all.begin(), all.end(), [&](const PlanMark& other) {
    return &other != &m && along_axis(other) && is_x(other) == is_x(m) &&
           std::abs(line(other) - line(m)) < same_line_mm && low(other) < high(m) - 1e-6 &&
           low(m) < high(other) - 1e-6 && high(other) - low(other) < length;
  });
}

void move_out(std::vector<PlanMark>& marks, const Coupon& coupon, const PlanScale& scale, PlanMargins& margins) {
  std::vector<PlanMark*> out;
  for (PlanMark& m : marks)
    if (must_move_out(m, marks, coupon)) out.push_back(&m);
  std::stable_sort(out.begin(), out.end(),
                   [](const PlanMark* a, const PlanMark* b) { return high(*a) - low(*a) < high(*b) - low(*b); });
  for (PlanMark* m : out) {
    const bool x = is_x(*m), near = line(*m) < (x ? coupon.size_y_mm : coupon.size_x_mm) / 2;
    double& margin = x ? (near ? margins.front : margins.back) : (near ? margins.left : margins.right);
    const double offset = margin > 0 ? margin + step_out_mm : first_out_mm;
    margin = offset;
    m->moved_out = true;
    m->line_a = m->a, m->line_b = m->b;
    const Spot2 corner = scale.at(near ? 0 : coupon.size_x_mm, near ? 0 : coupon.size_y_mm);
    for (Spot2* end : {&m->line_a, &m->line_b})
      if (x)
        end->y = corner.y + (near ? offset : -offset);
      else
        end->x = corner.x + (near ? -offset : offset);
    m->numbers = {{(m->line_a.x + m->line_b.x) / 2, (m->line_a.y + m->line_b.y) / 2}};
  }
}

}  // namespace

PlanLayout plan_layout(const Coupon& coupon, const PlanScale& scale) {
  PlanLayout layout;
  for (const JawPlace& place : coupon.places) {
    PlanMark m;
    m.place = &place;
    for (const Feature& f : coupon.features)
      if (f.id == place.feature_id) m.feature = &f;
    m.a = scale.at(place.ax, place.ay), m.b = scale.at(place.bx, place.by);
    const double length = std::hypot(m.b.x - m.a.x, m.b.y - m.a.y);
    if (length > 1e-9) m.dx = (m.b.x - m.a.x) / length, m.dy = (m.b.y - m.a.y) / length;
    if (std::abs(m.dx) < 1e-12) m.dx = 0;
    if (std::abs(m.dy) < 1e-12) m.dy = 0;
    layout.marks.push_back(m);
  }
  move_out(layout.marks, coupon, scale, layout.margins);

  std::vector<Area> taken;
  for (const Label& label : coupon.labels) {
    const Area a = area_of(label);
    const Spot2 p = scale.at(a.x0, a.y1), q = scale.at(a.x1, a.y0);
    taken.push_back({p.x, p.y, q.x, q.y});
  }
  std::vector<Disc> discs;
  for (const PlanMark& m : layout.marks)
    for (const Spot2& s : m.numbers) discs.push_back({s, number_radius_mm});

  constexpr double r = number_radius_mm, off = r + 2.2;  // beyond a jaw mark
  constexpr double least_inside_mm = 0.6;  // inside jaws come from the number's side: their tips stay seen
  for (PlanMark& m : layout.marks) {
    if (!m.numbers.empty()) continue;
    if (m.dx != 0 && m.dy != 0) {  // diagonals: beyond both corners
      constexpr double far = off + 0.8;
      m.numbers = {{m.a.x - far * m.dx, m.a.y - far * m.dy}, {m.b.x + far * m.dx, m.b.y + far * m.dy}};
      continue;
    }
    const double length = std::hypot(m.b.x - m.a.x, m.b.y - m.a.y);
    const Spot2 c{(m.a.x + m.b.x) / 2, (m.a.y + m.b.y) / 2};
    std::vector<Spot2> candidates;
    if (length >= 2 * r + (m.place->inside ? least_inside_mm : 2))
      for (double share = 0; share * length < length / 2 - r - 1; share += 0.05)
        for (const double side : {1., -1.})
          candidates.push_back({c.x + side * share * length * m.dx, c.y + side * share * length * m.dy});
    const double reach = length / 2 + off;
    for (const double more : {0., 2., 4., 7.})
      for (const Spot2& d : {Spot2{m.dy, m.dx}, Spot2{-m.dy, -m.dx}, Spot2{m.dx, m.dy}, Spot2{-m.dx, -m.dy},
                             Spot2{0.71, 0.71}, Spot2{-0.71, 0.71}, Spot2{0.71, -0.71}, Spot2{-0.71, -0.71}}) {
        if (d.x == 0 && d.y == 0) continue;
        candidates.push_back({c.x + d.x * (reach + more), c.y + d.y * (reach + more)});
      }
    const auto free = [&](const Spot2& s) {
      const Disc disc{s, r + 0.3};
      return std::none_of(taken.begin(), taken.end(), [&](const Area& box) { return meets(disc, box); }) &&
             std::none_of(discs.begin(), discs.end(), [&](const Disc& other) {
               return std::hypot(other.centre.x - s.x, other.centre.y - s.y) < other.radius + disc.radius;
             });
    };
    const auto found = std::find_if(candidates.begin(), candidates.end(), free);
    m.numbers = {found == candidates.end() ? candidates.front() : *found};
    discs.push_back({m.numbers.front(), r});
  }
  return layout;
}

}  // namespace fitwright
