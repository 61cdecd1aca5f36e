#include <algorithm>
#include <cmath>
#include <limits>

#include "model/fit.hpp"
#include "model/priors.hpp"
#include "model/strata.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rounds of linearisation: each gains about four digits; this many leave rounding alone.
constexpr int linearisation_rounds = 6;
/// Blocks with fewer degrees of freedom than this lean on the scatter of lengths.
constexpr double few_df = 4;

/// Rows of the balanced table: mean over the copies of the cells' equations, and each copy's own y.
struct Balanced {
  Rows rows;
  MatrixXd by_copy;
};

Balanced balanced_rows(const std::vector<PlaceCell>& cells, const MatchedTable& table, const Values& at) {
  const Rows single = rows_of(cells, at);
  const auto n = static_cast<Index>(table.features.size());
  const auto nc = static_cast<Index>(table.copies.size());
  Balanced out;
  Rows& rows = out.rows;
  rows.design = MatrixXd::Zero(n, term_count);
  rows.y = rows.copy_edge = rows.copy_scale = rows.extra_variance = VectorXd::Zero(n);
  out.by_copy.resize(n, nc);
  for (Index f = 0; f < n; ++f) {
    const MatchedFeature& feature = table.features[static_cast<std::size_t>(f)];
    for (Index c = 0; c < nc; ++c) {
      const auto i = static_cast<Index>(feature.cells[static_cast<std::size_t>(c)]);
      rows.design.row(f) += single.design.row(i);
      rows.copy_edge[f] += single.copy_edge[i];
      rows.copy_scale[f] += single.copy_scale[i];
      rows.extra_variance[f] += single.extra_variance[i];
      out.by_copy(f, c) = single.y[i];
    }
    rows.y[f] = out.by_copy.row(f).mean();
    rows.block.push_back(single.block[feature.cells[0]]);
  }
  const auto copies = static_cast<double>(nc);
  rows.design /= copies;
  rows.copy_edge /= copies;
  rows.copy_scale /= copies;
  rows.extra_variance /= copies;
  return out;
}

/// A block's rows, and its part of a vector over all rows freed of what the block's own parameters explain.
struct BlockView {
  std::vector<Index> rows;
  BlockResidual space;

  [[nodiscard]] VectorXd freed(const VectorXd& all) const {
    VectorXd v(static_cast<Index>(rows.size()));
    for (std::size_t i = 0; i < rows.size(); ++i) v[static_cast<Index>(i)] = all[rows[i]];
    return v - space.projector_q * (space.projector_q.transpose() * v).eval();
  }
};

/// Scatter of a block about its own parameters, from its own rows alone.
Stratum own_scatter(const Balanced& b, const BlockView& view, const VectorXd& residual) {
  Stratum s;
  s.rows = view.rows;
  s.df = view.space.df;
  // Readings that agree to the last digit still carry the rounding of the display.
  if (s.df > 0)
    s.variance_mm2 = std::max(view.freed(residual).squaredNorm() / s.df, std::pow(prior::resolution_sd_mm, 2));
  const Index nc = b.by_copy.cols();
  s.interaction_df = s.df * static_cast<double>(nc - 1);
  if (s.interaction_df > 0) {
    double sum = 0;
    for (Index c = 0; c < nc; ++c) sum += view.freed(b.by_copy.col(c) - b.rows.y).squaredNorm();
    s.interaction_mm2 = sum / s.interaction_df;
  }
  return s;
}

/// Lends scatter to a block that shows too little of its own: that of the lengths of the same prints, or a typical
/// one. A block of diagonals is read like lengths and takes theirs whole: its one degree of freedom holds what both
/// flats share, not their scatter.
void lend(Stratum& s, Block block, const Stratum& lengths, bool use_priors, Fit& fit) {
  const bool whole = block == Block::diagonals || s.df == 0;
  if (!whole && (block == Block::lengths || s.df >= few_df || !use_priors)) return;
  const bool from_lengths = block != Block::lengths && lengths.df >= few_df;
  if (!from_lengths && !use_priors) {
    if (s.df == 0) fit.no_scatter.push_back(block);
    return;
  }
  const double variance = from_lengths ? lengths.variance_mm2 : std::pow(prior::feature_sd_mm, 2);
  const double df = whole && from_lengths ? lengths.df : prior::feature_df;
  if (whole) {
    s.variance_mm2 = variance;
    s.df = df;
  } else {
    s.variance_mm2 = (df * variance + s.df * s.variance_mm2) / (df + s.df);
    s.df += df;
  }
  if (s.interaction_df == 0 || block == Block::diagonals) {
    s.interaction_mm2 = from_lengths ? lengths.interaction_mm2 : variance;
    s.interaction_df = from_lengths ? lengths.interaction_df : df;
  }
  fit.lent.push_back({block, std::sqrt(variance), df, !from_lengths || !whole, from_lengths});
}

std::vector<Stratum> strata_of(const Balanced& b, const VectorXd& residual, bool use_priors, Fit& fit) {
  std::vector<Stratum> out;
  Stratum lengths;
  fit.lent.clear();
  fit.no_scatter.clear();
  for (Block block : blocks_in_order()) {
    const BlockView view{b.rows.of(block), block_residual(b.rows, block, fit.structure)};
    if (view.rows.empty()) continue;
    Stratum s = own_scatter(b, view, residual);
    lend(s, block, lengths, use_priors, fit);
    if (block == Block::lengths) lengths = s;
    out.push_back(std::move(s));
  }
  return out;
}

