// A coupon's scene: faces, lines, features and jaws, against the solid it is made from and against geometry.

#include "bench/coupon_scene.hpp"

#include <catch2/catch.hpp>
#include <numbers>
#include <set>

#include "bench/coupon_jaws.hpp"
#include "bench/coupon_marks.hpp"
#include "design/design.hpp"

using namespace fitwright;

namespace {

const CouponScene& scene_of(const std::string& design) {
  static std::map<std::string, CouponScene> made;
  const auto found = made.find(design);
  if (found != made.end()) return found->second;
  return made[design] = coupon_scene(std::make_shared<const Coupon>(make_coupon(design).value()));
}

/// A scene of one upright piece.
CouponScene piece(const Region& region, double height_mm) {
  auto coupon = std::make_shared<Coupon>();
  coupon->design = "piece";
  coupon->solid = {"piece", {{0, nm(height_mm), region}}};
  return coupon_scene(coupon);
}

template <class Triangles>
double volume(const Triangles& triangles) {
  double sum = 0;
  for (const auto& t : triangles) sum += dot(t.at[0], cross(t.at[1], t.at[2])) / 6;
  return sum;
}

double area(const CouponScene& scene, const SceneFeature& f) {
  double sum = 0;
  for (const std::uint32_t i : f.triangles) {
    const auto& at = scene.triangles[i].at;
    sum += length(cross(at[1] - at[0], at[2] - at[0])) / 2;
  }
  return sum;
}

/// A part without its outermost `skin_mm`.
class Core {
 public:
  Core(const Coupon& coupon, double skin_mm) : skin_mm_(skin_mm) {
    for (const Slab& slab : coupon.solid.slabs)
      slabs_.push_back({slab.bottom, slab.top, grow(slab.region, -nm(skin_mm))});
  }
  [[nodiscard]] bool holds(const Vec3& p) const {
    for (const Slab& slab : slabs_) {
      if (p.z < mm(slab.bottom) + skin_mm_ || p.z > mm(slab.top) - skin_mm_) continue;
      bool inside = false;
      for (const Ring& ring : slab.region)
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
          const double xi = mm(ring[i].x), yi = mm(ring[i].y), xj = mm(ring[j].x), yj = mm(ring[j].y);
          if ((yi > p.y) != (yj > p.y) && p.x < xi + (xj - xi) * (p.y - yi) / (yj - yi)) inside = !inside;
        }
      if (inside) return true;
    }
    return false;
  }

 private:
  std::vector<Slab> slabs_;
  double skin_mm_;
};

bool near(const Vec3& a, const Vec3& b, double mm = 1e-6) { return length(a - b) < mm; }

}  // namespace

TEST_CASE("a scene has the faces and feature lines of its solid", "[coupon_scene]") {
  const CouponScene block = piece({rectangle(0, 0, 10, 20)}, 5);
  CHECK(block.triangles.size() == 12);
  CHECK(block.edges.size() == 12);
  std::set<int> faces;
  for (const SceneTriangle& t : block.triangles) faces.insert(t.face);
  CHECK(faces.size() == 6);

  // Sides of a circle are smooth and get no line; those of an octagon do.
  CHECK(piece({polygon(0, 0, 10, 96)}, 5).edges.size() == 2 * 96);
  CHECK(piece({polygon(0, 0, 10, 8)}, 5).edges.size() == 3 * 8);
}

TEST_CASE("the scene of every design encloses the design's volume", "[coupon_scene]") {
  for (const DesignInfo& info : designs()) {
    const CouponScene& scene = scene_of(info.name);
    INFO(info.name);
    CHECK(volume(scene.triangles) == Approx(scene.coupon->volume_mm3).epsilon(1e-6));
    CHECK(scene.features.size() == scene.coupon->places.size());
    CHECK(std::any_of(scene.triangles.begin(), scene.triangles.end(),
                      [](const SceneTriangle& t) { return t.engraved && t.normal.z > 0.5; }));
    for (const SceneTriangle& t : scene.triangles) REQUIRE(length(t.normal) == Approx(1));
  }
}

