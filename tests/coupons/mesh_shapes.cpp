// Solids whose mesh is known beforehand, and all the ways two neighbouring outlines can meet.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <set>
#include <stdexcept>

#include "mesh/mesh.hpp"
#include "mesh/outside_check.hpp"

using namespace fitwright;

namespace {

Solid stack(const std::vector<Region>& regions, double height_mm = 2) {
  Solid solid{"stack", {}};
  for (std::size_t i = 0; i < regions.size(); ++i) {
    const double bottom = static_cast<double>(i) * height_mm;
    solid.slabs.push_back({nm(bottom), nm(bottom + height_mm), regions[i]});
  }
  return solid;
}

/// Is p inside the edge from a to b?
bool on_edge(const std::array<double, 3>& p, const std::array<double, 3>& a, const std::array<double, 3>& b) {
  double ab = 0, ap = 0, bp = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    ab += (b[i] - a[i]) * (b[i] - a[i]);
    ap += (p[i] - a[i]) * (p[i] - a[i]);
    bp += (p[i] - b[i]) * (p[i] - b[i]);
  }
  return p != a && p != b && std::abs(std::sqrt(ap) + std::sqrt(bp) - std::sqrt(ab)) < 1e-12;
}

std::size_t vertices_inside_edges(const Mesh& mesh) {
  std::size_t count = 0;
  for (const auto& triangle : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i)
      for (const auto& p : mesh.vertices)
        if (on_edge(p, mesh.vertices[triangle[i]], mesh.vertices[triangle[(i + 1) % 3]])) ++count;
  return count;
}

/// Meshes the solid and checks all that every mesh must be.
Mesh sound_mesh(const Solid& solid) {
  Mesh mesh = mesh_of(solid);
  CHECK(is_closed_and_oriented(mesh));
  CHECK(degenerate_triangles(mesh) == 0);
  CHECK(vertices_inside_edges(mesh) == 0);
  CHECK(volume_mm3(mesh) == Approx(volume_mm3(solid)).epsilon(1e-6));
  std::set<std::uint32_t> used;
  for (const auto& triangle : mesh.triangles) used.insert(triangle.begin(), triangle.end());
  CHECK(used.size() == mesh.vertices.size());
  const auto admesh = fitwright_test::admesh(mesh);
  const auto cgal = fitwright_test::cgal(mesh);
  INFO(admesh.output << cgal.output);
  CHECK(admesh.clean());
  CHECK(cgal.clean());
  CHECK(cgal.volume_mm3 == Approx(volume_mm3(mesh)).epsilon(1e-12));
  return mesh;
}

}  // namespace

TEST_CASE("a block has 8 vertices and 12 triangles", "[mesh]") {
  const Mesh mesh = sound_mesh(stack({{rectangle(0, 0, 16, 8)}}));
  CHECK(mesh.vertices.size() == 8);
  CHECK(mesh.triangles.size() == 12);
  CHECK(volume_mm3(mesh) == 256);
  CHECK(bounds(mesh).low == std::array<double, 3>{0, 0, 0});
  CHECK(bounds(mesh).high == std::array<double, 3>{16, 8, 2});
}

TEST_CASE("a block of two equal slabs has walls of two courses and no face between", "[mesh]") {
  const Mesh mesh = sound_mesh(stack({{rectangle(0, 0, 10, 8)}, {rectangle(0, 0, 10, 8)}}));
  CHECK(mesh.vertices.size() == 12);
  CHECK(mesh.triangles.size() == 20);
}

TEST_CASE("a plate with a round hole: Euler's formula for one handle", "[mesh]") {
  const int facets = 64;
  const Solid solid = stack({subtract({rectangle(0, 0, 20, 20)}, {polygon(10, 10, 8, facets)})});
  const Mesh mesh = sound_mesh(solid);
  const long v = static_cast<long>(mesh.vertices.size()), f = static_cast<long>(mesh.triangles.size());
  CHECK(v == 2 * (4 + facets));
  CHECK(v - 3 * f / 2 + f == 0);  // V - E + F of a torus
  const double hole = facets * 16 * std::sin(2 * std::numbers::pi / facets) / 2;
  CHECK(volume_mm3(mesh) == Approx(2 * (400 - hole)).epsilon(1e-7));
}

