#pragma once
// A feature of size on a coupon: what is put between the jaws, and what the drawing says it measures.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fitwright {

/// What is measured and how (names and meanings: docs/formats.md, table of kinds).
enum class Kind {
  outer, inner, foot, pitch, peg, hole, hole_h, pin, wall,
  diag_plus, diag_minus, flats_plus, flats_minus,
  zero, gauge, ring,
};

/// Axis of a feature. For hole_h the axis of the cylinder; `n` = none.
enum class Axis { x, y, z, n, xy };

struct Feature {
  std::string id;          ///< as engraved
  Kind kind = Kind::outer;
  Axis axis = Axis::x;     ///< as engraved
  double nominal_mm = 0;   ///< drawn size; diagonals: over the points; flats: over the flats
  std::optional<double> side_a_mm;  ///< diagonals, flats: the rectangle's side along X
  std::optional<double> side_b_mm;  ///< diagonals, flats: the rectangle's side along Y
  int facets = 0;          ///< sides of a polygonal circle inscribed in the nominal; 0 = a true circle
  std::string edge_a;      ///< name of the first face measured, empty if not named
  std::string edge_b;      ///< name of the second face measured
  std::string label;       ///< short text for people
};

/// The contract's word for a kind ("outer", "diag+", ...), and back; empty when it is none.
std::string_view word(Kind kind);
std::optional<Kind> kind_from(std::string_view text);
std::string_view word(Axis axis);
std::optional<Axis> axis_from(std::string_view text);

/// zero, gauge and ring: references of known size that were not printed.
bool is_steel(Kind kind);
/// Kinds read with the inside jaws: inner, hole, hole_h, ring.
bool uses_inside_jaws(Kind kind);
/// diag+/- and flats+/-.
bool is_diagonal(Kind kind);
/// Axes a kind may have, in the order of docs/formats.md.
std::vector<Axis> axes_of(Kind kind);

}  // namespace fitwright