TEST_CASE("every feature has the faces its jaws touch", "[coupon_scene]") {
  for (const DesignInfo& info : designs()) {
    const CouponScene& scene = scene_of(info.name);
    for (const SceneFeature& f : scene.features) {
      INFO(info.name << " " << f.feature.id);
      REQUIRE(!f.triangles.empty());
      CHECK(!f.outline.empty());
      CHECK(length(f.along) == Approx(1));
      CHECK(dot(f.along, f.reach) == Approx(0).margin(1e-12));
      if (f.is_round()) continue;  // below
      const double out = f.gauge == Gauge::inside_jaws ? -1 : 1;
      for (const auto& [p, normal] : {std::pair{f.a, -out * f.along}, std::pair{f.b, out * f.along}}) {
        const bool touched = std::any_of(f.triangles.begin(), f.triangles.end(), [&](std::uint32_t i) {
          const SceneTriangle& t = scene.triangles[i];
          return dot(t.normal, normal) > 0.999 && std::abs(dot(p - t.at[0], t.normal)) < 1e-4;
        });
        CHECK(touched);
      }
    }
  }
  // An outside of the frame: the square's side less two cut corners (4 mm each), as high as the part above the relief's
  // steps and down to its foot.
  const CouponScene& frame = scene_of("frame");
  const SceneFeature& outside = frame.features[static_cast<std::size_t>(frame.find("X100a"))];
  const double height = frame.size.z;
  CHECK(area(frame, outside) < 2 * (100 - 8) * height);
  CHECK(area(frame, outside) > 2 * (100 - 8) * (height - 0.9));
  // Peg and bore of 20 mm: circle times height, less the notch for the seam.
  const CouponScene& bores = scene_of("bores");
  for (const auto& [id, tall] : {std::pair{"P20", 6.0}, std::pair{"H20", 4.2}}) {
    const SceneFeature& round = bores.features[static_cast<std::size_t>(bores.find(id))];
    const double whole = std::numbers::pi * 20 * tall;
    CHECK(area(bores, round) < 1.05 * whole);
    CHECK(area(bores, round) > 0.95 * whole);
  }
}

TEST_CASE("jaws touch their faces and are nowhere inside the part", "[coupon_scene]") {
  constexpr double skin_mm = 0.15;  // a narrow blade on a bore, a polygon's sides
  for (const DesignInfo& info : designs()) {
    const CouponScene& scene = scene_of(info.name);
    const Core core(*scene.coupon, skin_mm);
    for (const SceneFeature& f : scene.features)
      for (const bool second : {false, true}) {
        INFO(info.name << " " << f.feature.id << (second ? ", second" : ""));
        const JawSolid jaws = jaws_at(f, second);
        CHECK(volume(jaws.triangles) > 0.5);
        const double nominal = length(f.b - f.a);
        const Vec3 along = second && f.is_round() ? Vec3{-f.along.y, f.along.x, 0} : f.along;
        const Vec3 middle = 0.5 * (f.a + f.b);
        double touch = 1e9;
        for (const Line3& edge : jaws.edges)
          for (const Vec3& corner : {edge.a, 0.5 * (edge.a + edge.b)}) {
            const double from_middle = std::abs(dot(corner - middle, along));
            touch = std::min(touch, std::abs(from_middle - nominal / 2));
            if (f.gauge == Gauge::outside_jaws) CHECK(from_middle > nominal / 2 - 1e-9);
            if (f.gauge != Gauge::outside_jaws) CHECK(from_middle < nominal / 2 + 1e-9);
            CHECK(!core.holds(corner));
            CHECK((f.reach.z == 0 || corner.z > -1e-9));  // heights are read in the hand, all else could lie on the bed
          }
        CHECK(touch < 0.01);
      }
  }
}

