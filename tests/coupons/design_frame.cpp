// The frame: lengths, chains, what it weighs.

#include <algorithm>
#include <catch2/catch.hpp>
#include <numbers>
#include <set>

#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

namespace {

std::multiset<double> lengths(const Coupon& coupon, Kind kind, Axis axis) {
  std::multiset<double> all;
  for (const Feature& f : coupon.features)
    if (f.kind == kind && f.axis == axis) all.insert(f.nominal_mm);
  return all;
}

}  // namespace

TEST_CASE("frame: by default the lengths of the study, at most 15 g") {
  const Coupon frame = made("frame");
  for (const Axis axis : {Axis::x, Axis::y}) {
    CHECK(lengths(frame, Kind::outer, axis) == std::multiset<double>{10, 10, 40, 100, 100});
    CHECK(lengths(frame, Kind::inner, axis) == std::multiset<double>{10, 20, 40});
  }
  CHECK(frame.size_x_mm == 100);
  CHECK(frame.size_y_mm == 100);
  CHECK(frame.size_z_mm == Approx(4.8));
  CHECK(frame.layers == 24);
  CHECK(frame.grams <= 15);
  CHECK(frame.features.size() == 18);
}

TEST_CASE("frame: the outside is read 5 to 9 mm from the corners") {
  for (const char* side : {"60", "100", "108"}) {
    const Coupon frame = made("frame", {{"side_mm", side}});
    const double b = frame.values.at("side_mm");
    for (const JawPlace& p : frame.places) {
      const Feature& f = feature(frame, p.feature_id);
      if (f.kind != Kind::outer || f.nominal_mm != b) continue;
      const double line = f.axis == Axis::x ? p.ay : p.ax, from_corner = std::min(line, b - line);
      CHECK(from_corner - 1.5 >= 5);
      CHECK(from_corner + 1.5 <= 9);
    }
  }
}

TEST_CASE("frame: chains close, by length and by the names of the faces") {
  for (const char* side : {"78", "80", "100", "108"}) {
    INFO(side);
    const Coupon frame = made("frame", {{"side_mm", side}});
    for (const std::string axis : {"X", "Y"}) {
      const Feature &a = feature(frame, axis + "10a"), &b = feature(frame, axis + "10b"),
                    &all = feature(frame, axis + "40");
      const auto slot = std::find_if(frame.features.begin(), frame.features.end(), [&](const Feature& f) {
        return f.kind == Kind::inner && f.edge_a == a.edge_b && f.edge_b == b.edge_a;
      });
      REQUIRE(slot != frame.features.end());
      CHECK(a.nominal_mm + slot->nominal_mm + b.nominal_mm == Approx(all.nominal_mm));
      CHECK(all.edge_a == a.edge_a);
      CHECK(all.edge_b == b.edge_b);
    }
  }
}

TEST_CASE("frame: faces named alike are the same face, others are not") {
  const Coupon frame = made("frame");
  std::map<std::string, std::set<std::pair<long, long>>> where;  // micrometres along and across the axis
  for (const JawPlace& p : frame.places) {
    const Feature& f = feature(frame, p.feature_id);
    if (f.axis == Axis::xy) continue;
    CHECK_FALSE(f.edge_a.empty());
    CHECK_FALSE(f.edge_b.empty());
    const bool x = f.axis == Axis::x;
    where[f.edge_a].emplace(std::lround(1e3 * (x ? p.ax : p.ay)), std::lround(1e3 * (x ? p.ay : p.ax)));
    where[f.edge_b].emplace(std::lround(1e3 * (x ? p.bx : p.by)), std::lround(1e3 * (x ? p.by : p.bx)));
  }
  CHECK(where.size() == 20);  // per axis six inner faces, and the outer ones at two places each
  for (const auto& [edge, spots] : where) {
    INFO(edge);
    CHECK(spots.size() == 1);
  }
}

