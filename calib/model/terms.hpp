#pragma once
// The equations of the error model: what each parameter does to the reading of one place.
//
// One row per place: reading = nominal + known + sum_k coefficient_k * parameter_k + noise. Places whose equation is
// not linear (holes read with flat jaws, diagonals) are linearised about the present values and iterated.

#include <Eigen/Core>
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/cells.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// Parameters of the model in the order they are solved. jaw_flat_term is g^2/2 (mm2) of the inside jaws: a nuisance.
// clang-format off
enum class Term {
  zero, inside, jaw_flat_term,     // caliper
  scale_x, scale_y, edge, flare,   // lengths in plane
  scale_z, z0,                     // heights
  hole_c0, hole_c1, peg_p0, peg_p1,// standing round
  holeh_c0, holeh_c1,              // lying holes
  skew, diagonal_common,           // diagonals; what both share (corners, edges) is a nuisance
  wall,                            // one-bead wall
  count_
};
// clang-format on
inline constexpr int term_count = static_cast<int>(Term::count_);
inline constexpr int index(Term t) { return static_cast<int>(t); }

/// Contract name and unit of a term; the name is empty for a nuisance that is not reported.
std::string_view name_of(Term term);
std::string_view unit_of(Term term);

/// Blocks share a residual variance; later blocks take earlier parameters as given and never feed them back.
enum class Block { lengths, heights, round, lying, diagonals, walls, count_ };
inline constexpr int block_count = static_cast<int>(Block::count_);
Block block_of(Kind kind, Axis axis);
/// The terms that a block solves for.
const std::vector<Term>& terms_of(Block block);

using Coefficients = Eigen::Matrix<double, term_count, 1>;
/// Values of the terms to linearise about.
using Values = Eigen::Matrix<double, term_count, 1>;

/// Linear equation of one place: y = coefficients . parameters + noise.
struct Equation {
  Coefficients coefficients = Coefficients::Zero();
  double y = 0;           ///< mm
  double copy_edge = 0;   ///< d reading / d edge growth of this copy: +2 outside, -2 inside, 0 heights and walls
  double copy_scale = 0;  ///< d reading / d scale of this copy: the nominal length
  double extra_variance_mm2 = 0;  ///< known variance beyond the block's own (go / no-go steps)
};

/// The equation of a place read as `mean_mm`, about `at`.
Equation equation(const MachinePlace& place, double mean_mm, const Values& at);

/// What the model predicts for the place's reading at `values`, mm (exact, not linearised).
double predicted_reading(const MachinePlace& place, const Values& values);

}  // namespace fitwright