TEST_CASE("a turned copy lies in the middle of the bed, its engraved X along the machine's Y", "[coupon_scene]") {
  const Vec3 size{30, 20, 5};
  for (const int turned : {0, 90, 180, 270}) {
    const Pose pose{220, 180, turned, size};
    CHECK(near(pose.to_bed({15, 10, 0}), {110, 90, 0}));
    for (const Vec3& p : {Vec3{0, 0, 0}, Vec3{3, 17, 4}}) CHECK(near(pose.to_part(pose.to_bed(p)), p));
    const Pose hand{0, 0, turned, size};
    const Vec3 a = hand.to_bed({0, 0, 0}), b = hand.to_bed(size);
    CHECK(std::min(a.x, b.x) == Approx(0).margin(1e-12));
    CHECK(std::min(a.y, b.y) == Approx(0).margin(1e-12));
    const Matrix4 m = pose.matrix();
    const Vec3 p{3, 17, 4}, q = pose.to_bed(p);
    CHECK(m[0] * p.x + m[4] * p.y + m[8] * p.z + m[12] == Approx(q.x));
    CHECK(m[1] * p.x + m[5] * p.y + m[9] * p.z + m[13] == Approx(q.y));
  }
  CHECK(near(Pose{0, 0, 90, size}.turn_to_bed({1, 0, 0}), {0, 1, 0}));
  CHECK(near(Pose{0, 0, 270, size}.turn_to_bed({1, 0, 0}), {0, -1, 0}));
}

TEST_CASE("a feature is picked by its name, by its face, and from above by its place", "[coupon_scene]") {
  for (const DesignInfo& info : designs()) {
    const CouponScene& scene = scene_of(info.name);
    CHECK(scene.names.size() >= scene.features.size());
    for (const SceneName& n : scene.names) {
      INFO(info.name << ", name of " << scene.features[static_cast<std::size_t>(n.feature)].feature.id);
      CHECK(pick(scene, {{(n.x0 + n.x1) / 2, (n.y0 + n.y1) / 2, 200}, {0, 0, -1}}) == n.feature);
    }
    for (const SceneFeature& f : scene.features) {
      INFO(info.name << " " << f.feature.id);
      const double out = f.gauge == Gauge::outside_jaws ? -1 : 1;
      const Vec3 away = out * f.along;
      // From just before the face: features that share it are all right, if no longer than this one.
      constexpr double before_mm = 0.2;
      const int seen = pick(scene, {f.a + before_mm * away, -1 * away});
      REQUIRE(seen >= 0);
      const SceneFeature& s = scene.features[static_cast<std::size_t>(seen)];
      CHECK(s.feature.nominal_mm <= f.feature.nominal_mm + 1e-9);
      CHECK(std::min(length(s.a - f.a), length(s.b - f.a)) < 3);
    }
  }
  const auto above = [](const std::string& design, const std::string& id) {
    const CouponScene& scene = scene_of(design);
    const SceneFeature& f = scene.features[static_cast<std::size_t>(scene.find(id))];
    const Vec3 middle = 0.5 * (f.a + f.b);
    const int seen = pick(scene, {{middle.x, middle.y, 200}, {0, 0, -1}});
    return seen < 0 ? std::string() : scene.features[static_cast<std::size_t>(seen)].feature.id;
  };
  for (const char* id : {"X10a", "X10b", "SX10", "SX20", "Y10a", "SY20"}) CHECK(above("frame", id) == id);
  for (const char* id : {"P20", "P3"}) CHECK(above("bores", id) == id);
  for (const char* id : {"W45a", "W45d", "W90c", "PX45"}) CHECK(above("walls", id) == id);
  for (const char* id : {"Z40", "Z20", "Z10"}) CHECK(above("stair", id) == id);
  CHECK(pick(scene_of("frame"), {{-50, -50, 200}, {0, 0, -1}}) == -1);
}

