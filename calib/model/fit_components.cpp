#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "model/fit.hpp"
#include "model/priors.hpp"
#include "stats/rank.hpp"
#include "stats/reml.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rounds of linearisation and variance components together: the equations are nearly linear.
constexpr int rounds = 3;
/// A block with fewer degrees of freedom between its features than this shares the scatter of the lengths.
constexpr int few_df = 4;

/// Blocks that share their variance components.
std::vector<std::vector<Block>> families_of(const Rows& rows, const std::vector<PlaceCell>& cells,
                                            const Structure& structure, Fit& fit) {
  std::vector<std::vector<Block>> families;
  fit.lent.clear();
  for (Block block : blocks_in_order()) {
    const std::vector<Index> at = rows.of(block);
    if (at.empty()) continue;
    std::set<std::string> features;
    for (Index i : at) features.insert(cells[static_cast<std::size_t>(i)].effect_key);
    const int own = static_cast<int>(at.size()) - block_residual(rows, block, structure).df;
    const bool enough = static_cast<int>(features.size()) - own >= few_df && block != Block::diagonals;
    if (families.empty() || enough) {
      families.push_back({block});
    } else {
      families[0].push_back(block);
      fit.lent.push_back({block, 0, 0, false, true});
    }
  }
  return families;
}

/// Effects bound to features: of each named face (a feature's effect is the sum of its two faces', outward material,
/// so + on outsides and - on slots), or of the feature where no faces are named. Unit variance a row.
MatrixXd feature_factor(const std::vector<PlaceCell>& cells, const std::vector<Index>& at, Index n) {
  std::map<std::string, Index> column;
  const auto of = [&](const std::string& key) {
    return column.try_emplace(key, static_cast<Index>(column.size())).first->second;
  };
  std::vector<std::tuple<Index, Index, double>> entries;
  for (Index i : at) {
    const PlaceCell& c = cells[static_cast<std::size_t>(i)];
    if (c.feature.edge_a.empty() || c.feature.edge_b.empty()) {
      entries.emplace_back(i, of("feature " + c.effect_key), 1.0);
      continue;
    }
    const double sign = (c.place.kind == Kind::inner ? -1 : 1) / std::sqrt(2.0);
    const std::string lay = '|' + std::to_string(c.turned_deg);
    entries.emplace_back(i, of("face " + c.feature.edge_a + lay), sign);
    entries.emplace_back(i, of("face " + c.feature.edge_b + lay), sign);
  }
  MatrixXd z = MatrixXd::Zero(n, static_cast<Index>(column.size()));
  for (const auto& [row, col, value] : entries) z(row, col) += value;
  return z;
}

/// Components of one family: bound to features and free, when copies repeat a feature in the same lay; else one.
void add_family(const std::vector<PlaceCell>& cells, const std::vector<Index>& at, Index n, const std::string& name,
                std::vector<VarianceComponent>& out) {
  std::set<std::string> keys;
  for (Index i : at) keys.insert(cells[static_cast<std::size_t>(i)].effect_key);
  VectorXd own = VectorXd::Zero(n);
  for (Index i : at) own[i] = 1;
  const bool repeated = keys.size() < at.size();
  if (repeated) out.push_back({name + ", bound to features", feature_factor(cells, at, n), {}, std::nullopt});
  out.push_back(diagonal_component(name, own));  // without repeats the rows were freed of shared faces beforehand
}

