// Laws that every design keeps, at its defaults and at other parameters: measured on the mesh as a caliper would.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <optional>
#include <set>

#include "design/compliance.hpp"
#include "design/drafting.hpp"
#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

namespace {

constexpr double micrometre = 1e-3;
constexpr double jaw_mm = 3;         // width of an outside jaw (common practice, no source)
constexpr double label_free_mm = 2;  // between labels and jaws

struct Direction {
  double length_mm, x, y, z;
};

/// From the first face to the second. Heights have both at the same spot of the plan.
Direction direction(const JawPlace& p, double nominal_mm) {
  const double dx = p.bx - p.ax, dy = p.by - p.ay, length = std::hypot(dx, dy);
  if (length < 1e-9) return {nominal_mm, 0, 0, 1};
  return {length, dx / length, dy / length, 0};
}

bool has_face(const Mesh& mesh, const std::array<double, 3>& at, const Direction& d) {
  const std::vector<double> found = crossings_mm(mesh, at, {d.x, d.y, d.z});
  return std::any_of(found.begin(), found.end(), [](double t) { return std::abs(t) <= micrometre; });
}

Region box(double x0, double y0, double x1, double y1) {
  return {rectangle(std::min(x0, x1), std::min(y0, y1), std::max(x0, x1), std::max(y0, y1))};
}

bool is_flat_pair(const Feature& f) { return f.axis != Axis::z && f.axis != Axis::xy; }

/// What the mesh's grid may change of a volume: every face moves by at most half a step of a 32-bit float at 100 mm.
double rounding_mm3(const Solid& solid) {
  constexpr double half_step_mm = 3.9e-6;
  double surface_mm2 = 0;
  for (const Slab& slab : solid.slabs) {
    surface_mm2 += 2 * area_mm2(slab.region);
    for (const Ring& ring : slab.region)
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        surface_mm2 += std::hypot(mm(b.x - a.x), mm(b.y - a.y)) * mm(slab.top - slab.bottom);
      }
  }
  return half_step_mm * surface_mm2;
}

void check_sound(const Coupon& coupon, const Mesh& mesh) {
  CHECK(is_closed_and_oriented(mesh));
  CHECK(degenerate_triangles(mesh) == 0);
  CHECK(volume_mm3(mesh) == Approx(coupon.volume_mm3).margin(rounding_mm3(coupon.solid)));
  const Box b = bounds(mesh);
  CHECK(b.low[0] == Approx(0).margin(micrometre));
  CHECK(b.low[1] == Approx(0).margin(micrometre));
  CHECK(b.low[2] == 0);
  CHECK(b.high[0] == Approx(coupon.size_x_mm));
  CHECK(b.high[1] == Approx(coupon.size_y_mm));
  CHECK(b.high[2] == Approx(coupon.size_z_mm));
}

/// Both faces are there, at the nominal's distance.
void check_nominal(const Coupon& coupon, const Mesh& mesh, const JawPlace& p) {
  const Feature& f = feature(coupon, p.feature_id);
  const Direction d = direction(p, f.nominal_mm);
  const std::array<double, 3> a{p.ax, p.ay, d.z > 0 ? 0 : p.z_mm};
  const std::array<double, 3> b{a[0] + d.x * d.length_mm, a[1] + d.y * d.length_mm, a[2] + d.z * d.length_mm};
  if (f.kind == Kind::pitch)  // what is read there, less the bead
    CHECK(std::abs(d.length_mm - coupon.values.at("bead_width_mm") - f.nominal_mm) <= micrometre);
  else
    CHECK(std::abs(d.length_mm - f.nominal_mm) <= micrometre);
  CHECK(has_face(mesh, a, d));
  CHECK(has_face(mesh, b, d));
}

