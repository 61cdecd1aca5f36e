#include "model/fit.hpp"

#include <cmath>
#include <limits>

#include "model/priors.hpp"
#include "stats/intervals.hpp"

namespace fitwright {

using Eigen::Index;

std::string_view word(Block block) {
  constexpr std::string_view words[] = {"lengths", "heights", "round features", "lying holes", "diagonals", "walls"};
  return words[static_cast<int>(block)];
}

const std::vector<Block>& blocks_in_order() {
  static const std::vector<Block> order{Block::lengths, Block::heights,   Block::round,
                                        Block::lying,   Block::diagonals, Block::walls};
  return order;
}

Values first_values() {
  Values at = Values::Zero();
  at[index(Term::jaw_flat_term)] = prior::jaw_flat_term_mm2.mean;
  return at;
}

Rows rows_of(const std::vector<PlaceCell>& cells, const Values& at) {
  const auto n = static_cast<Index>(cells.size());
  Rows rows;
  rows.design.resize(n, term_count);
  rows.y.resize(n);
  rows.copy_edge.resize(n);
  rows.copy_scale.resize(n);
  rows.extra_variance.resize(n);
  for (Index i = 0; i < n; ++i) {
    const PlaceCell& cell = cells[static_cast<std::size_t>(i)];
    const Equation q = equation(cell.place, cell.mean_mm, at);
    rows.design.row(i) = q.coefficients.transpose();
    rows.y[i] = q.y;
    rows.copy_edge[i] = q.copy_edge;
    rows.copy_scale[i] = q.copy_scale;
    rows.extra_variance[i] = q.extra_variance_mm2;
    rows.block.push_back(block_of(cell.place.kind, cell.place.axis));
  }
  return rows;
}

void add_pseudo_parts(const StagedFit& staged, const std::vector<PseudoReading>& pseudo,
                      std::vector<UncertaintyPart>& parts) {
  for (std::size_t k = 0; k < pseudo.size(); ++k) {
    const Eigen::VectorXd t = staged.by_pseudo.col(static_cast<Index>(k)) * pseudo[k].u;
    if (t.isZero()) continue;
    parts.push_back(
        {t * t.transpose(), Eigen::VectorXd::Constant(term_count, pseudo[k].df), pseudo[k].is_prior, false});
  }
}

void studentise_block(const Rows& rows, Block block, const Structure& structure, const Eigen::VectorXd& residual,
                      Eigen::VectorXd& studentised, Eigen::VectorXd& chance) {
  const std::vector<Index> at = rows.of(block);
  const BlockResidual space = block_residual(rows, block, structure);
  if (space.df < 2) return;  // the variance without the row needs a degree of freedom of its own
  Eigen::VectorXd r(static_cast<Index>(at.size()));
  for (std::size_t i = 0; i < at.size(); ++i) r[static_cast<Index>(i)] = residual[at[i]];
  r -= space.projector_q * (space.projector_q.transpose() * r).eval();
  const double rss = r.squaredNorm();
  const double df = space.df;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const auto k = static_cast<Index>(i);
    const double free = 1 - space.projector_q.row(k).squaredNorm();  // 1 - leverage
    if (free < 1e-9) continue;
    const double internal2 = r[k] * r[k] / free;
    const double rest = (rss - internal2) / (df - 1);
    if (rest <= 0) continue;
    studentised[at[i]] = (r[k] < 0 ? -1 : 1) * std::sqrt(internal2 / rest);
    chance[at[i]] = bonferroni(t_two_sided_p(studentised[at[i]], df - 1), static_cast<int>(at.size()));
  }
}

}  // namespace fitwright
