#pragma once
// Values of all parameters and where their uncertainty comes from; two ways to one result.

#include <Eigen/Core>
#include <map>
#include <string>
#include <vector>

#include "model/cells.hpp"
#include "model/copy_prior.hpp"
#include "model/estimates.hpp"
#include "model/staged.hpp"
#include "model/steel.hpp"

namespace fitwright {

/// A block's scatter was supported by `sd_mm` (of the lengths, or a typical one) worth `df` degrees of freedom.
struct LentScatter {
  Block block = Block::lengths;
  double sd_mm = 0;
  double df = 0;
  bool is_prior = false;      ///< a belief took part: a typical value, or that this block scatters like the lengths
  bool from_lengths = false;  ///< the scatter lent is that of the lengths of the same prints
};

struct Fit {
  std::string method;
  Values values = Values::Zero();
  Structure structure;                 ///< with the priors that were used
  Structure without_priors;            ///< with steel only: what the readings alone can tell apart
  std::vector<PseudoReading> priors;   ///< those used
  std::vector<UncertaintyPart> parts;  ///< over terms
  bool copy_prior_used = false;
  bool reading_assumed = false;           ///< nothing was read twice: a typical repeatability stands for steel readings
  std::vector<LentScatter> lent;          ///< blocks whose own scatter shows too little and leans on another
  std::vector<Block> no_scatter;          ///< blocks with nothing to judge their scatter by: uncertainty unknown
  Rows rows;                              ///< the equations of the last round
  std::map<std::string, double> scatter;  ///< Estimates::scatter
  /// By cell: externally studentised residual of its feature's mean (0 where not defined), and its Bonferroni chance.
  std::vector<double> studentised;
  std::vector<double> chance;
};

struct FitInput {
  const ReadingSet* set = nullptr;
  std::vector<bool> counts;  ///< by row of the set
  std::vector<PlaceCell> cells;
  std::map<std::string, double> true_size_mm;
  bool use_priors = true;
  CopyPrior copy_prior;
};

/// Every feature on every copy and no named edges: two strata in closed form, moderated with one or two copies.
Fit fit_balanced(const FitInput& input, const MatchedTable& table);

/// Cells missing or faces shared: variance components by REML over single cells, Satterthwaite's degrees of freedom,
/// Kenward and Roger's covariance; moderated by the prior of copy scatter with one or two copies.
Fit fit_components(const FitInput& input);

// Shared by the two ways.

/// Block in words: "lengths", "heights", ...
std::string_view word(Block block);
/// All blocks in the order in which they are solved.
const std::vector<Block>& blocks_in_order();

/// Values about which the first linearisation is made.
Values first_values();
/// Rows from equations: one a cell.
Rows rows_of(const std::vector<PlaceCell>& cells, const Values& at);
/// Pseudo-readings' share of the uncertainty, one part each.
void add_pseudo_parts(const StagedFit& staged, const std::vector<PseudoReading>& pseudo,
                      std::vector<UncertaintyPart>& parts);
/// Externally studentised residuals of the rows of one block about their own least-squares fit.
void studentise_block(const Rows& rows, Block block, const Structure& structure, const Eigen::VectorXd& residual,
                      Eigen::VectorXd& studentised, Eigen::VectorXd& chance);

}  // namespace fitwright
