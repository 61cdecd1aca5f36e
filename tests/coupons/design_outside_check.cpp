// Every coupon as it is printed, looked at by two programs that are not ours: admesh and CGAL (closed, oriented outward,
// no self-intersection).

#include <catch2/catch.hpp>

#include "design/design.hpp"
#include "mesh/mesh.hpp"
#include "mesh/outside_check.hpp"

using namespace fitwright;

TEST_CASE("designs: the mesh of every coupon is sound in the eyes of other programs") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Mesh mesh = mesh_of(make_coupon(info.name).value().solid);
    CHECK(fitwright_test::admesh(mesh).clean());
    CHECK(fitwright_test::cgal(mesh).clean());
  }
}
