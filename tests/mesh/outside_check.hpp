#pragma once
// Runs the outside mesh checkers (admesh, CGAL) on a mesh and reads what they print.

#include <string>

#include "mesh/mesh.hpp"

namespace fitwright_test {

/// What admesh counts in the file as it is, before it repairs anything; -1 where its output did not say.
struct AdmeshReport {
  long facets = -1;
  long disconnected = -1;  ///< facets with 1, 2 or 3 disconnected edges, together
  long degenerate = -1;
  long reversed = -1;  ///< facets reversed, and normals fixed
  long parts = -1;
  std::string output;

  [[nodiscard]] bool clean() const { return facets > 0 && disconnected == 0 && degenerate == 0 && reversed == 0; }
};

struct CgalReport {
  bool polygon_mesh = false;
  bool closed = false;
  bool self_intersects = true;
  bool outward = false;
  double volume_mm3 = 0;
  std::string output;

  [[nodiscard]] bool clean() const { return polygon_mesh && closed && !self_intersects && outward; }
};

AdmeshReport admesh(const fitwright::Mesh& mesh);
CgalReport cgal(const fitwright::Mesh& mesh);

}  // namespace fitwright_test
