// Binary STL: 80 bytes of header, a count, then per triangle a normal and three corners as 32-bit floats, and two bytes
// that stay 0; all little-endian.

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "mesh/mesh.hpp"

namespace fitwright {
namespace {

constexpr std::size_t header_bytes = 80;
constexpr std::size_t triangle_bytes = 50;
/// Must not begin with "solid": readers take such a file for a text one.
constexpr std::string_view header_text = "Fitwright mesh, millimetres, binary";
static_assert(header_text.size() <= header_bytes);

void put_u32(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<char>(value >> shift & 0xFFU));
}

void put_float(std::string& out, double value) {
  put_u32(out, std::bit_cast<std::uint32_t>(static_cast<float>(value) + 0.0F));  // + 0: no negative zero
}

}  // namespace

std::string to_stl(const Mesh& mesh) {
  std::string out(header_text);
  out.resize(header_bytes, ' ');
  out.reserve(header_bytes + 4 + mesh.triangles.size() * triangle_bytes);
  put_u32(out, static_cast<std::uint32_t>(mesh.triangles.size()));
  for (const auto& [a, b, c] : mesh.triangles) {
    if (std::max({a, b, c}) >= mesh.vertices.size()) throw std::logic_error("to_stl: a triangle has no such vertex");
    const auto &p = mesh.vertices[a], &q = mesh.vertices[b], &r = mesh.vertices[c];
    std::array<double, 3> u{}, v{};
    for (std::size_t i = 0; i < 3; ++i) u[i] = q[i] - p[i], v[i] = r[i] - p[i];
    const std::array<double, 3> n{u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
    const double length = std::sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    for (const double x : n) put_float(out, length > 0 ? x / length : 0.0);
    for (const auto* corner : {&p, &q, &r})
      for (const double x : *corner) put_float(out, x);
    out.append(2, '\0');
  }
  return out;
}

}  // namespace fitwright
