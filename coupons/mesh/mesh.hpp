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
/// Coordinates are rounded to a grid that a 32-bit float holds exactly (grid.hpp: half a step is 3.8 nm at 100 mm), so
/// that all this stays true in an STL file. Equal solids give equal meshes. Parts that meet in a point only have a
/// vertex each there. Throws std::logic_error, naming the place where it can, when the solid breaks the rules of Solid,
/// has parts that touch along an edge, or a slab thinner than the grid (defects in a design).
Mesh mesh_of(const Solid& solid);

/// Smallest box around all vertices; all 0 for none.
Box bounds(const Mesh& mesh);
/// Signed volume in mm3 (divergence theorem).
double volume_mm3(const Mesh& mesh);
/// Every edge shared by exactly two triangles, in opposite directions, all vertex numbers right, and not empty.
bool is_closed_and_oriented(const Mesh& mesh);
/// Triangles with two equal vertices or zero area, as they are or when rounded to 32-bit floats.
std::size_t degenerate_triangles(const Mesh& mesh);

/// Binary STL bytes: header without "solid", 32-bit floats in mm (exact for a mesh made by mesh_of).
/// Throws std::logic_error when a triangle names a vertex that is not there; so does write_3mf.
std::string to_stl(const Mesh& mesh);
/// Writes a 3MF file in millimetres with one object called `name` (UTF-8), whole or not at all; the same bytes for the
/// same mesh. Its coordinates are cut after six decimals by the library: up to one step of a float (7.6 nm at 100 mm).
/// Errors: Code::io when the file cannot be written, or the library refuses mesh or name.
Result<Done> write_3mf(const Mesh& mesh, const std::string& name, const std::string& path);

}  // namespace fitwright
