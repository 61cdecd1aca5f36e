// The walls and the stair: what each is for.

#include <algorithm>
#include <catch2/catch.hpp>
#include <numbers>
#include <set>

#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

TEST_CASE("walls: one-bead walls at two bead widths, a two-bead wall as a check of pitch") {
  const Coupon walls = made("walls");
  std::map<double, int> beads;
  for (const Feature& f : walls.features) {
    if (f.kind == Kind::wall) {
      CHECK(f.axis == Axis::n);
      ++beads[f.nominal_mm];
    } else {
      // Not a wall in the sense of the error model: it tells nothing of flow.
      REQUIRE(f.kind == Kind::pitch);
      // Beads are stadiums: pitch = w - h (1 - pi/4); 0.40708 mm at 0.45 and 0.2.
      CHECK(f.nominal_mm == Approx(0.45 - 0.2 * (1 - std::numbers::pi / 4)).margin(1e-6));
    }
  }
  CHECK(beads == std::map<double, int>{{0.45, 4}, {0.9, 4}});
}

TEST_CASE("walls: free-standing closed loops, and a block of at least 10 g by itself") {
  for (const char* density : {"0.9", "1.24", "1.27", "4"})
    for (const char* layer : {"0.12", "0.2", "0.28"}) {
      INFO(density << " g/cm3, layers of " << layer);
      const Overrides overrides{{"density_g_cm3", density}, {"layer_height_mm", layer}, {"piece", "4"}};
      CHECK(made("walls", overrides).grams >= 10);
      CHECK(made("walls", overrides).grams < 11.5);
    }
  const Coupon walls = made("walls");
  const Region bed = region_at(walls.solid, 0.1);
  CHECK(std::count_if(bed.begin(), bed.end(), [](const Ring& r) { return area_mm2({r}) > 0; }) == 4);
  // Above the floors: per loop an outer and an inner outline, and the block.
  const Region high = region_at(walls.solid, 5);
  CHECK(high.size() == 7);
  CHECK(std::count_if(high.begin(), high.end(), [](const Ring& r) { return area_mm2({r}) < 0; }) == 3);
}

TEST_CASE("walls: each piece can be made by itself, and together they are the whole") {
  double volume = 0;
  std::set<std::string> ids;
  for (const char* piece : {"1", "2", "3", "4"}) {
    const Coupon one = made("walls", {{"piece", piece}});
    volume += one.volume_mm3;
    for (const Feature& f : one.features) CHECK(ids.insert(f.id).second);
    CHECK(one.size_x_mm < 40);
  }
  const Coupon all = made("walls");
  CHECK(volume == Approx(all.volume_mm3).epsilon(1e-3));  // letters are flattened at other places
  CHECK(ids.size() == all.features.size());
}

TEST_CASE("walls: two bead widths that are the same are refused, and what is proposed works") {
  const Result<Coupon> same = make_coupon("walls", {{"wide_bead_width_mm", "0.5"}});
  REQUIRE_FALSE(same);
  CHECK(same.problems().front().code == Code::bad_input);
  CHECK(same.problems().front().remedy.find("wide_bead_width_mm to 0.9") != std::string::npos);
  CHECK(make_coupon("walls", {{"bead_width_mm", "1.2"}, {"wide_bead_width_mm", "1.6"}}).ok());
}

TEST_CASE("stair: heights of whole layers near 5, 10, 20 and 40 mm, and the flare beside the width above it") {
  for (const char* layer : {"0.1", "0.15", "0.2", "0.28"})
    for (const char* first : {"0.2", "0.3"}) {
      INFO("layers of " << layer << ", first " << first);
      const Coupon stair = made("stair", {{"layer_height_mm", layer}, {"first_layer_height_mm", first}});
      const double h = stair.values.at("layer_height_mm"), h1 = stair.values.at("first_layer_height_mm");
      for (const double about : {5., 10., 20., 40.}) {
        const Feature& f = feature(stair, "Z" + std::to_string(std::lround(about)));
        CHECK(f.kind == Kind::outer);
        CHECK(f.axis == Axis::z);
        CHECK(std::abs(f.nominal_mm - about) <= h / 2 + 1e-9);
        const double layers = (f.nominal_mm - h1) / h;
        CHECK(layers == Approx(std::round(layers)).margin(1e-6));
      }
      for (const std::string axis : {"X", "Y"}) {
        const Feature &above = feature(stair, axis + "38"), &foot = feature(stair, "F" + axis + "38");
        CHECK(foot.kind == Kind::foot);
        CHECK(above.kind == Kind::outer);
        CHECK(foot.nominal_mm == above.nominal_mm);
        // The foot is drawn straight down to the bed; the width above it stands clear of the bed by the relief.
        const JawPlace &low = place(stair, foot.id), &high = place(stair, above.id);
        CHECK(low.z_mm < 0.5);
        CHECK(high.z_mm - 1.5 > 0.5);
        const auto at_bed = [&](const JawPlace& p) {
          const double x = p.ax + (p.ay == p.by ? 0.3 : 0), y = p.ay + (p.ay == p.by ? 0 : 0.3);
          return !intersect(region_at(stair.solid, 0.05), {rectangle(x - 0.1, y - 0.1, x + 0.1, y + 0.1)}).empty();
        };
        CHECK(at_bed(low));
        CHECK_FALSE(at_bed(high));
      }
    }
}

TEST_CASE("stair: jaws reach the bottom face through upright notches") {
  const Coupon stair = made("stair");
  for (const Feature& f : stair.features) {
    if (f.axis != Axis::z) continue;
    INFO(f.id);
    const JawPlace& p = place(stair, f.id);
    // From the nearest side to 1 mm before the jaws' middle there is a way at most 2 mm into the plinth that is free
    // from the bed to the top.
    const double to[4] = {p.ax, stair.size_x_mm - p.ax, p.ay, stair.size_y_mm - p.ay};
    const auto side = std::min_element(to, to + 4) - to;
    const Region way =
        side == 0   ? Region{rectangle(0.01, p.ay - 1.5, 1.99, p.ay + 1.5)}
        : side == 1 ? Region{rectangle(stair.size_x_mm - 1.99, p.ay - 1.5, stair.size_x_mm - 0.01, p.ay + 1.5)}
        : side == 2 ? Region{rectangle(p.ax - 1.5, 0.01, p.ax + 1.5, 1.99)}
                    : Region{rectangle(p.ax - 1.5, stair.size_y_mm - 1.99, p.ax + 1.5, stair.size_y_mm - 0.01)};
    for (const Slab& slab : stair.solid.slabs) CHECK(intersect(slab.region, way).empty());
  }
}