/// Where no feature is repeated in the same lay, the share of scatter that is bound to faces cannot be told from the
/// rest; it is taken as typical, and the rows of the lengths are combined so that their scatter is independent again.
void free_of_shared_faces(const std::vector<PlaceCell>& cells, Rows& rows) {
  const std::vector<Index> at = rows.of(Block::lengths);
  std::set<std::string> keys;
  for (Index i : at) keys.insert(cells[static_cast<std::size_t>(i)].effect_key);
  if (at.empty() || keys.size() < at.size()) return;
  const MatrixXd z = feature_factor(cells, at, rows.size());
  const auto n = static_cast<Index>(at.size());
  MatrixXd own(n, z.cols());
  for (Index i = 0; i < n; ++i) own.row(i) = z.row(at[static_cast<std::size_t>(i)]);
  const MatrixXd v = prior::edge_share * own * own.transpose() + (1 - prior::edge_share) * MatrixXd::Identity(n, n);
  const Eigen::LLT<MatrixXd> llt(v);
  const auto whiten = [&](auto&& column) {
    VectorXd part(n);
    for (Index i = 0; i < n; ++i) part[i] = column[at[static_cast<std::size_t>(i)]];
    llt.matrixL().solveInPlace(part);
    for (Index i = 0; i < n; ++i) column[at[static_cast<std::size_t>(i)]] = part[i];
  };
  for (int t = 0; t < term_count; ++t) whiten(rows.design.col(t));
  whiten(rows.y);
  whiten(rows.copy_edge);
  whiten(rows.copy_scale);
}

void add_copies(const Rows& rows, const FitInput& in, Fit& fit, std::vector<VarianceComponent>& out) {
  std::map<int, int> level;
  for (const PlaceCell& c : in.cells) level.try_emplace(c.copy, 0);
  int next = 0;
  for (auto& [copy, l] : level) l = next++;
  std::vector<int> of_row;
  for (const PlaceCell& c : in.cells) of_row.push_back(level[c.copy]);
  const bool few = level.size() <= 2;
  if (level.size() == 1 && !in.use_priors) return;
  auto edge = grouped_component("edge growth of copies", of_row, rows.copy_edge);
  auto scale = grouped_component("scale of copies", of_row, rows.copy_scale);
  fit.copy_prior_used = few && in.use_priors;
  if (fit.copy_prior_used) {
    edge.prior = VariancePrior{std::pow(in.copy_prior.edge_sd_mm, 2), in.copy_prior.df};
    scale.prior = VariancePrior{std::pow(in.copy_prior.scale_sd, 2), in.copy_prior.df};
  }
  for (auto* c : {&edge, &scale}) {
    if (c->factor.isZero()) continue;  // heights and walls alone do not see it
    out.push_back(std::move(*c));
  }
}

/// Terms whose columns are independent, in the order of solving: the fixed effects.
std::vector<int> independent_terms(const Rows& rows, const Structure& structure) {
  std::vector<int> kept;
  MatrixXd x(rows.size(), 0);
  for (int t = 0; t < term_count; ++t) {
    if (!structure.in_play[static_cast<std::size_t>(t)] || rows.design.col(t).isZero()) continue;
    MatrixXd more(rows.size(), x.cols() + 1);
    more << x, rows.design.col(t);
    if (separability(more).rank <= x.cols()) continue;
    x = std::move(more);
    kept.push_back(t);
  }
  return kept;
}

MatrixXd columns(const MatrixXd& m, const std::vector<int>& which) {
  MatrixXd out(m.rows(), static_cast<Index>(which.size()));
  for (std::size_t k = 0; k < which.size(); ++k) out.col(static_cast<Index>(k)) = m.col(which[k]);
  return out;
}

MatrixXd covariance_of(const std::vector<VarianceComponent>& components, const VectorXd& theta, const VectorXd& extra,
                       const std::vector<Index>& at) {
  const auto n = static_cast<Index>(at.size());
  MatrixXd v = MatrixXd::Zero(n, n);
  for (Index i = 0; i < n; ++i) v(i, i) = extra[at[static_cast<std::size_t>(i)]];
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double t = theta[static_cast<Index>(k)];
    if (t == 0) continue;
    if (components[k].diagonal.size() > 0) {
      for (Index i = 0; i < n; ++i) v(i, i) += t * components[k].diagonal[at[static_cast<std::size_t>(i)]];
      continue;
    }
    MatrixXd z(n, components[k].factor.cols());
    for (Index i = 0; i < n; ++i) z.row(i) = components[k].factor.row(at[static_cast<std::size_t>(i)]);
    v += t * z * z.transpose();
  }
  // A family without any scatter (all readings on the model) would leave V singular: the display's rounding remains.
  for (Index i = 0; i < n; ++i) v(i, i) += std::pow(prior::resolution_sd_mm, 2) * 1e-3;
  return v;
}

