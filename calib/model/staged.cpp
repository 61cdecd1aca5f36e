#include "model/staged.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <algorithm>
#include <stdexcept>

#include "stats/rank.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A null direction is taken to touch a parameter when its share, in units of the readings, exceeds this.
constexpr double touch_share = 1e-7;

constexpr Block all_blocks[] = {Block::lengths, Block::heights,   Block::round,
                                Block::lying,   Block::diagonals, Block::walls};

/// Terms of the caliper are solved with the lengths; the block in which each term is solved.
Block home_of(Term term, bool flat_has_reference) {
  if (term == Term::jaw_flat_term && flat_has_reference) return Block::lengths;
  for (Block b : all_blocks)
    for (Term t : terms_of(b))
      if (t == term) return b;
  throw std::logic_error("a term without a block");
}

/// Whether a steel ring bears on the jaw flat: it is then fixed before any printed hole is looked at.
bool flat_has_reference(const std::vector<PseudoReading>& pseudo) {
  for (const PseudoReading& p : pseudo)
    if (!p.is_prior && p.coefficients[index(Term::jaw_flat_term)] != 0) return true;
  return false;
}

/// The last block among the homes of the terms that a pseudo-reading bears on: it is used there.
Block home_of(const PseudoReading& p, bool reference) {
  Block last = Block::lengths;
  for (int t = 0; t < term_count; ++t)
    if (p.coefficients[t] != 0) last = std::max(last, home_of(static_cast<Term>(t), reference));
  return last;
}

std::vector<int> own_terms(Block block, const std::vector<bool>& in_play, bool reference) {
  std::vector<int> own;
  for (int t = 0; t < term_count; ++t)
    if (in_play[static_cast<std::size_t>(t)] && home_of(static_cast<Term>(t), reference) == block) own.push_back(t);
  return own;
}

/// Rows and pseudo-readings of a block stacked, over all terms.
MatrixXd stacked(const Rows& rows, const std::vector<Index>& at, const std::vector<PseudoReading>& pseudo, Block block,
                 bool reference) {
  std::vector<Eigen::RowVectorXd> lines;
  for (Index i : at) lines.push_back(rows.design.row(i));
  for (const PseudoReading& p : pseudo)
    if (home_of(p, reference) == block) lines.push_back(p.coefficients.transpose());
  MatrixXd out(static_cast<Index>(lines.size()), term_count);
  for (std::size_t i = 0; i < lines.size(); ++i) out.row(static_cast<Index>(i)) = lines[i];
  return out;
}

std::vector<Term> members_of(const VectorXd& direction) {
  std::vector<Term> members;
  for (int t = 0; t < term_count; ++t)
    if (direction[t] != 0) members.push_back(static_cast<Term>(t));
  return members;
}

/// Sets of terms with a member in common made one; each sorted.
std::vector<std::vector<Term>> joined(std::vector<std::vector<Term>> sets) {
  std::vector<std::vector<Term>> out;
  for (std::vector<Term>& next : sets) {
    for (auto it = out.begin(); it != out.end();) {
      const bool meets = std::any_of(next.begin(), next.end(),
                                     [&](Term t) { return std::find(it->begin(), it->end(), t) != it->end(); });
      if (meets) {
        next.insert(next.end(), it->begin(), it->end());
        it = out.erase(it);
      } else {
        ++it;
      }
    }
    std::sort(next.begin(), next.end());
    next.erase(std::unique(next.begin(), next.end()), next.end());
    out.push_back(std::move(next));
  }
  return out;
}

MatrixXd columns(const MatrixXd& m, const std::vector<int>& which) {
  MatrixXd out(m.rows(), static_cast<Index>(which.size()));
  for (std::size_t k = 0; k < which.size(); ++k) out.col(static_cast<Index>(k)) = m.col(which[k]);
  return out;
}

}  // namespace

std::vector<Index> Rows::of(Block wanted) const {
  std::vector<Index> at;
  for (std::size_t i = 0; i < block.size(); ++i)
    if (block[i] == wanted) at.push_back(static_cast<Index>(i));
  return at;
}

