// The bores: sizes, facets, room for jaws, mass.

#include <catch2/catch.hpp>
#include <numbers>

#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

TEST_CASE("bores: the sizes and kinds that the study asks for") {
  const Coupon bores = made("bores");
  std::vector<double> holes, pins, pegs;
  for (const Feature& f : bores.features) {
    CHECK(f.axis == Axis::z);
    CHECK(f.facets == 320);
    (f.kind == Kind::peg ? pegs : f.kind == Kind::pin ? pins : holes).push_back(f.nominal_mm);
  }
  CHECK(holes == std::vector<double>{20, 16, 12, 10, 8, 6, 5, 4});
  CHECK(pins == std::vector<double>{3, 2});
  CHECK(pegs == std::vector<double>{20, 12, 8, 5, 3});
  CHECK(bores.grams <= 15);
  CHECK(bores.grams == Approx(bores.volume_mm3 * 1.24e-3));
}

TEST_CASE("bores: by default a flat lies less than a micrometre inside its circle") {
  for (const Feature& f : made("bores").features)
    CHECK(f.nominal_mm * (1 - std::cos(std::numbers::pi / f.facets)) < 1e-3);
}

TEST_CASE("bores: circles on the mesh have the diameter and the facets that the features carry") {
  for (const int facets : {8, 64, 320}) {
    const Coupon bores = made("bores", {{"facets", std::to_string(facets)}});
    const Mesh mesh = mesh_of(bores.solid);
    for (const JawPlace& p : bores.places) {
      INFO(p.feature_id << " facets " << facets);
      const Feature& f = feature(bores, p.feature_id);
      const double cx = (p.ax + p.bx) / 2, cy = (p.ay + p.by) / 2, r = f.nominal_mm / 2;
      CHECK(f.facets == facets);
      for (const auto& d : {std::array<double, 3>{1, 0, 0}, std::array<double, 3>{0, 1, 0}}) {
        const std::optional<double> width = width_mm(mesh, {cx, cy, p.z_mm}, d);
        REQUIRE(width);
        CHECK(*width == Approx(f.nominal_mm).margin(1e-3));
      }
      // All corners but those at the notch lie on the circle of the nominal: count them there.
      int corners = 0;
      for (const Ring& ring : region_at(bores.solid, p.z_mm))
        for (const Point& q : ring)
          if (std::abs(std::hypot(mm(q.x) - cx, mm(q.y) - cy) - r) < 2e-5) ++corners;
      CHECK(corners <= facets + 2);
      CHECK(corners >= facets - std::max(2, facets / 8));
    }
  }
}

TEST_CASE("bores: jaws reach 4 mm into the holes, and have 10 mm around the pegs, which stand 6 mm high") {
  for (const char* layer : {"0.12", "0.2", "0.28"}) {
    const Coupon bores = made("bores", {{"layer_height_mm", layer}, {"facets", "64"}});
    const double floor_mm = bores.values.at("first_layer_height_mm") + bores.values.at("layer_height_mm");
    double ring_top = 0;
    for (const Slab& slab : bores.solid.slabs)
      if (slab.region.size() > 5) ring_top = mm(slab.top);  // more than the five pegs: rings are still there
    for (const JawPlace& p : bores.places) {
      INFO(p.feature_id);
      const Feature& f = feature(bores, p.feature_id);
      const double cx = (p.ax + p.bx) / 2, cy = p.ay, r = f.nominal_mm / 2;
      if (f.kind == Kind::peg) {
        CHECK(bores.size_z_mm - floor_mm >= 6 - 1e-9);
        const Region around = subtract({rectangle(cx - r - 10, cy - r - 10, cx + r + 10, cy + r + 10)},
                                       {rectangle(cx - r - 1e-4, cy - r - 1e-4, cx + r + 1e-4, cy + r + 1e-4)});
        for (const Slab& slab : bores.solid.slabs)
          if (mm(slab.bottom) > floor_mm - 1e-9) CHECK(area_mm2(intersect(slab.region, around)) < 1e-6);
      } else {
        const Region in{polygon(cx, cy, f.nominal_mm - 1e-4, 64)};
        for (const Slab& slab : bores.solid.slabs) CHECK(area_mm2(intersect(slab.region, in)) < 1e-6);
        // The full bore, not the widened one, over at least 4 mm.
        double full = 0;
        for (const Slab& slab : bores.solid.slabs)
          if (!intersect(slab.region, {polygon(cx, cy, f.nominal_mm + 0.02, 64)}).empty())
            full += mm(slab.top - slab.bottom);
        CHECK(full >= 4);
        CHECK(ring_top >= full);
      }
    }
  }
}

TEST_CASE("bores: facets must be a multiple of four, and in range") {
  for (const auto& [facets, code] : std::vector<std::pair<std::string, Code>>{{"30", Code::bad_input},
                                                                              {"-8", Code::bad_input},
                                                                              {"0", Code::bad_input},
                                                                              {"16.5", Code::bad_input},
                                                                              {"many", Code::usage}}) {
    const Result<Coupon> bores = make_coupon("bores", {{"facets", facets}});
    REQUIRE_FALSE(bores);
    REQUIRE(bores.problems().size() == 1);
    CHECK(bores.problems()[0].code == code);
    CHECK(bores.problems()[0].what.find("facets") != std::string::npos);
    CHECK_FALSE(bores.problems()[0].remedy.empty());
  }
}