TEST_CASE("neighbouring outlines nest, coincide in part, cross, and stand apart", "[mesh]") {
  const Region square{rectangle(0, 0, 10, 10)};
  SECTION("a smaller slab on a larger one") { sound_mesh(stack({square, {rectangle(2, 2, 8, 8)}})); }
  SECTION("a larger slab on a smaller one") { sound_mesh(stack({{rectangle(2, 2, 8, 8)}, square})); }
  SECTION("a shared side") { sound_mesh(stack({square, {rectangle(0, 0, 10, 6)}})); }
  SECTION("part of a side") { sound_mesh(stack({square, {rectangle(0, 2, 6, 8)}})); }
  SECTION("a shared corner") { sound_mesh(stack({square, {rectangle(0, 0, 6, 6)}})); }
  SECTION("crossing sides") { sound_mesh(stack({square, {rectangle(3, -4, 7, 14)}})); }
  SECTION("crossing at points off the grid") {
    sound_mesh(stack({{polygon(0, 0, 20, 7)}, {polygon(1.2345, 0.7, 19, 11)}, {polygon(-0.5, 0.3, 21, 5)}}));
  }
  SECTION("turned squares, every side crossing two") {
    sound_mesh(stack({{polygon(0, 0, 20, 4)}, {rectangle(-8, -8, 8, 8)}}));
  }
  SECTION("a hole above a hole, larger, equal, smaller, shifted") {
    for (const double d : {8.0, 6.0, 4.0})
      for (const double shift : {0.0, 2.0})
        sound_mesh(stack({subtract({rectangle(-10, -10, 10, 10)}, {polygon(0, 0, 6, 32)}),
                          subtract({rectangle(-10, -10, 10, 10)}, {polygon(shift, 0, d, 32)})}));
  }
  SECTION("a peg in a hole of the same slab") {
    sound_mesh(
        stack({{rectangle(-10, -10, 10, 10)},
               unite(subtract({rectangle(-10, -10, 10, 10)}, {polygon(0, 0, 12, 48)}), {polygon(0, 0, 6, 48)})}));
  }
  SECTION("two separate parts") {
    const Mesh mesh = mesh_of(stack({unite(square, {rectangle(20, 0, 30, 10)})}));
    CHECK(mesh.triangles.size() == 24);
    CHECK(fitwright_test::admesh(mesh).parts == 2);
    CHECK(fitwright_test::cgal(mesh).clean());
  }
  SECTION("three slabs, the middle one empty") {
    const Mesh mesh = sound_mesh(stack({square, {}, square}));
    CHECK(mesh.triangles.size() == 24);
  }
}

TEST_CASE("a closed cavity has its surface turned inward", "[mesh]") {
  const Region square{rectangle(0, 0, 10, 10)};
  const Mesh mesh = sound_mesh(stack({square, subtract(square, {rectangle(3, 3, 7, 7)}), square}));
  CHECK(volume_mm3(mesh) == Approx(600 - 32).epsilon(1e-12));
}

TEST_CASE("engraved and raised letters", "[mesh][text]") {
  const Region plate{rectangle(0, 0, 40, 10)};
  const Region label = text("X40a B8 %@&", 2, 3, 4);
  sound_mesh(stack({plate, subtract(plate, label)}));
  sound_mesh(stack({plate, label}));
  sound_mesh(stack({plate, grow(label, nm(0.1))}));
  sound_mesh(stack({plate, text("front", 10, 1, 3, 17)}));
}

TEST_CASE("parts that meet in a point only have a vertex each", "[mesh]") {
  // The upper block stands beside the lower one and touches its corner.
  const Mesh mesh = mesh_of(stack({{rectangle(0, 0, 5, 5)}, {rectangle(5, 5, 10, 10)}}));
  CHECK(is_closed_and_oriented(mesh));
  CHECK(mesh.vertices.size() == 16);
  CHECK(mesh.triangles.size() == 24);
}