/// Flat over the jaw, deep enough, and free on the way down.
void check_reach(const Coupon& coupon, const Mesh& mesh, const JawPlace& p) {
  const Feature& f = feature(coupon, p.feature_id);
  const Direction d = direction(p, f.nominal_mm);
  // Feet are read over the first layers, where the lip is; all others over 3 mm of height.
  const double half_height = f.kind == Kind::foot ? 0.05 : 1.5;
  for (const double across : {-jaw_mm / 2, jaw_mm / 2})
    for (const double up : {-half_height, half_height}) {
      const std::array<double, 3> a{p.ax - d.y * across, p.ay + d.x * across, p.z_mm + up};
      const std::array<double, 3> b{a[0] + d.x * d.length_mm, a[1] + d.y * d.length_mm, a[2]};
      CHECK(has_face(mesh, a, d));
      CHECK(has_face(mesh, b, d));
    }
  if (f.kind == Kind::inner) {
    // Stepped inside jaws need 10 mm; pockets for a part are read with the crossed tips, which touch along a line.
    CHECK(f.nominal_mm >= (coupon.design == "pockets" ? 5.5 - 0.1 : 10));
    for (const double z : {coupon.size_z_mm - 0.01, coupon.size_z_mm - 3.99}) {
      CHECK(has_face(mesh, {p.ax, p.ay, z}, d));
      CHECK(has_face(mesh, {p.bx, p.by, z}, d));
    }
  }
  // Room for the jaws from the top down to where they touch: 3 mm thick outside jaws, thin inside ones.
  const double room = p.inside ? 2.0 : 3.0, sign = p.inside ? 1 : -1, gap = 0.01;
  for (const bool first : {true, false}) {
    const double s = first ? sign : -sign, x = first ? p.ax : p.bx, y = first ? p.ay : p.by;
    const Region way = box(x + s * d.x * gap - d.y * jaw_mm / 2, y + s * d.y * gap - d.x * jaw_mm / 2,
                           x + s * d.x * room + d.y * jaw_mm / 2, y + s * d.y * room + d.x * jaw_mm / 2);
    for (const Slab& slab : coupon.solid.slabs)
      if (mm(slab.top) > p.z_mm - half_height + 1e-6) CHECK(intersect(slab.region, way).empty());
  }
}

/// Jaws seat on flat ground of 3 x 3 mm above and below.
void check_height(const Mesh& mesh, const JawPlace& p, double nominal_mm) {
  for (const double dx : {-jaw_mm / 2, jaw_mm / 2})
    for (const double dy : {-jaw_mm / 2, jaw_mm / 2}) {
      const std::optional<double> height = width_mm(mesh, {p.ax + dx, p.ay + dy, nominal_mm / 2}, {0, 0, 1});
      REQUIRE(height);
      CHECK(*height == Approx(nominal_mm).margin(micrometre));
    }
}

}  // namespace

TEST_CASE("designs: meshes are sound, and every feature lies on them where its jaws go, at its nominal") {
  for (const Case& c : cases()) {
    const Coupon coupon = made(c.design, c.overrides);
    const Mesh mesh = mesh_of(coupon.solid);
    INFO(c.text());
    check_sound(coupon, mesh);
    for (const JawPlace& p : coupon.places) {
      INFO(p.feature_id);
      const Feature& f = feature(coupon, p.feature_id);
      check_nominal(coupon, mesh, p);
      if (f.axis == Axis::z && f.kind == Kind::outer) check_height(mesh, p, f.nominal_mm);
      if (is_flat_pair(f)) check_reach(coupon, mesh, p);
    }
  }
}

TEST_CASE("designs: equal parameters give equal bytes") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Coupon a = made(info.name), b = made(info.name);
    CHECK(to_stl(mesh_of(a.solid)) == to_stl(mesh_of(b.solid)));
    CHECK(features_csv(a) == features_csv(b));
    CHECK(plan_svg(a) == plan_svg(b));
  }
}

TEST_CASE("designs: every feature has a place, every name is used once, places are numbered in their order") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    std::set<std::string> ids, placed;
    for (const Feature& f : coupon.features) CHECK(ids.insert(f.id).second);
    int number = 0, changes = 0;
    for (std::size_t i = 0; i < coupon.places.size(); ++i) {
      CHECK(coupon.places[i].number == ++number);
      placed.insert(coupon.places[i].feature_id);
      if (i && coupon.places[i].inside != coupon.places[i - 1].inside) ++changes;
    }
    CHECK(placed == ids);
    CHECK(changes <= 1);
  }
}

