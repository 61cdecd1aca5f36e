#pragma once
// A coupon in space, as values to be drawn: its faces, its feature lines, which face belongs to which feature.
// All in the part's own frame (first corner at the origin, as designed); `Pose` lays it on the bed.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "bench/space.hpp"
#include "bench/view_camera.hpp"
#include "reading/feature.hpp"

namespace fitwright {

struct Coupon;

/// Faces that meet at more than this are parted by a drawn line; below it they count as one smooth face. A circle of 18
/// sides and more is smooth.
inline constexpr double feature_edge_rad = 0.349;  // 20 degrees

/// A flat triangle.
struct SceneTriangle {
  std::array<Vec3, 3> at;
  Vec3 normal;            ///< of unit length, outward
  int face = 0;           ///< number of its smooth face
  int feature = -1;       ///< the feature it is measured by, the shortest where several share it; -1: none
  bool engraved = false;  ///< floor or side of a name or mark cut into the part
};

struct SceneEdge {
  Line3 line;
  bool engraved = false;
};

/// What a place is read with.
enum class Gauge { outside_jaws, inside_jaws, shank };

/// A direction to look from, as Camera has it.
struct ViewFrom {
  double azimuth_rad = 0, elevation_rad = 0;
};

/// A feature with its place: where the jaws touch, and the faces they touch.
struct SceneFeature {
  Feature feature;
  Gauge gauge = Gauge::outside_jaws;
  Vec3 a, b;                             ///< points touched; for heights one above the other
  Vec3 along;                            ///< unit vector from a to b
  Vec3 reach;                            ///< unit vector from the jaws' tips to the caliper's body
  double above_mm = 0;                   ///< from the points touched to where the part ends, along `reach`
  ViewFrom seen_from;                    ///< where it is seen best from, in the part's frame
  std::vector<std::uint32_t> triangles;  ///< of its faces, ascending
  std::vector<Line3> outline;            ///< around its faces
  [[nodiscard]] bool is_round() const;   ///< hole, peg or pin: a and b at the ends of a diameter
};

/// The outline of an engraved name.
struct SceneName {
  int feature = -1;
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;  ///< area it covers, in plan
};

struct CouponScene {
  std::shared_ptr<const Coupon> coupon;
  Vec3 size;
  std::vector<SceneTriangle> triangles;
  std::vector<SceneEdge> edges;
  std::vector<SceneFeature> features;  ///< in the order to measure
  std::vector<SceneName> names;

  /// Position of the feature with that id; -1 for none.
  [[nodiscard]] int find(const std::string& id) const;
};

/// The scene of a coupon. Takes up to a few tenths of a second: not for every frame.
CouponScene coupon_scene(std::shared_ptr<const Coupon> coupon);

/// How the part lies: turned anticlockwise seen from above, in the middle of the bed. Without a bed (0 x 0) its front
/// left corner is at the origin.
struct Pose {
  double bed_x_mm = 0, bed_y_mm = 0;
  int turned_deg = 0;  ///< 0, 90, 180 or 270
  Vec3 size;           ///< of the part
  [[nodiscard]] Vec3 to_bed(const Vec3& part) const;
  [[nodiscard]] Vec3 to_part(const Vec3& bed) const;
  /// Directions turn, and do not move.
  [[nodiscard]] Vec3 turn_to_bed(const Vec3& direction) const;
  [[nodiscard]] Vec3 turn_to_part(const Vec3& direction) const;
  [[nodiscard]] Matrix4 matrix() const;  ///< to_bed
  friend bool operator==(const Pose&, const Pose&) = default;
};

/// The feature that a ray in the part's frame meets: by its engraved name, by a face measured, or by the nearest place
/// within a few millimetres, the shortest of several. -1: none.
int pick(const CouponScene& scene, const Ray& part_ray);
/// The feature seen at a pixel.
int pick(const CouponScene& scene, const Pose& pose, const Camera& camera, const Viewport& view, double x, double y);

/// An eye that sees part and bed from the front; the part alone where there is no bed.
Camera camera_for_all(const Pose& pose, const Viewport& view);
/// An eye that the feature faces: its jaws side by side, its name upright where the design allows.
Camera camera_for(const SceneFeature& feature, const Pose& pose, const Viewport& view);

/// "X40, outer, 40.00 mm", with the true size in two decimals.
std::string said_of(const SceneFeature& feature);
/// A sentence for those who do not see the picture. `feature` may be -1.
std::string said_of(const CouponScene& scene, const Pose& pose, int feature);

}  // namespace fitwright