TEST_CASE("a feature turns to the viewer, however its copy lies", "[coupon_scene]") {
  const Viewport view{640, 480};
  for (const DesignInfo& info : designs()) {
    const CouponScene& scene = scene_of(info.name);
    for (const SceneFeature& f : scene.features) {
      INFO(info.name << " " << f.feature.id);
      const Pose flat{0, 0, 0, scene.size}, turned{220, 220, 90, scene.size};
      const Camera a = camera_for(f, flat, view), b = camera_for(f, turned, view);
      for (const Vec3& p : {f.a, f.b, f.a + f.above_mm * f.reach, f.b + (f.above_mm + 10) * f.reach}) {
        const Projected seen = project(a, view, flat.to_bed(p)), again = project(b, view, turned.to_bed(p));
        CHECK(seen.x > 0);
        CHECK(seen.x < view.width);
        CHECK(seen.y > 0);
        CHECK(seen.y < view.height);
        CHECK(again.x == Approx(seen.x).margin(1e-6));
        CHECK(again.y == Approx(seen.y).margin(1e-6));
      }
      // Its place fills a fair part of the picture.
      const Projected pa = project(a, view, f.a), pb = project(a, view, f.b);
      if (length(f.b - f.a) > 5) CHECK(std::hypot(pa.x - pb.x, pa.y - pb.y) > 50);
    }
  }
}

TEST_CASE("the bed has a tick at every millimetre of front and left", "[coupon_scene]") {
  CHECK(bed_lines(0, 220).empty());
  const std::vector<BedLine> lines = bed_lines(220, 180);
  std::map<MarkLine, int> count;
  for (const BedLine& l : lines) {
    ++count[l.mark];
    for (const Vec3& p : {l.line.a, l.line.b}) {
      CHECK(p.z == 0);
      if (l.mark != MarkLine::outline && l.mark != MarkLine::figure) CHECK((p.x <= 0 || p.y <= 0));  // outside
    }
  }
  CHECK(count[MarkLine::outline] == 4);
  CHECK(count[MarkLine::tick_10] == 23 + 19);
  CHECK(count[MarkLine::tick_10] + count[MarkLine::tick_5] + count[MarkLine::tick_1] == 221 + 181);
  CHECK(count[MarkLine::figure] > 0);
  CHECK(stroke_letters("XYZ", {}, {1, 0, 0}, {0, 1, 0}, 6).size() == 2 + 3 + 3);
}

TEST_CASE("axes keep their three colours; edges and jaws stand out on the part in both themes", "[coupon_scene]") {
  const Camera camera;
  const std::vector<AxisMark> marks = axis_marks(camera, 20);
  REQUIRE(marks.size() == 3);
  CHECK(marks[0].ink == Ink::x);
  CHECK(marks[1].ink == Ink::y);
  CHECK(marks[2].ink == Ink::z);
  CHECK(near(marks[1].arrow.front().b, {0, 20, 0}));
  for (const auto& [ground, text] :
       {std::pair{Rgb{255, 255, 255}, Rgb{46, 52, 54}}, {Rgb{45, 45, 45}, Rgb{238, 238, 236}}}) {
    const ViewColours c = view_colours(ground, text);
    for (const Rgb axis : {c.x, c.y, c.z}) CHECK(contrast_ratio(axis, ground) >= 4.5);  // WCAG 2.1, 1.4.3: letters
    CHECK(contrast_ratio(c.edge, c.part) >= 3);                                         // 1.4.11: marks
    CHECK(contrast_ratio(c.jaw_edge, c.jaw) >= 1.2);
    CHECK(contrast_ratio(c.tick, ground) >= 3);
    CHECK(c.glow != c.part);
  }
}

TEST_CASE("what is shown is said", "[coupon_scene]") {
  const CouponScene& scene = scene_of("frame");
  const Pose flat{0, 0, 0, scene.size}, turned{0, 0, 90, scene.size};
  CHECK(said_of(scene, flat, -1) == "The frame coupon, with 18 features.");
  CHECK(said_of(scene, turned, scene.find("SX20")) ==
        "The frame coupon, turned 90\u00b0 anticlockwise: SX20, slot, 20.00 mm (slot), with inside jaws.");
  const CouponScene& bores = scene_of("bores");
  CHECK_THAT(said_of(bores, flat, bores.find("H3")), Catch::EndsWith("with a drill shank."));
  CHECK(scene.find("no such") == -1);
}