TEST_CASE("designs: labels keep 2 mm away from where the jaws touch") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    for (const Label& label : coupon.labels) {
      const Area area = area_of(label);
      for (const JawPlace& p : coupon.places) {
        const Direction d = direction(p, feature(coupon, p.feature_id).nominal_mm);
        for (const bool first : {true, false}) {
          const double x = first ? p.ax : p.bx, y = first ? p.ay : p.by;
          const double wide_x = std::abs(d.y) * jaw_mm / 2, wide_y = std::abs(d.x) * jaw_mm / 2;
          const double dx = std::max({area.x0 - x - wide_x, x - wide_x - area.x1, 0.0});
          const double dy = std::max({area.y0 - y - wide_y, y - wide_y - area.y1, 0.0});
          INFO(label.text << " against " << p.feature_id);
          CHECK(std::hypot(dx, dy) >= label_free_mm);
        }
      }
    }
  }
}

TEST_CASE("designs: every feature is named on the part, with both axes and the front") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    std::set<std::string> words;
    for (const Label& label : coupon.labels) words.insert(label.text);
    for (const Feature& f : coupon.features) {
      INFO(f.id);
      CHECK(words.count(f.id) == 1);
    }
    CHECK(words.count("X") == 1);
    CHECK(words.count("Y") == 1);
    CHECK(words.count("FRONT") == 1);
    for (std::size_t i = 0; i < coupon.labels.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        INFO(coupon.labels[i].text << " and " << coupon.labels[j].text);
        CHECK_FALSE(area_of(coupon.labels[i]).meets(area_of(coupon.labels[j]), 0.5));
      }
  }
}

TEST_CASE("designs: no layer reaches out farther than a layer's height over the one below") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    const double h = coupon.values.at("layer_height_mm");
    for (std::size_t i = 1; i < coupon.solid.slabs.size(); ++i) {
      const Region held = grow(coupon.solid.slabs[i - 1].region, nm(h) + 2);  // 2 nm: corners are rounded to whole ones
      CHECK(area_mm2(subtract(coupon.solid.slabs[i].region, held)) == Approx(0).margin(1e-9));
    }
  }
}

TEST_CASE("designs: heights are whole layers") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    const double first = coupon.values.at("first_layer_height_mm"), h = coupon.values.at("layer_height_mm");
    for (const Slab& slab : coupon.solid.slabs) {
      const double layers = (mm(slab.top) - first) / h;
      CHECK(std::abs(layers - std::round(layers)) < 1e-4);
    }
    CHECK(coupon.size_z_mm == Approx(first + (coupon.layers - 1) * h));
  }
}

TEST_CASE("designs: no place closes by more than 0.007 mm per newton") {
  CHECK(compliance_limit_mm_per_n == 0.007);
  for (const Case& c : cases()) {
    const Coupon coupon = made(c.design, c.overrides);
    for (const JawPlace& p : coupon.places) {
      INFO(c.text() << " " << p.feature_id);
      CHECK(p.compliance_mm_per_n > 0);
      CHECK(p.compliance_mm_per_n < 0.007);
    }
  }
}

TEST_CASE("designs: both axes offer the same kinds and lengths, so that a turned copy matches") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    // What is tried is read as a pair along one axis: what the axes differ by cancels.
    if (!coupon.trials.places.empty() || !coupon.latches.empty()) continue;
    std::multiset<std::pair<int, double>> x, y;
    for (const Feature& f : coupon.features) {
      if (f.axis == Axis::x) x.emplace(static_cast<int>(f.kind), f.nominal_mm);
      if (f.axis == Axis::y) y.emplace(static_cast<int>(f.kind), f.nominal_mm);
    }
    CHECK(x == y);
  }
}