Rows structural(const Rows& read) {
  Rows rows = read;
  for (Term t : {Term::zero, Term::inside}) {
    auto column = rows.design.col(index(t));
    column = column.array().round().matrix().eval();
  }
  for (const auto& [scale, home] : {std::pair{Term::scale_x, Block::lengths}, std::pair{Term::scale_y, Block::lengths},
                                    std::pair{Term::scale_z, Block::heights}}) {
    bool read_along = false;
    for (Index i : rows.of(home)) read_along = read_along || rows.design(i, index(scale)) != 0;
    if (!read_along) rows.design.col(index(scale)).setZero();
  }
  for (Index i = 0; i < rows.size(); ++i) {
    double& flat = rows.design(i, index(Term::jaw_flat_term));
    if (flat != 0) flat = rows.design(i, index(Term::hole_c1)) + rows.design(i, index(Term::holeh_c1));
  }
  return rows;
}

Structure structure_of(const Rows& read, const std::vector<PseudoReading>& pseudo) {
  const Rows rows = structural(read);
  const bool reference = flat_has_reference(pseudo);
  Structure s;
  s.in_play.assign(term_count, false);
  s.held.assign(term_count, false);
  for (int t = 0; t < term_count; ++t) {
    bool touched = rows.size() > 0 && (rows.design.col(t).array() != 0).any();
    for (const PseudoReading& p : pseudo) touched = touched || p.coefficients[t] != 0;
    s.in_play[static_cast<std::size_t>(t)] = touched;
  }

  std::vector<VectorXd> directions;
  for (Block block : all_blocks) {
    const std::vector<int> own = own_terms(block, s.in_play, reference);
    const MatrixXd all = stacked(rows, rows.of(block), pseudo, block, reference);
    if (own.empty()) continue;
    const MatrixXd x = columns(all, own);
    const Separability sep = separability(x);
    std::vector<int> free;  // own terms that are solved
    std::vector<std::vector<Term>> open_here;
    std::vector<bool> is_pivot(own.size(), false);
    MatrixXd open = sep.null_space;
    for (Index k = 0; k < open.cols(); ++k) {
      // Hold the last member: caliper and scales stay, local terms give way. Then free the other directions of it.
      Index pivot = open.rows() - 1;
      while (pivot >= 0 && std::abs(open(pivot, k)) <= touch_share * open.col(k).cwiseAbs().maxCoeff()) --pivot;
      if (pivot < 0) throw std::logic_error("null space with dependent columns");
      is_pivot[static_cast<std::size_t>(pivot)] = true;
      s.held[static_cast<std::size_t>(own[static_cast<std::size_t>(pivot)])] = true;
      for (Index m = k + 1; m < open.cols(); ++m) open.col(m) -= open.col(k) * (open(pivot, m) / open(pivot, k));
      VectorXd direction = VectorXd::Zero(term_count);
      for (std::size_t j = 0; j < own.size(); ++j) direction[own[j]] = sep.null_space(static_cast<Index>(j), k);
      directions.push_back(direction);
      open_here.push_back(members_of(direction));
    }
    for (std::size_t j = 0; j < own.size(); ++j)
      if (!is_pivot[j]) free.push_back(own[j]);
    // Directions left open by earlier blocks: this block's own terms move along with them, or the direction would be
    // resolved by readings that must not resolve it; either way they inherit the doubt.
    const bool none = free.empty() || all.rows() == 0;
    const Eigen::ColPivHouseholderQR<MatrixXd> qr(none ? MatrixXd(MatrixXd::Ones(1, 1)) : columns(all, free));
    for (std::size_t k = 0; !none && k < directions.size(); ++k) {
      VectorXd& direction = directions[k];
      const VectorXd shift = all * direction;
      if (shift.norm() == 0) continue;
      const VectorXd answer = qr.solve(shift);
      const VectorXd before = direction;
      for (std::size_t j = 0; j < free.size(); ++j)
        if (std::abs(answer[static_cast<Index>(j)]) > touch_share * std::max(1.0, before.cwiseAbs().maxCoeff()))
          direction[free[j]] -= answer[static_cast<Index>(j)];
      if (direction == before) continue;
      // What moves here, and what moved it: the earlier members that this block's readings depend on.
      std::vector<Term> members = members_of(direction - before);
      for (Term t : members_of(before))
        if ((all.col(index(t)).array() != 0).any()) members.push_back(t);
      open_here.push_back(std::move(members));
    }
    for (std::vector<Term>& group : joined(std::move(open_here))) s.groups.push_back({block, std::move(group)});
  }

  s.unresolved.directions = MatrixXd(term_count, static_cast<Index>(directions.size()));
  for (std::size_t k = 0; k < directions.size(); ++k)
    s.unresolved.directions.col(static_cast<Index>(k)) = directions[k];
  s.unresolved.term.assign(term_count, false);
  for (int t = 0; t < term_count; ++t)
    for (const VectorXd& d : directions)
      if (d[t] != 0) s.unresolved.term[static_cast<std::size_t>(t)] = true;
  return s;
}

