#pragma once
// Generalised least squares block by block: later blocks take earlier parameters as given, with their covariance, and
// never feed them back (holes must not bend the scale that the lengths fix).
//
// Every solved value is kept as a linear function of the rows and of the pseudo-readings (steel references, weak
// priors); whatever is known of the scatter of those then gives the covariance of all parameters at once.

#include <Eigen/Core>
#include <functional>
#include <string>
#include <vector>

#include "model/terms.hpp"

namespace fitwright {

/// A value known from outside the printed places: c . parameters = value +- u.
struct PseudoReading {
  Coefficients coefficients = Coefficients::Zero();
  double value = 0;
  double u = 0;
  double df = 0;  ///< infinity for a prior
  bool is_prior = false;
  Term for_term = Term::zero;  ///< priors: the parameter
};

/// Rows of the fit; all vectors have one entry per row.
struct Rows {
  Eigen::MatrixXd design;     ///< rows x term_count
  Eigen::VectorXd y;          ///< mm
  Eigen::VectorXd copy_edge;  ///< see Equation
  Eigen::VectorXd copy_scale;
  Eigen::VectorXd extra_variance;  ///< mm2
  std::vector<Block> block;

  [[nodiscard]] Eigen::Index size() const { return y.size(); }
  /// Row numbers of a block, ascending.
  [[nodiscard]] std::vector<Eigen::Index> of(Block block) const;
};

/// What the rows and pseudo-readings leave undetermined: directions in parameter space that change no reading, found
/// block by block (a direction that only a later block would resolve stays unresolved).
struct Unresolved {
  Eigen::MatrixXd directions;  ///< term_count x q
  std::vector<bool> term;      ///< by term: takes part in a direction
};
/// `in_play`: terms that any row or pseudo-reading depends on.
struct OpenGroup {
  Block block = Block::lengths;  ///< where it shows
  std::vector<Term> terms;       ///< members, in term order
};
struct Structure {
  std::vector<OpenGroup> groups;  ///< first where a direction arises, then each later block it reaches
  std::vector<bool> in_play;
  Unresolved unresolved;
  std::vector<bool> held;  ///< terms held at 0 so that the others can be solved
};
/// Rows as structure is judged: the flats of the inside jaws change a hole's reading by zero, bias and closing in parts
/// in a thousand only, too little to tell anything by, so zero and bias count with slope 1 and the jaw flat just like
/// the closing that grows towards small holes. A scale that no length of its own axis shows is left out: it is assumed
/// (priors_needed), never sought in holes, pegs or diagonals.
Rows structural(const Rows& rows);
Structure structure_of(const Rows& rows, const std::vector<PseudoReading>& pseudo);

struct StagedFit {
  Values values = Values::Zero();
  Eigen::MatrixXd by_row;     ///< term_count x rows: d value / d y
  Eigen::MatrixXd by_pseudo;  ///< term_count x pseudo-readings
  Eigen::VectorXd residual;   ///< y - design . values
};

/// Solves all blocks in order. `covariance_of(block, rows)` gives the covariance (mm2) of the block's rows, as a
/// vector (diagonal) or a full matrix in `full`.
struct BlockCovariance {
  Eigen::VectorXd diagonal;
  Eigen::MatrixXd full;  ///< used when not empty
};
StagedFit solve_staged(const Rows& rows, const std::vector<PseudoReading>& pseudo, const Structure& structure,
                       const std::function<BlockCovariance(Block, const std::vector<Eigen::Index>&)>& covariance_of);

/// Residuals of a block freed of its own parameters only, with equal weights and no priors.
struct BlockResidual {
  Eigen::MatrixXd projector_q;  ///< rows x rank, orthonormal: residual = v - q q' v
  int df = 0;
};
BlockResidual block_residual(const Rows& rows, Block block, const Structure& structure);

}  // namespace fitwright
