#include "bench/view_camera.hpp"

#include <algorithm>
#include <numbers>

namespace fitwright {
namespace {

constexpr double steepest_rad = 1.55;  // straight down would leave no up
constexpr double nearest_mm = 12, farthest_mm = 4000;
constexpr double around_mm = 900;  // what may stand before and behind the target: half the diagonal of a large bed

double half_height_at_one() { return std::tan(view_opening_rad / 2); }

struct Depths {
  double near_mm, far_mm;
};

Depths depths(const Camera& camera) {
  return {std::max(camera.distance_mm * 0.04, camera.distance_mm - around_mm), camera.distance_mm + around_mm};
}

}  // namespace

CameraFrame camera_frame(const Camera& camera) {
  const double ca = std::cos(camera.azimuth_rad), sa = std::sin(camera.azimuth_rad);
  const double ce = std::cos(camera.elevation_rad), se = std::sin(camera.elevation_rad);
  CameraFrame frame;
  frame.back = {ce * ca, ce * sa, se};
  frame.right = {-sa, ca, 0};
  frame.up = {-se * ca, -se * sa, ce};
  frame.eye = camera.target + camera.distance_mm * frame.back;
  return frame;
}

Camera orbit(const Camera& camera, double azimuth_rad, double elevation_rad) {
  Camera turned = camera;
  turned.azimuth_rad = std::remainder(camera.azimuth_rad + azimuth_rad, 2 * std::numbers::pi);
  turned.elevation_rad = std::clamp(camera.elevation_rad + elevation_rad, -steepest_rad, steepest_rad);
  return turned;
}

Camera pan(const Camera& camera, double right, double up) {
  const CameraFrame frame = camera_frame(camera);
  const double height_mm = 2 * half_height_at_one() * camera.distance_mm;
  Camera moved = camera;
  moved.target = camera.target + right * height_mm * frame.right + up * height_mm * frame.up;
  return moved;
}

Camera zoom(const Camera& camera, double factor, double x, double y) {
  Camera nearer = camera;
  nearer.distance_mm = std::clamp(camera.distance_mm / factor, nearest_mm, farthest_mm);
  const double stays = camera.distance_mm / nearer.distance_mm - 1;
  return pan(nearer, stays * x, stays * y);
}

Camera fit(const Camera& camera, const std::vector<Vec3>& points, const Viewport& view, double margin) {
  if (points.empty()) return camera;
  const CameraFrame frame = camera_frame(camera);
  const double tall = half_height_at_one() * (1 - 2 * margin), wide = tall * view.aspect();
  // The middle of what is seen, found anew a few times as perspective shifts it.
  Camera fitted = camera;
  fitted.target = points.front();
  double distance = 0;
  for (int round = 0; round < 4; ++round) {
    double left = 1e9, right = -1e9, low = 1e9, high = -1e9, depth_low = 1e9, depth_high = -1e9;
    for (const Vec3& p : points) {
      const Vec3 d = p - fitted.target;
      const double depth = dot(d, frame.back);
      const double scale = distance > depth ? distance / (distance - depth) : 1;
      left = std::min(left, scale * dot(d, frame.right)), right = std::max(right, scale * dot(d, frame.right));
      low = std::min(low, scale * dot(d, frame.up)), high = std::max(high, scale * dot(d, frame.up));
      depth_low = std::min(depth_low, depth), depth_high = std::max(depth_high, depth);
    }
    fitted.target = fitted.target + (left + right) / 2 * frame.right + (low + high) / 2 * frame.up +
                    (depth_low + depth_high) / 2 * frame.back;
    distance = nearest_mm;
    for (const Vec3& p : points) {
      const Vec3 d = p - fitted.target;
      const double depth = dot(d, frame.back);
      distance =
          std::max({distance, std::abs(dot(d, frame.right)) / wide + depth, std::abs(dot(d, frame.up)) / tall + depth});
    }
  }
  fitted.distance_mm = std::clamp(distance, nearest_mm, farthest_mm);
  return fitted;
}

Camera between(const Camera& a, const Camera& b, double share) {
  Camera c;
  c.target = a.target + share * (b.target - a.target);
  c.azimuth_rad = a.azimuth_rad + share * std::remainder(b.azimuth_rad - a.azimuth_rad, 2 * std::numbers::pi);
  c.elevation_rad = a.elevation_rad + share * (b.elevation_rad - a.elevation_rad);
  c.distance_mm = a.distance_mm * std::pow(b.distance_mm / a.distance_mm, share);
  return share >= 1 ? b : c;
}

double eased(double elapsed_ms) {
  const double t = std::clamp(elapsed_ms / motion_ms, 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

Matrix4 view_projection(const Camera& camera, const Viewport& view) {
  const CameraFrame f = camera_frame(camera);
  const Matrix4 look{f.right.x,
                     f.up.x,
                     f.back.x,
                     0,
                     f.right.y,
                     f.up.y,
                     f.back.y,
                     0,
                     f.right.z,
                     f.up.z,
                     f.back.z,
                     0,
                     -dot(f.right, f.eye),
                     -dot(f.up, f.eye),
                     -dot(f.back, f.eye),
                     1};
  const auto [n, d] = depths(camera);
  const double tall = 1 / half_height_at_one(), wide = tall / view.aspect();
  const Matrix4 perspective{wide, 0, 0, 0, 0, tall, 0, 0, 0, 0, (d + n) / (n - d), -1, 0, 0, 2 * d * n / (n - d), 0};
  return perspective * look;
}

Projected project(const Camera& camera, const Viewport& view, const Vec3& point) {
  const CameraFrame f = camera_frame(camera);
  const Vec3 d = point - f.eye;
  const double depth = -dot(d, f.back);
  if (depth <= 0) return {};
  const double scale = view.height / (2 * half_height_at_one() * depth);
  return {view.width / 2 + scale * dot(d, f.right), view.height / 2 - scale * dot(d, f.up), true};
}

Ray ray_through(const Camera& camera, const Viewport& view, double x, double y) {
  const CameraFrame f = camera_frame(camera);
  const double scale = 2 * half_height_at_one() / view.height;
  const Vec3 along = scale * (x - view.width / 2) * f.right + scale * (view.height / 2 - y) * f.up - f.back;
  return {f.eye, unit(along)};
}

double mm_per_pixel(const Camera& camera, const Viewport& view) {
  return 2 * half_height_at_one() * camera.distance_mm / view.height;
}

}  // namespace fitwright
