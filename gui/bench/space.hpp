#pragma once
// Vectors and matrices of three-dimensional space, as few as the view of a coupon needs. Lengths in mm.

#include <array>
#include <cmath>

namespace fitwright {

struct Vec3 {
  double x = 0, y = 0, z = 0;
  friend bool operator==(const Vec3&, const Vec3&) = default;
};

inline Vec3 operator+(const Vec3& a, const Vec3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
inline Vec3 operator-(const Vec3& a, const Vec3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
inline Vec3 operator*(double s, const Vec3& a) { return {s * a.x, s * a.y, s * a.z}; }
inline double dot(const Vec3& a, const Vec3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(const Vec3& a) { return std::sqrt(dot(a, a)); }
/// Of unit length; a zero vector stays zero.
inline Vec3 unit(const Vec3& a) {
  const double l = length(a);
  return l > 0 ? 1 / l * a : a;
}

struct Line3 {
  Vec3 a, b;
};

/// Column by column, as OpenGL takes it.
using Matrix4 = std::array<double, 16>;

inline Matrix4 operator*(const Matrix4& a, const Matrix4& b) {
  Matrix4 c{};
  for (std::size_t column = 0; column < 4; ++column)
    for (std::size_t row = 0; row < 4; ++row)
      for (std::size_t k = 0; k < 4; ++k) c[4 * column + row] += a[4 * k + row] * b[4 * column + k];
  return c;
}

}  // namespace fitwright
