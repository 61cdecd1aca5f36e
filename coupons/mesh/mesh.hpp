#pragma once
// A triangle mesh, and what can be checked of it.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "solid/solid.hpp"

namespace fitwright {

/// Vertices in mm; triangles anticlockwise seen from outside.
struct Mesh {
  std::vector<std::array<double, 3>> vertices;
  std::vector<std::array<std::uint32_t, 3>> triangles;
};

struct Box {
  std::array<double, 3> low{};
  std::array<double, 3> high{};
};

/// The mesh of a solid: closed, oriented, no vertex on the inside of another triangle's edge, no triangle of zero area.
/// Throws std::logic_error when the solid breaks the rules of Solid (a defect in a design).
Mesh mesh_of(const Solid& solid);

Box bounds(const Mesh& mesh);
/// Signed volume in mm3 (divergence theorem).
double volume_mm3(const Mesh& mesh);
/// Every edge shared by exactly two triangles, in opposite directions.
bool is_closed_and_oriented(const Mesh& mesh);
/// Triangles with two equal vertices or zero area.
std::size_t degenerate_triangles(const Mesh& mesh);

/// Binary STL bytes (header without "solid", float32 mm), and 3MF bytes in millimetres through lib3mf.
std::string to_stl(const Mesh& mesh);
Result<Done> write_3mf(const Mesh& mesh, const std::string& name, const std::string& path);

}  // namespace fitwright