StagedFit solve_staged(const Rows& rows, const std::vector<PseudoReading>& pseudo, const Structure& structure,
                       const std::function<BlockCovariance(Block, const std::vector<Index>&)>& covariance_of) {
  const bool reference = flat_has_reference(pseudo);
  const auto np = static_cast<Index>(pseudo.size());
  StagedFit fit;
  fit.by_row = MatrixXd::Zero(term_count, rows.size());
  fit.by_pseudo = MatrixXd::Zero(term_count, np);

  // References with the jaws closed or on an outside gauge come first and stand: nothing printed moves them.
  double weight = 0;
  for (const PseudoReading& p : pseudo)
    if (!p.is_prior && p.coefficients[index(Term::zero)] == 1 && p.coefficients.cwiseAbs().sum() == 1)
      weight += 1 / (p.u * p.u);
  const bool zero_given = weight > 0;
  for (Index k = 0; zero_given && k < np; ++k) {
    const PseudoReading& p = pseudo[static_cast<std::size_t>(k)];
    if (p.is_prior || p.coefficients[index(Term::zero)] != 1 || p.coefficients.cwiseAbs().sum() != 1) continue;
    const double share = 1 / (p.u * p.u) / weight;
    fit.values[index(Term::zero)] += share * p.value;
    fit.by_pseudo(index(Term::zero), k) = share;
  }

  for (Block block : all_blocks) {
    std::vector<int> free;
    for (int t : own_terms(block, structure.in_play, reference))
      if (!structure.held[static_cast<std::size_t>(t)] && !(zero_given && t == index(Term::zero))) free.push_back(t);
    if (free.empty()) continue;
    const std::vector<Index> at = rows.of(block);
    const auto n = static_cast<Index>(at.size());
    const auto p = static_cast<Index>(free.size());
    MatrixXd x(n, p), given(n, term_count);
    VectorXd y(n);
    for (Index i = 0; i < n; ++i) {
      given.row(i) = rows.design.row(at[static_cast<std::size_t>(i)]);
      y[i] = rows.y[at[static_cast<std::size_t>(i)]];
    }
    for (Index j = 0; j < p; ++j) {
      x.col(j) = given.col(free[static_cast<std::size_t>(j)]);
      given.col(free[static_cast<std::size_t>(j)]).setZero();
    }
    MatrixXd weighted = MatrixXd::Zero(n, p);  // V^-1 X
    if (n > 0) {
      const BlockCovariance v = covariance_of(block, at);
      if (v.full.size() > 0)
        weighted = v.full.llt().solve(x);
      else
        weighted = v.diagonal.cwiseInverse().asDiagonal() * x;
    }
    MatrixXd normal = x.transpose() * weighted;
    VectorXd right = weighted.transpose() * (y - given * fit.values);
    std::vector<Index> used;
    MatrixXd pull(p, np);  // columns of the pseudo-readings, weighted
    pull.setZero();
    for (Index k = 0; k < np; ++k) {
      const PseudoReading& q = pseudo[static_cast<std::size_t>(k)];
      if (home_of(q, reference) != block) continue;
      VectorXd c(p);
      for (Index j = 0; j < p; ++j) c[j] = q.coefficients[free[static_cast<std::size_t>(j)]];
      if (c.isZero()) continue;
      Coefficients rest = q.coefficients;
      for (int t : free) rest[t] = 0;
      const double w = 1 / (q.u * q.u);
      normal += w * c * c.transpose();
      right += w * c * (q.value - rest.dot(fit.values));
      pull.col(k) = w * c;
      used.push_back(k);
    }
    // Scaled to unit diagonal before the Cholesky: columns range from 1/20 to 200.
    const VectorXd scale = normal.diagonal().cwiseSqrt().cwiseInverse();
    const MatrixXd scaled = scale.asDiagonal() * normal * scale.asDiagonal();
    const MatrixXd inverse = scale.asDiagonal() * scaled.ldlt().solve(MatrixXd::Identity(p, p)) * scale.asDiagonal();
    const VectorXd solved = inverse * right;
    // Influence: of the block's own rows and pseudo-readings, and through what was given.
    MatrixXd own_by_row = MatrixXd::Zero(p, rows.size());
    const MatrixXd gain = inverse * weighted.transpose();
    for (Index i = 0; i < n; ++i) own_by_row.col(at[static_cast<std::size_t>(i)]) = gain.col(i);
    MatrixXd own_by_pseudo = inverse * pull;
    MatrixXd through = gain * given;  // p x term_count
    for (Index k : used) {
      Coefficients rest = pseudo[static_cast<std::size_t>(k)].coefficients;
      for (int t : free) rest[t] = 0;
      if (!rest.isZero()) through += own_by_pseudo.col(k) * rest.transpose();
    }
    own_by_row -= through * fit.by_row;
    own_by_pseudo -= through * fit.by_pseudo;
    for (Index j = 0; j < p; ++j) {
      const int t = free[static_cast<std::size_t>(j)];
      fit.values[t] = solved[j];
      fit.by_row.row(t) = own_by_row.row(j);
      fit.by_pseudo.row(t) = own_by_pseudo.row(j);
    }
  }
  fit.residual = rows.y - rows.design * fit.values;
  return fit;
}

