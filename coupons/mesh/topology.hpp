#pragma once
// How triangles hang together.

#include "mesh/mesh.hpp"

namespace fitwright {

/// Where parts of a closed surface meet in a single vertex only, gives each its own copy of it, so that the triangles
/// round every vertex form one ring. Throws UnfitGrid, naming the place, when an edge is not shared by exactly
/// two triangles in opposite directions (parts of the solid that touch along an edge do that).
void part_at_touching_points(Mesh& mesh);

}  // namespace fitwright
