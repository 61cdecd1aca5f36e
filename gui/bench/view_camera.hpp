#pragma once
// The eye that looks at a coupon: a value, and functions from one eye to the next.

#include <vector>

#include "bench/space.hpp"

namespace fitwright {

/// Opening of the view from bottom to top. Small: perspective is felt, but parallel edges stay nearly so.
inline constexpr double view_opening_rad = 0.38;

/// An eye on a sphere around `target`. Azimuth 0 looks from +X, anticlockwise seen from above; the front of the machine
/// is -pi/2. Z is always up in the picture.
struct Camera {
  Vec3 target;
  double azimuth_rad = -1.2;
  double elevation_rad = 0.65;
  double distance_mm = 400;
  friend bool operator==(const Camera&, const Camera&) = default;
};

/// Size of the picture in pixels.
struct Viewport {
  double width = 1, height = 1;
  [[nodiscard]] double aspect() const { return height > 0 ? width / height : 1; }
};

/// Where a point stands in the picture: pixels from the top left corner, and whether it lies before the eye.
struct Projected {
  double x = 0, y = 0;
  bool before_eye = false;
};

struct Ray {
  Vec3 from, along;  ///< `along` of unit length
};

/// Unit vectors of the picture in space, and the eye.
struct CameraFrame {
  Vec3 eye, right, up, back;  ///< back: from the target to the eye
};
CameraFrame camera_frame(const Camera& camera);

/// Turns around the target; the elevation stays short of straight up and down.
Camera orbit(const Camera& camera, double azimuth_rad, double elevation_rad);
/// Moves eye and target by shares of the picture's height: right and up positive, what is looked at goes the other way.
Camera pan(const Camera& camera, double right, double up);
/// Divides the distance by `factor` (above 1: nearer), within what a bed and a bead ask for. (x, y): the place in the
/// picture that stays, as shares of the height from the middle.
Camera zoom(const Camera& camera, double factor, double x = 0, double y = 0);
/// The same direction, placed so that all points fill the picture but for `margin` (share of it) on each side.
Camera fit(const Camera& camera, const std::vector<Vec3>& points, const Viewport& view, double margin = 0.06);

/// From `a` (share 0) to `b` (share 1): the short way round, distances in equal ratios.
Camera between(const Camera& a, const Camera& b, double share);
/// Share of a motion done when `elapsed_ms` have gone: starts and ends slowly; 1 from motion_ms on.
inline constexpr double motion_ms = 140;  ///< under 150: shows where something went, keeps nobody waiting
double eased(double elapsed_ms);

/// From space to OpenGL's clip space.
Matrix4 view_projection(const Camera& camera, const Viewport& view);
Projected project(const Camera& camera, const Viewport& view, const Vec3& point);
/// From the eye through a pixel.
Ray ray_through(const Camera& camera, const Viewport& view, double x, double y);
/// Length at the target that a pixel covers, mm.
double mm_per_pixel(const Camera& camera, const Viewport& view);

}  // namespace fitwright