BlockResidual block_residual(const Rows& rows, Block block, const Structure& structure) {
  const std::vector<Index> at = rows.of(block);
  std::vector<int> own;
  // Earlier parameters that this block would move count as its own here: their error is not noise of the block.
  for (int t = 0; t < term_count; ++t)
    if (structure.in_play[static_cast<std::size_t>(t)]) own.push_back(t);
  std::vector<int> wanted;
  const auto& home = terms_of(block);
  for (int t : own)
    if (std::find(home.begin(), home.end(), static_cast<Term>(t)) != home.end()) wanted.push_back(t);
  MatrixXd x(static_cast<Index>(at.size()), static_cast<Index>(wanted.size()));
  for (std::size_t i = 0; i < at.size(); ++i)
    for (std::size_t j = 0; j < wanted.size(); ++j)
      x(static_cast<Index>(i), static_cast<Index>(j)) = rows.design(at[i], wanted[j]);
  for (Index j = 0; j < x.cols(); ++j)
    if (const double norm = x.col(j).norm(); norm > 0) x.col(j) /= norm;
  BlockResidual out;
  out.projector_q = MatrixXd(x.rows(), 0);
  out.df = static_cast<int>(x.rows());
  if (x.size() == 0) return out;
  Eigen::ColPivHouseholderQR<MatrixXd> qr(x);
  qr.setThreshold(separability_tolerance);
  out.projector_q = qr.householderQ() * MatrixXd::Identity(x.rows(), qr.rank());
  out.df -= static_cast<int>(qr.rank());
  return out;
}

}  // namespace fitwright