/// REML, and when the readings leave a component without any information, once more with typical scatters behind it.
Reml components_or_typical(const MatrixXd& x, const VectorXd& y, std::vector<VarianceComponent>& components,
                           bool& typical) {
  Result<Reml> fit = reml(x, y, components);
  typical = !fit.ok();
  if (fit.ok()) return std::move(fit).value();
  for (VarianceComponent& c : components)
    if (!c.prior) c.prior = VariancePrior{std::pow(prior::feature_sd_mm, 2), prior::feature_df};
  fit = reml(x, y, components);
  if (!fit.ok()) throw std::logic_error("variance components without an answer: " + fit.problems()[0].what);
  return std::move(fit).value();
}

/// The readings' share of the uncertainty: scatter between copies on its own where it leans on its prior, the rest.
void add_data_parts(const MatrixXd& data, const VectorXd& widen, const MatrixXd& by_row,
                    const std::vector<VarianceComponent>& components, const Reml& variances, Fit& fit) {
  MatrixXd copies = MatrixXd::Zero(term_count, term_count);
  VectorXd bottom = VectorXd::Zero(term_count);  // sum of share^2 / df over the two components of copies
  for (std::size_t k = 0; fit.copy_prior_used && k < components.size(); ++k) {
    if (!components[k].name.ends_with("of copies")) continue;
    const auto i = static_cast<Index>(k);
    const double theta = variances.variances[i];
    if (theta <= 0) continue;
    const MatrixXd spread = widen.asDiagonal() * by_row * components[k].factor;
    const MatrixXd share = theta * spread * spread.transpose();
    copies += share;
    const double half_inverse_df = variances.variance_covariance(i, i) / (2 * theta * theta);
    bottom += (share.diagonal().array().square() * half_inverse_df).matrix();
  }
  const double certain = std::numeric_limits<double>::infinity();
  UncertaintyPart rest{data - copies, VectorXd::Constant(term_count, certain), false, false};
  UncertaintyPart of_copies{copies, VectorXd::Constant(term_count, certain), false, true};
  for (int t = 0; t < term_count; ++t) {
    if (data(t, t) <= 0) continue;
    const double whole_df = linear_estimator_variance(by_row.row(t).transpose(), components, variances).df;
    if (bottom[t] > 0) of_copies.df[t] = copies(t, t) * copies(t, t) / bottom[t];
    // What the whole's degrees of freedom leave for the rest.
    const double left = data(t, t) * data(t, t) / whole_df - bottom[t];
    if (left > 0) rest.df[t] = std::max(1.0, rest.covariance(t, t) * rest.covariance(t, t) / left);
  }
  fit.parts.push_back(std::move(rest));
  if (fit.copy_prior_used) fit.parts.push_back(std::move(of_copies));
}

}  // namespace

