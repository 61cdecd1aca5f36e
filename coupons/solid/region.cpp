// Plane geometry by Clipper on whole nanometres.

#include <algorithm>
#include <polyclipping/clipper.hpp>

#include "solid/solid.hpp"

namespace fitwright {
namespace {

/// Corners whose tip would stand farther out than this many times the offset are cut off square: keeps right angles
/// (1.41) and all down to 60 degrees, and stops the needles of sharp letters.
constexpr double miter_limit = 2.0;

ClipperLib::Paths paths_of(const Region& region) {
  ClipperLib::Paths paths;
  paths.reserve(region.size());
  for (const Ring& ring : region) {
    ClipperLib::Path path;
    path.reserve(ring.size());
    for (const Point& p : ring) path.emplace_back(p.x, p.y);
    paths.push_back(std::move(path));
  }
  return paths;
}

bool before(const Point& a, const Point& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; }

/// Takes out points on the line through their neighbours, spikes and doubled points included: Clipper leaves some.
Ring without_collinear(Ring ring) {
  __extension__ using Wide = __int128;
  const auto flat = [](const Point& a, const Point& b, const Point& c) {
    return static_cast<Wide>(b.x - a.x) * (c.y - b.y) == static_cast<Wide>(b.y - a.y) * (c.x - b.x);
  };
  // Each removal may make the point before it removable: step back one, and go on until a whole turn finds none.
  std::size_t i = 0, kept_in_a_row = 0;
  while (ring.size() > 2 && kept_in_a_row < ring.size()) {
    const std::size_t n = ring.size();
    i %= n;
    if (flat(ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n])) {
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      i = (i + n - 2) % (n - 1);
      kept_in_a_row = 0;
    } else {
      ++i, ++kept_in_a_row;
    }
  }
  return ring;
}

/// Rings start at their lowest (x, y) and stand in ascending order, so that equal sets are equal values.
Region region_of(const ClipperLib::Paths& paths) {
  Region region;
  region.reserve(paths.size());
  for (const ClipperLib::Path& path : paths) {
    Ring ring;
    ring.reserve(path.size());
    for (const ClipperLib::IntPoint& p : path) ring.push_back({p.X, p.Y});
    ring = without_collinear(std::move(ring));
    if (ring.size() < 3) continue;
    std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end(), before), ring.end());
    region.push_back(std::move(ring));
  }
  std::sort(region.begin(), region.end(), [](const Ring& a, const Ring& b) {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), before);
  });
  return region;
}

Region combined(ClipperLib::ClipType what, const Region& a, const Region& b) {
  ClipperLib::Clipper clipper;
  clipper.StrictlySimple(true);
  clipper.AddPaths(paths_of(a), ClipperLib::ptSubject, true);
  clipper.AddPaths(paths_of(b), ClipperLib::ptClip, true);
  ClipperLib::Paths out;
  clipper.Execute(what, out, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
  return region_of(out);
}

}  // namespace

Region unite(const Region& a, const Region& b) { return combined(ClipperLib::ctUnion, a, b); }
Region subtract(const Region& a, const Region& b) { return combined(ClipperLib::ctDifference, a, b); }
Region intersect(const Region& a, const Region& b) { return combined(ClipperLib::ctIntersection, a, b); }

Region grow(const Region& region, Nm by) {
  ClipperLib::ClipperOffset offset(miter_limit);
  offset.AddPaths(paths_of(unite(region, {})), ClipperLib::jtMiter, ClipperLib::etClosedPolygon);
  ClipperLib::Paths out;
  offset.Execute(out, static_cast<double>(by));
  return unite(region_of(out), {});
}

}  // namespace fitwright
