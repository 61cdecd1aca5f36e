// The eye: laws that hold for every eye, and two ways to the same pixel.

#include "bench/view_camera.hpp"

#include <catch2/catch.hpp>
#include <numbers>
#include <random>

using namespace fitwright;

namespace {

const Viewport view{800, 600};

Camera some_camera(std::mt19937& random) {
  std::uniform_real_distribution<double> place(-100, 100), turn(-3, 3), tilt(-1.4, 1.4), away(50, 600);
  return {{place(random), place(random), place(random)}, turn(random), tilt(random), away(random)};
}

Vec3 some_point(std::mt19937& random, const Camera& camera) {
  std::uniform_real_distribution<double> share(-0.15, 0.15);
  const double d = camera.distance_mm;
  return camera.target + Vec3{d * share(random), d * share(random), d * share(random)};
}

}  // namespace

TEST_CASE("pixel, matrix and ray agree", "[view_camera]") {
  std::mt19937 random(4711);
  for (int i = 0; i < 200; ++i) {
    const Camera camera = some_camera(random);
    const Vec3 p = some_point(random, camera);
    const Projected seen = project(camera, view, p);
    REQUIRE(seen.before_eye);
    const Matrix4 m = view_projection(camera, view);
    const auto row = [&](std::size_t r) { return m[r] * p.x + m[4 + r] * p.y + m[8 + r] * p.z + m[12 + r]; };
    CHECK((row(0) / row(3) + 1) / 2 * view.width == Approx(seen.x).margin(1e-6));
    CHECK((1 - row(1) / row(3)) / 2 * view.height == Approx(seen.y).margin(1e-6));
    CHECK(std::abs(row(2) / row(3)) < 1);
    const Ray ray = ray_through(camera, view, seen.x, seen.y);
    CHECK(length(cross(p - ray.from, ray.along)) < 1e-6);
    const Projected centre = project(camera, view, camera.target);
    CHECK(centre.x == Approx(400));
    CHECK(centre.y == Approx(300));
  }
  const Camera camera;
  CHECK(!project(camera, view, camera_frame(camera).eye + camera_frame(camera).back).before_eye);
}

TEST_CASE("the front is at -90 degrees, X to the right, Z up", "[view_camera]") {
  const CameraFrame f = camera_frame({{}, -std::numbers::pi / 2, 0, 100});
  CHECK(f.right.x == Approx(1));
  CHECK(f.up.z == Approx(1));
  CHECK(f.eye.y == Approx(-100));
}

TEST_CASE("orbit keeps target and distance, and never tips over", "[view_camera]") {
  Camera camera;
  for (int i = 0; i < 100; ++i) camera = orbit(camera, 0.3, 0.2);
  CHECK(camera.target == Camera{}.target);
  CHECK(camera.distance_mm == Camera{}.distance_mm);
  CHECK(camera.elevation_rad < std::numbers::pi / 2);
  CHECK(std::abs(camera.azimuth_rad) <= std::numbers::pi);
  const Camera back = orbit(orbit(Camera{}, 0.4, -0.1), -0.4, 0.1);
  CHECK(back.azimuth_rad == Approx(Camera{}.azimuth_rad));
  CHECK(back.elevation_rad == Approx(Camera{}.elevation_rad));
}

TEST_CASE("pan moves the picture by its share, zoom leaves the pointer's place alone", "[view_camera]") {
  std::mt19937 random(12);
  for (int i = 0; i < 50; ++i) {
    const Camera camera = some_camera(random);
    const Projected moved = project(pan(camera, 0.1, 0.2), view, camera.target);
    CHECK(moved.x == Approx(400 - 60));
    CHECK(moved.y == Approx(300 + 120));
    // The point at the target's depth under (0.25, -0.1) of the height.
    const CameraFrame f = camera_frame(camera);
    const double height = mm_per_pixel(camera, view) * view.height;
    const Vec3 p = camera.target + 0.25 * height * f.right - 0.1 * height * f.up;
    for (const double factor : {1.2, 1 / 1.2}) {
      const Projected stays = project(zoom(camera, factor, 0.25, -0.1), view, p);
      CHECK(stays.x == Approx(400 + 150));
      CHECK(stays.y == Approx(300 + 60));
    }
  }
  Camera near;
  for (int i = 0; i < 100; ++i) near = zoom(near, 2);
  CHECK(near.distance_mm > 1);
}

TEST_CASE("fit shows every point, and no farther than it must", "[view_camera]") {
  std::mt19937 random(99);
  std::uniform_real_distribution<double> place(0, 220);
  constexpr double margin = 0.06;
  for (int i = 0; i < 50; ++i) {
    std::vector<Vec3> points;
    for (int k = 0; k < 12; ++k) points.push_back({place(random), place(random), place(random) / 5});
    for (const Viewport& v : {view, Viewport{300, 900}}) {
      const Camera camera = fit(some_camera(random), points, v, margin);
      double reach = 0;  // 1 at the margin
      for (const Vec3& p : points) {
        const Projected seen = project(camera, v, p);
        REQUIRE(seen.before_eye);
        reach = std::max({reach, std::abs(seen.x / v.width - 0.5) / (0.5 - margin),
                          std::abs(seen.y / v.height - 0.5) / (0.5 - margin)});
      }
      CHECK(reach <= 1 + 1e-9);
      CHECK(reach > 0.99);
    }
  }
  CHECK(fit(Camera{}, {}, view) == Camera{});
}

TEST_CASE("a motion starts and ends where it should, goes the short way, and takes less than 150 ms", "[view_camera]") {
  const Camera a{{0, 0, 0}, 3.0, 0.2, 100}, b{{10, 0, 0}, -3.0, 0.6, 400};
  CHECK(between(a, b, 1) == b);
  CHECK(between(a, b, 0) == a);
  const Camera half = between(a, b, 0.5);
  CHECK(std::abs(half.azimuth_rad) == Approx(std::numbers::pi));  // through the back, not round the front
  CHECK(half.distance_mm == Approx(200));
  CHECK(half.target.x == Approx(5));
  CHECK(eased(0) == 0);
  CHECK(eased(motion_ms) == 1);
  CHECK(eased(1e9) == 1);
  CHECK(motion_ms < 150);
  for (double t = 0; t < motion_ms; t += 5) CHECK(eased(t + 5) > eased(t));
}