TEST_CASE("parts that touch along an edge are refused, and the place is named", "[mesh]") {
  CHECK_THROWS_WITH(mesh_of(stack({{rectangle(0, 0, 5, 5), rectangle(5, 5, 10, 10)}})),
                    Catch::Contains("touch along an edge at x 5.0000, y 5.0000"));
  CHECK_THROWS_WITH(mesh_of(stack({{rectangle(0, 0, 5, 5)}, {rectangle(5, 0, 10, 5)}})),
                    Catch::Contains("touch along an edge at x 5.0000"));
}

TEST_CASE("a solid that breaks its rules is refused", "[mesh]") {
  const Region square{rectangle(0, 0, 10, 10)};
  CHECK_THROWS_AS(mesh_of({}), std::logic_error);
  CHECK_THROWS_AS(mesh_of({"", {{0, 0, square}}}), std::logic_error);
  CHECK_THROWS_AS(mesh_of({"", {{nm(1), 0, square}}}), std::logic_error);
  CHECK_THROWS_AS(mesh_of({"", {{0, nm(1), square}, {nm(2), nm(3), square}}}), std::logic_error);
  CHECK_THROWS_AS(mesh_of({"", {{0, nm(1), {{{0, 0}, {nm(1), 0}}}}}}), std::logic_error);
  CHECK_THROWS_AS(mesh_of({"", {{0, nm(1), {rectangle(0, 0, 20000, 1)}}}}), std::logic_error);
}

TEST_CASE("overlapping outlines count once", "[mesh]") {
  sound_mesh(stack({unite({rectangle(0, 0, 6, 6), rectangle(4, 4, 10, 10)}, {})}));
  const Mesh mesh = mesh_of(stack({{rectangle(0, 0, 6, 6), rectangle(4, 4, 10, 10)}}));
  CHECK(is_closed_and_oriented(mesh));
  CHECK(volume_mm3(mesh) == Approx(2 * (36 + 36 - 4)).epsilon(1e-7));
}

TEST_CASE("the checks see what is wrong with a mesh", "[mesh]") {
  const Mesh block = mesh_of(stack({{rectangle(0, 0, 10, 10)}}));
  Mesh open = block;
  open.triangles.pop_back();
  CHECK_FALSE(is_closed_and_oriented(open));
  CHECK_FALSE(fitwright_test::cgal(open).clean());
  CHECK_FALSE(fitwright_test::admesh(open).clean());
  Mesh turned = block;
  std::swap(turned.triangles[0][0], turned.triangles[0][1]);
  CHECK_FALSE(is_closed_and_oriented(turned));
  Mesh outside_in = block;
  for (auto& triangle : outside_in.triangles) std::swap(triangle[0], triangle[1]);
  CHECK(is_closed_and_oriented(outside_in));
  CHECK(volume_mm3(outside_in) == -volume_mm3(block));
  CHECK_FALSE(fitwright_test::cgal(outside_in).clean());
  Mesh wild = block;
  wild.triangles[0][0] = 99;
  CHECK_FALSE(is_closed_and_oriented(wild));
  Mesh flat = block;
  flat.triangles.push_back({0, 0, 1});
  CHECK(degenerate_triangles(flat) == 1);
  // Distinct as doubles, the same as floats.
  Mesh thin = block;
  thin.vertices.push_back({10, 10, 1e-9 + 2});
  thin.vertices.push_back({10, 10, 2e-9 + 2});
  thin.triangles.push_back({0, 8, 9});
  CHECK(degenerate_triangles(thin) == 1);
  CHECK_FALSE(is_closed_and_oriented({}));
  // Two blocks through each other: closed, but CGAL sees it.
  Mesh through = block;
  for (const auto& v : block.vertices) through.vertices.push_back({v[0] + 3, v[1] + 3, v[2] + 1});
  for (const auto& t : block.triangles) through.triangles.push_back({t[0] + 8, t[1] + 8, t[2] + 8});
  CHECK(is_closed_and_oriented(through));
  CHECK(fitwright_test::cgal(through).self_intersects);
}
