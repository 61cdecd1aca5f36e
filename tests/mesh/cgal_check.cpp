// Checks a binary STL with CGAL, independently of the program: corners with equal coordinates are one vertex, and
// nothing is repaired. Prints "polygon_mesh=B closed=B self_intersects=B outward=B volume=N" (B is 0 or 1).
// A program of its own, for tests only: CGAL's licence stays out of what is shipped.

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <array>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
namespace pmp = CGAL::Polygon_mesh_processing;

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: fw_cgal_check FILE.stl\n";
    return 2;
  }
  std::ifstream in(argv[1], std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  constexpr std::size_t header = 84, record = 50;  // this machine is taken to be little-endian, as the file is
  std::uint32_t count = 0;
  if (bytes.size() >= header) std::memcpy(&count, bytes.data() + 80, 4);
  if (bytes.size() < header || bytes.size() != header + record * count) {
    std::cerr << "not a binary STL\n";
    return 3;
  }
  std::vector<Kernel::Point_3> points;
  std::vector<std::vector<std::size_t>> triangles;
  std::map<std::array<float, 3>, std::size_t> number;
  for (std::size_t t = 0; t < count; ++t) {
    std::array<std::array<float, 3>, 3> corners{};
    std::memcpy(corners.data(), bytes.data() + header + record * t + 12, 36);
    std::vector<std::size_t> triangle;
    for (const auto& corner : corners) {
      const auto [place, added] = number.emplace(corner, points.size());
      if (added) points.emplace_back(corner[0], corner[1], corner[2]);
      triangle.push_back(place->second);
    }
    triangles.push_back(triangle);
  }
  Surface surface;
  const bool good = pmp::is_polygon_soup_a_polygon_mesh(triangles);
  if (good) pmp::polygon_soup_to_polygon_mesh(points, triangles, surface);
  const bool closed = good && CGAL::is_closed(surface);
  std::cout.precision(17);
  std::cout << "polygon_mesh=" << good << " closed=" << closed
            << " self_intersects=" << (good && pmp::does_self_intersect(surface))
            << " outward=" << (closed && pmp::does_bound_a_volume(surface) && pmp::is_outward_oriented(surface))
            << " volume=" << (closed ? CGAL::to_double(pmp::volume(surface)) : 0.0) << '\n';
  return 0;
}
