#include "solid/solid.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace fitwright {
namespace {

/// Largest length taken, 1 km: far above any part, far below where a product of two lengths leaves 128 bits.
constexpr double largest_mm = 1e6;

}  // namespace

Nm nm(double mm) {
  if (!(std::abs(mm) <= largest_mm)) throw std::logic_error("nm: not a length of a part");
  return std::llround(mm * 1e6);
}

double volume_mm3(const Solid& solid) {
  double total = 0;
  for (const Slab& slab : solid.slabs) {
    __extension__ using Wide = __int128;
    Wide twice_area = 0;  // nm2
    for (const Ring& ring : slab.region)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point& a = ring[i];
        const Point& b = ring[(i + 1) % ring.size()];
        twice_area += static_cast<Wide>(a.x) * b.y - static_cast<Wide>(b.x) * a.y;
      }
    total += static_cast<double>(twice_area) * 0.5e-12 * mm(slab.top - slab.bottom);
  }
  return total;
}

Ring rectangle(double x0, double y0, double x1, double y1) {
  const Nm left = nm(x0), front = nm(y0), right = nm(x1), back = nm(y1);
  if (left >= right || front >= back)
    throw std::logic_error("rectangle: the second corner must be right of and behind the first");
  return {{left, front}, {right, front}, {right, back}, {left, back}};
}

Ring polygon(double cx, double cy, double diameter_mm, int facets) {
  if (facets < 3 || !(diameter_mm > 0))
    throw std::logic_error("polygon: needs a diameter above 0 and 3 facets or more");
  Ring ring;
  ring.reserve(static_cast<std::size_t>(facets));
  for (int i = 0; i < facets; ++i) {
    const double angle = 2 * std::numbers::pi * i / facets;
    ring.push_back({nm(cx + diameter_mm / 2 * std::cos(angle)), nm(cy + diameter_mm / 2 * std::sin(angle))});
  }
  return ring;
}

}  // namespace fitwright