Fit fit_components(const FitInput& in) {
  Fit fit;
  const Repeatability repeat = repeatability_of(*in.set, in.counts, in.use_priors);
  Values at = first_values();
  StagedFit staged;
  std::vector<PseudoReading> pseudo;
  std::vector<VarianceComponent> components;
  Reml variances;
  std::vector<int> fixed;
  bool typical = false;
  for (int round = 0; round < rounds; ++round) {
    fit.rows = rows_of(in.cells, at);
    Rows rows = fit.rows;
    free_of_shared_faces(in.cells, rows);
    const Index n = rows.size();
    pseudo = steel_readings(*in.set, in.counts, in.true_size_mm, repeat, at);
    if (round == 0) {
      fit.without_priors = structure_of(fit.rows, pseudo);
      if (in.use_priors) fit.priors = priors_needed(fit.rows, pseudo);
    }
    pseudo.insert(pseudo.end(), fit.priors.begin(), fit.priors.end());
    fit.structure = structure_of(rows, pseudo);
    components.clear();
    add_copies(rows, in, fit, components);
    for (const auto& family : families_of(rows, in.cells, fit.structure, fit)) {
      std::vector<Index> members;
      for (Block b : family) {
        const auto more = rows.of(b);
        members.insert(members.end(), more.begin(), more.end());
      }
      add_family(in.cells, members, n, std::string(word(family[0])), components);
    }
    fixed = independent_terms(rows, fit.structure);
    variances = components_or_typical(columns(rows.design, fixed), rows.y, components, typical);
    staged = solve_staged(rows, pseudo, fit.structure, [&](Block, const std::vector<Index>& members) {
      return BlockCovariance{{}, covariance_of(components, variances.variances, fit.rows.extra_variance, members)};
    });
    const Values before = at;
    at = staged.values;
    if (fit.structure.held[static_cast<std::size_t>(index(Term::jaw_flat_term))])
      at[index(Term::jaw_flat_term)] = before[index(Term::jaw_flat_term)];
  }
  fit.values = staged.values;
  if (typical && !in.use_priors)
    fit.no_scatter = blocks_in_order();
  else if (typical)
    for (Block b : blocks_in_order()) fit.lent.push_back({b, prior::feature_sd_mm, prior::feature_df, true, false});

  // Kenward and Roger's covariance exceeds the plug-in one by what the variances' own uncertainty adds to weights.
  VectorXd widen = VectorXd::Ones(term_count);
  for (std::size_t k = 0; k < fixed.size(); ++k) {
    const auto i = static_cast<Index>(k);
    widen[fixed[k]] = std::sqrt(std::max(1.0, variances.kenward_roger(i, i) / variances.covariance(i, i)));
  }
  MatrixXd data = linear_estimator_covariance(staged.by_row, components, variances.variances);
  data = widen.asDiagonal() * data * widen.asDiagonal();
  add_data_parts(data, widen, staged.by_row, components, variances, fit);
  if (!fit.rows.extra_variance.isZero())
    fit.parts.push_back({staged.by_row * fit.rows.extra_variance.asDiagonal() * staged.by_row.transpose(),
                         VectorXd::Constant(term_count, std::numeric_limits<double>::infinity()), false, false});
  add_pseudo_parts(staged, pseudo, fit.parts);

  fit.method = fit.copy_prior_used ? "REML, moderated, Kenward-Roger" : "REML, Kenward-Roger";
  fit.scatter["reading_mm"] = repeat.sd_mm;
  fit.reading_assumed = repeat.assumed;
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double sd = std::sqrt(variances.variances[static_cast<Index>(k)]);
    const std::string& name = components[k].name;
    if (name == "edge growth of copies")
      fit.scatter["copy_edge_mm"] = sd;
    else if (name == "scale of copies")
      fit.scatter["copy_scale"] = sd;
    else if (name == "lengths, bound to features")
      fit.scatter["feature_mm"] = sd;
    else if (name == "lengths")
      fit.scatter[fit.scatter.count("feature_mm") ? "feature_copy_mm" : "feature_mm"] = sd;
    else if (name == "round features")
      fit.scatter["round_mm"] = sd;
  }
  for (LentScatter& l : fit.lent)
    if (!l.is_prior) l.sd_mm = fit.scatter.count("feature_mm") ? fit.scatter["feature_mm"] : 0.0;

  VectorXd studentised = VectorXd::Zero(fit.rows.size()), chance = VectorXd::Ones(fit.rows.size());
  for (Block block : blocks_in_order())
    studentise_block(fit.rows, block, fit.structure, staged.residual, studentised, chance);
  fit.studentised.assign(studentised.begin(), studentised.end());
  fit.chance.assign(chance.begin(), chance.end());
  return fit;
}

}  // namespace fitwright