VectorXd row_variances(const Rows& rows, const std::vector<Stratum>& strata) {
  VectorXd v = rows.extra_variance;
  for (const Stratum& s : strata)
    for (Index i : s.rows) v[i] += std::max(s.variance_mm2, 1e-12);
  return v;
}

}  // namespace

Fit fit_balanced(const FitInput& in, const MatchedTable& table) {
  Fit fit;
  Values at = first_values();
  const Repeatability repeat = repeatability_of(*in.set, in.counts, in.use_priors);
  Balanced b;
  StagedFit staged;
  std::vector<PseudoReading> pseudo;
  std::vector<Stratum> strata;
  VectorXd variance;
  for (int round = 0; round < linearisation_rounds; ++round) {
    b = balanced_rows(in.cells, table, at);
    pseudo = steel_readings(*in.set, in.counts, in.true_size_mm, repeat, at);
    if (round == 0) {
      fit.without_priors = structure_of(b.rows, pseudo);
      if (in.use_priors) fit.priors = priors_needed(b.rows, pseudo);
    }
    pseudo.insert(pseudo.end(), fit.priors.begin(), fit.priors.end());
    fit.structure = structure_of(b.rows, pseudo);
    if (variance.size() == 0) variance = (b.rows.extra_variance.array() + std::pow(prior::feature_sd_mm, 2)).matrix();
    staged = solve_staged(b.rows, pseudo, fit.structure, [&](Block, const std::vector<Index>& rows) {
      VectorXd v(static_cast<Index>(rows.size()));
      for (std::size_t i = 0; i < rows.size(); ++i) v[static_cast<Index>(i)] = variance[rows[i]];
      return BlockCovariance{v, {}};
    });
    strata = strata_of(b, staged.residual, in.use_priors, fit);
    variance = row_variances(b.rows, strata);
    const Values before = at;
    at = staged.values;
    // Without a prior or a ring the jaw flat stays what the linearisation assumed.
    if (fit.structure.held[static_cast<std::size_t>(index(Term::jaw_flat_term))])
      at[index(Term::jaw_flat_term)] = before[index(Term::jaw_flat_term)];
  }
  fit.values = staged.values;
  fit.rows = b.rows;

  TwoStratumInput two;
  two.influence = staged.by_row;
  two.by_copy = b.by_copy;
  two.strata = strata;
  two.copy_edge = b.rows.copy_edge;
  two.copy_scale = b.rows.copy_scale;
  two.extra_variance = b.rows.extra_variance;
  if (in.use_priors) two.prior = in.copy_prior;
  if (b.rows.size() > 0) {
    const TwoStratumResult r = two_stratum(two);
    for (std::size_t k = 0; k < strata.size(); ++k)
      fit.parts.push_back(
          {r.by_stratum[k], VectorXd::Constant(term_count, std::max(strata[k].df, 1e-9)), false, false});
    if (!b.rows.extra_variance.isZero()) {
      const MatrixXd extra = staged.by_row * b.rows.extra_variance.asDiagonal() * staged.by_row.transpose();
      fit.parts.push_back({extra / static_cast<double>(table.copies.size()),
                           VectorXd::Constant(term_count, std::numeric_limits<double>::infinity()), false, false});
    }
    fit.parts.push_back({r.copy, r.df_copy, false, r.prior_used});
    fit.copy_prior_used = r.prior_used;
    if (table.copies.size() > 1) {
      fit.scatter["copy_edge_mm"] =
          std::sqrt(r.copy(index(Term::edge), index(Term::edge)) * static_cast<double>(table.copies.size()));
      fit.scatter["copy_scale"] =
          std::sqrt(r.copy(index(Term::scale_x), index(Term::scale_x)) * static_cast<double>(table.copies.size()));
    }
  }
  add_pseudo_parts(staged, pseudo, fit.parts);
  fit.method = table.copies.size() <= 2 && in.use_priors ? "two strata, moderated" : "two strata";
  fit.scatter["reading_mm"] = repeat.sd_mm;
  fit.reading_assumed = repeat.assumed;
  for (const Stratum& s : strata) {
    const Block block = b.rows.block[static_cast<std::size_t>(s.rows[0])];
    if (block == Block::lengths) {
      fit.scatter["feature_mm"] = std::sqrt(s.variance_mm2);
      if (s.interaction_df > 0) fit.scatter["feature_copy_mm"] = std::sqrt(s.interaction_mm2);
    } else if (block == Block::round) {
      fit.scatter["round_mm"] = std::sqrt(s.variance_mm2);
    }
  }

  VectorXd studentised = VectorXd::Zero(b.rows.size()), chance = VectorXd::Ones(b.rows.size());
  for (Block block : blocks_in_order())
    studentise_block(b.rows, block, fit.structure, staged.residual, studentised, chance);
  fit.studentised.assign(in.cells.size(), 0.0);
  fit.chance.assign(in.cells.size(), 1.0);
  for (std::size_t f = 0; f < table.features.size(); ++f)
    for (std::size_t i : table.features[f].cells) {
      fit.studentised[i] = studentised[static_cast<Index>(f)];
      fit.chance[i] = chance[static_cast<Index>(f)];
    }
  return fit;
}

}  // namespace fitwright