TEST_CASE("frame: the diagonals are those of the square, over flats of 5 to 6 mm") {
  for (const char* side : {"60", "100", "108"}) {
    const Coupon frame = made("frame", {{"side_mm", side}});
    const double b = frame.values.at("side_mm");
    const Feature &plus = feature(frame, "D1"), &minus = feature(frame, "D2");
    CHECK(plus.kind == Kind::flats_plus);
    CHECK(minus.kind == Kind::flats_minus);
    for (const Feature* f : {&plus, &minus}) {
      CHECK(f->side_a_mm == b);
      CHECK(f->side_b_mm == b);
      const double flat = std::numbers::sqrt2 * b - f->nominal_mm;  // as wide as what it cuts from both corners
      CHECK(flat >= 5);
      CHECK(flat <= 6);
      CHECK(f->nominal_mm < 150);
    }
    // + runs from low x, low y to high x, high y.
    const JawPlace &p = place(frame, "D1"), &m = place(frame, "D2");
    CHECK(p.bx > p.ax);
    CHECK(p.by > p.ay);
    CHECK(m.bx < m.ax);
    CHECK(m.by > m.ay);
  }
}

TEST_CASE("frame: at every side there are outsides and slots of two lengths per axis") {
  for (int tenths = 600; tenths <= 3000; tenths += 47) {
    const std::string typed = std::to_string(tenths / 10) + '.' + std::to_string(tenths % 10);
    INFO(typed);
    const Coupon frame =
        made("frame", {{"side_mm", typed}, {"caliper_range_mm", "600"}, {"bed_x_mm", "400"}, {"bed_y_mm", "400"}});
    for (const Axis axis : {Axis::x, Axis::y}) {
      const std::multiset<double> slots = lengths(frame, Kind::inner, axis), outers = lengths(frame, Kind::outer, axis);
      CHECK(*slots.begin() == 10);
      CHECK(*slots.rbegin() >= 20);
      CHECK(outers.count(10) >= 1);
      CHECK(outers.count(frame.values.at("side_mm")) == 2);
    }
    for (const JawPlace& p : frame.places) CHECK(p.compliance_mm_per_n < 0.007);
  }
}

TEST_CASE("frame: the web is closed and of two layers at 0.2 mm; the engraved letters leave one") {
  const Coupon frame = made("frame");
  const Region inside{rectangle(4, 4, 96, 96)};
  CHECK(subtract(inside, region_at(frame.solid, 0.1)).empty());
  const double cut = area_mm2(subtract(inside, region_at(frame.solid, 0.3)));
  CHECK(cut > 50);
  CHECK(cut < 0.1 * 92 * 92);
  // Nothing is cut within 2 mm of a jaw.
  for (const JawPlace& p : frame.places)
    for (const auto& [x, y] : {std::pair{p.ax, p.ay}, std::pair{p.bx, p.by}}) {
      const Region near = intersect(inside, {rectangle(x - 2, y - 2, x + 2, y + 2)});
      CHECK(subtract(near, region_at(frame.solid, 0.3)).empty());
    }
}

TEST_CASE("frame: at most 15 g at every usual layer height, still stiff, its faces still deep enough for the jaws") {
  for (int hundredths = 8; hundredths <= 32; hundredths += 2)
    for (const bool first_alike : {false, true})
      for (const char* bead : {"0.3", "0.8"}) {
        const std::string layer =
            hundredths < 10 ? "0.0" + std::to_string(hundredths) : "0." + std::to_string(hundredths);
        INFO("layer " << layer << ", first " << (first_alike ? layer : "0.2") << ", bead " << bead);
        const Coupon frame = made("frame", {{"layer_height_mm", layer},
                                            {"first_layer_height_mm", first_alike ? layer : "0.2"},
                                            {"bead_width_mm", bead}});
        CHECK(frame.grams <= 15);
        for (const JawPlace& p : frame.places) CHECK(p.compliance_mm_per_n <= 0.007);
        // Beside the faces of a slot the floor is web alone, and they stand 4 mm or more above it.
        for (const JawPlace& p : frame.places) {
          if (!p.inside || p.ay != p.by) continue;
          for (const double x : {std::min(p.ax, p.bx) + 0.4, std::max(p.ax, p.bx) - 0.6}) {
            double web = 0;
            for (const Slab& slab : frame.solid.slabs)
              if (!intersect(slab.region, {rectangle(x, p.ay, x + 0.2, p.ay + 0.2)}).empty()) web = mm(slab.top);
            CHECK(web >= 0.2 - 1e-9);
            CHECK(frame.size_z_mm - web >= 4 - 1e-9);
          }
        }
      }
}

TEST_CASE("frame: the weight that decides is of the part, not of the material") {
  const Coupon usual = made("frame"), heavy = made("frame", {{"density_g_cm3", "8"}});
  CHECK(heavy.volume_mm3 == usual.volume_mm3);
  CHECK(usual.size_z_mm == Approx(4.8));  // as it always was at 0.2 mm
}
