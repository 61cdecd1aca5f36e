#include "accuracy/optimum.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

#include "model/estimates.hpp"
#include "model/priors.hpp"
#include "practice/true_size.hpp"

namespace fitwright::accuracy {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Step of the central differences, in the unit of each parameter: errors of third order and of rounding both stay
/// below 1e-8 of a coefficient.
constexpr double difference_step = 1e-5;
/// A column below this bears on no reading.
constexpr double no_bearing = 1e-9;

enum class Group { lengths, heights, round, diagonals, walls };

Group group_of(Kind kind, Axis axis) {
  switch (kind) {
    case Kind::peg:
    case Kind::hole:
    case Kind::pin:
      return Group::round;
    case Kind::wall:
      return Group::walls;
    case Kind::diag_plus:
    case Kind::diag_minus:
    case Kind::flats_plus:
    case Kind::flats_minus:
      return Group::diagonals;
    default:
      return axis == Axis::z ? Group::heights : Group::lengths;
  }
}

struct Unknown {
  std::string name;
  Group group;
  std::function<void(Truth&, double)> shift;
  const prior::Normal* prior = nullptr;
};

double half_square(double flat_mm) { return flat_mm * flat_mm / 2; }

const std::vector<Unknown>& unknowns() {
  static const std::vector<Unknown> all{
      {name::caliper_zero, Group::lengths, [](Truth& t, double d) { t.caliper_zero_mm += d; }},
      {name::inside_bias, Group::lengths, [](Truth& t, double d) { t.inside_bias_mm += d; }, &prior::inside_bias_mm},
      {name::scale_x, Group::lengths, [](Truth& t, double d) { t.scale.x += d; }},
      {name::scale_y, Group::lengths, [](Truth& t, double d) { t.scale.y += d; }},
      {name::edge_growth, Group::lengths, [](Truth& t, double d) { t.edge_growth_mm += d; }},
      {name::flare, Group::lengths, [](Truth& t, double d) { t.flare_mm += d; }},
      {name::scale_z, Group::heights, [](Truth& t, double d) { t.scale.z += d; }},
      {name::z0, Group::heights, [](Truth& t, double d) { t.z0_mm += d; }},
      {"half the square of the flats", Group::round,
       [](Truth& t, double d) { t.jaw_flat_mm = std::sqrt(std::max(0.0, 2 * (half_square(t.jaw_flat_mm) + d))); },
       &prior::jaw_flat_term_mm2},
      {name::hole_c0, Group::round, [](Truth& t, double d) { t.hole_c0_mm += d; }},
      {name::hole_c1, Group::round, [](Truth& t, double d) { t.hole_c1_mm2 += d; }, &prior::hole_c1_mm2},
      {name::peg_p0, Group::round, [](Truth& t, double d) { t.peg_p0_mm += d; }, &prior::peg_p0_mm},
      {name::peg_p1, Group::round, [](Truth& t, double d) { t.peg_p1_mm2 += d; }, &prior::peg_p1_mm2},
      {name::skew_xy, Group::diagonals, [](Truth& t, double d) { t.skew_rad += d; }},
      {name::wall, Group::walls, nullptr},
  };
  return all;
}

double true_value(const Unknown& u, const Truth& t) {
  if (u.name == name::inside_bias) return t.inside_bias_mm;
  if (u.name == name::hole_c1) return t.hole_c1_mm2;
  if (u.name == name::peg_p0) return t.peg_p0_mm;
  if (u.name == name::peg_p1) return t.peg_p1_mm2;
  return half_square(t.jaw_flat_mm);
}

/// One place on one copy (steel: on none).
struct Spot {
  const TrueFeature* feature = nullptr;
  int copy = 0, turned_deg = 0;
  double mean_mm = 0;
  int readings = 0;

  [[nodiscard]] Reading lying() const {
    Reading r;
    r.feature.kind = feature->kind;
    r.feature.axis = feature->axis;
    r.turned_deg = turned_deg;
    return r;
  }
};

/// What the caliper shows on average.
double shown_mm(const Truth& t, const Spot& spot, const CopyErrors& copy_less_truth) {
  const TrueFeature& f = *spot.feature;
  const Reading lying = spot.lying();
  const CopyErrors copy{t.edge_growth_mm + copy_less_truth.edge_growth_mm, copy_less_truth.scale};
  const double size = true_size_mm(t, scales_of(t), f, machine_kind(lying), machine_axis(lying), copy);
  if (f.kind == Kind::pin) return size - t.pin_step_mm / 2;  // the largest shank that enters
  if (f.kind == Kind::pitch) return size;
  if (!uses_inside_jaws(f.kind)) return size + t.caliper_zero_mm;
  const double chord = f.kind == Kind::inner ? size : std::sqrt(size * size - t.jaw_flat_mm * t.jaw_flat_mm);
  return chord + t.inside_bias_mm + t.caliper_zero_mm;
}

std::vector<Spot> spots_of(const Truth& truth, const ReadingSet& set) {
  std::map<std::string, const TrueFeature*> by_id;
  for (const TrueFeature& f : truth.features) by_id[f.id] = &f;
  std::map<std::pair<std::string, int>, std::size_t> at;
  std::vector<Spot> spots;
  for (const Reading& r : set.rows) {
    const int copy = is_steel(r.feature.kind) ? 0 : r.copy;
    const auto [found, fresh] = at.try_emplace({r.feature.id, copy}, spots.size());
    if (fresh) spots.push_back({by_id.at(r.feature.id), copy, copy ? r.turned_deg : 0, 0, 0});
    spots[found->second].mean_mm += r.reading_mm;
    ++spots[found->second].readings;
  }
  for (Spot& s : spots) s.mean_mm /= s.readings;
  return spots;
}

/// Everything about the readings, linear about the truth.
struct Linear {
  std::vector<Spot> spots;
  std::vector<std::size_t> unknown;  ///< those that bear on some reading
  MatrixXd slopes;                   ///< spots x unknown
  VectorXd off;                      ///< reading - expected at the truth
  MatrixXd covariance;
};

double own_variance(const Truth& t, const Spot& s) {
  const double rounding = t.resolution_mm * t.resolution_mm / 12;
  double v = (t.sd_reading_mm * t.sd_reading_mm + rounding) / s.readings;
  const Kind kind = s.feature->kind;
  if (kind == Kind::gauge || kind == Kind::ring) v += prior::reference_u_mm * prior::reference_u_mm;
  if (is_steel(kind)) return v;
  if (kind == Kind::pin) v = t.pin_step_mm * t.pin_step_mm / 12;
  return v + t.sd_feature_copy_mm * t.sd_feature_copy_mm;
}

MatrixXd covariance_of(const Truth& t, const std::vector<Spot>& spots) {
  const auto n = static_cast<Index>(spots.size());
  std::map<std::string, VectorXd> effects;  // each with unit variance
  const auto add = [&](const std::string& label, Index i, double size) {
    auto& e = effects.try_emplace(label, VectorXd::Zero(n)).first->second;
    e[i] += size;
  };
  MatrixXd v = MatrixXd::Zero(n, n);
  for (Index i = 0; i < n; ++i) {
    const Spot& s = spots[static_cast<std::size_t>(i)];
    v(i, i) = own_variance(t, s);
    if (is_steel(s.feature->kind)) continue;
    const std::string lay = t.turned_deg.empty() ? "" : '|' + std::to_string(s.turned_deg);
    if (shares_edges(*s.feature)) {
      const double sign = s.feature->kind == Kind::inner ? -1 : 1;
      for (const std::string& edge : {s.feature->edge_a, s.feature->edge_b})
        add("face " + edge + lay, i, sign * t.sd_feature_mm / std::numbers::sqrt2);
    } else {
      add("feature " + s.feature->id + lay, i, t.sd_feature_mm);
    }
    const std::string copy = std::to_string(s.copy);
    const double h = difference_step;
    const double by_edge = (shown_mm(t, s, {h, 0}) - shown_mm(t, s, {-h, 0})) / (2 * h);
    const double by_scale = (shown_mm(t, s, {0, h}) - shown_mm(t, s, {0, -h})) / (2 * h);
    add("edge growth of copy " + copy, i, by_edge * t.sd_copy_edge_mm);
    add("scale of copy " + copy, i, by_scale * t.sd_copy_scale);
  }
  for (const auto& [label, e] : effects) v += e * e.transpose();
  return v;
}

Linear linear_about(const Truth& truth, const ReadingSet& set) {
  Linear out;
  out.spots = spots_of(truth, set);
  const auto n = static_cast<Index>(out.spots.size());
  MatrixXd all(n, static_cast<Index>(unknowns().size()));
  for (std::size_t k = 0; k < unknowns().size(); ++k) {
    const auto column = static_cast<Index>(k);
    const auto& shift = unknowns()[k].shift;
    Truth up = truth, down = truth;
    if (shift) {
      shift(up, difference_step);
      shift(down, -difference_step);
    }
    // The flats cannot shrink below none: a one-sided difference there.
    const double step = unknowns()[k].name.starts_with("half")
                            ? half_square(up.jaw_flat_mm) - half_square(down.jaw_flat_mm)
                            : 2 * difference_step;
    for (Index i = 0; i < n; ++i) {
      const Spot& s = out.spots[static_cast<std::size_t>(i)];
      if (shift)
        all(i, column) = (shown_mm(up, s, {}) - shown_mm(down, s, {})) / step;
      else
        all(i, column) = s.feature->kind == Kind::wall ? 1.0 : 0.0;
    }
    if (all.col(column).cwiseAbs().maxCoeff() > no_bearing) out.unknown.push_back(k);
  }
  out.slopes.resize(n, static_cast<Index>(out.unknown.size()));
  for (std::size_t j = 0; j < out.unknown.size(); ++j)
    out.slopes.col(static_cast<Index>(j)) = all.col(static_cast<Index>(out.unknown[j]));
  out.off.resize(n);
  for (Index i = 0; i < n; ++i) {
    const Spot& s = out.spots[static_cast<std::size_t>(i)];
    out.off[i] = s.mean_mm - shown_mm(truth, s, {});
  }
  out.covariance = covariance_of(truth, out.spots);
  return out;
}

/// Whether a steel ring fixes the parameter, so that no prior is used: a small one tells the flats (its size, 3 mm).
bool fixed_by_steel(const Unknown& u, const Linear& all) {
  if (!u.name.starts_with("half")) return false;
  for (const Spot& s : all.spots)
    if (s.feature->kind == Kind::ring) return true;
  return false;
}

/// Places that `belongs` takes, in their order.
template <class F>
std::vector<Index> rows_where(const Linear& all, F belongs) {
  std::vector<Index> rows;
  for (std::size_t i = 0; i < all.spots.size(); ++i)
    if (belongs(*all.spots[i].feature)) rows.push_back(static_cast<Index>(i));
  return rows;
}

/// Generalised least squares over `rows`: the best of every unknown that bears on them.
std::map<std::string, Best> solve(const Truth& truth, const Linear& all, const std::vector<Index>& rows) {
  std::vector<Index> columns;
  for (std::size_t j = 0; j < all.unknown.size(); ++j) {
    double most = 0;
    for (Index i : rows) most = std::max(most, std::abs(all.slopes(i, static_cast<Index>(j))));
    if (most > no_bearing) columns.push_back(static_cast<Index>(j));
  }
  const MatrixXd x = all.slopes(rows, columns), v = all.covariance(rows, rows);
  const VectorXd y = all.off(rows);
  const Eigen::LLT<MatrixXd> llt(v);
  const MatrixXd weighted = llt.solve(x);
  MatrixXd normal = x.transpose() * weighted;
  VectorXd right = weighted.transpose() * y;
  VectorXd prior_weight = VectorXd::Zero(normal.rows());
  for (std::size_t k = 0; k < columns.size(); ++k) {
    const Unknown& u = unknowns()[all.unknown[static_cast<std::size_t>(columns[k])]];
    if (!u.prior || fixed_by_steel(u, all)) continue;
    const auto i = static_cast<Index>(k);
    const double weight = 1 / (u.prior->sd * u.prior->sd);
    prior_weight[i] = weight;
    normal(i, i) += weight;
    right[i] += weight * (u.prior->mean - true_value(u, truth));
  }
  const VectorXd scale = normal.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::LDLT<MatrixXd> ldlt(MatrixXd(scale.asDiagonal() * normal * scale.asDiagonal()));
  const auto p = static_cast<Index>(columns.size());
  const MatrixXd inverse = scale.asDiagonal() * ldlt.solve(MatrixXd::Identity(p, p)) * scale.asDiagonal();
  const VectorXd error = inverse * right;
  std::map<std::string, Best> out;
  for (std::size_t k = 0; k < columns.size(); ++k) {
    const Unknown& u = unknowns()[all.unknown[static_cast<std::size_t>(columns[k])]];
    const auto i = static_cast<Index>(k);
    const double by_prior = inverse.row(i).cwiseAbs2().dot(prior_weight);
    out[u.name] = {std::sqrt(inverse(i, i)), error[i], by_prior / inverse(i, i)};
  }
  return out;
}

/// The unknowns of one group by steel, lengths and their own readings.
std::map<std::string, Best> of_group(const Truth& truth, const Linear& all, Group group) {
  auto best = solve(truth, all, rows_where(all, [&](const TrueFeature& f) {
                      const Group g = group_of(f.kind, f.axis);
                      return is_steel(f.kind) || g == Group::lengths || g == group;
                    }));
  for (const Unknown& u : unknowns())
    if (u.group != group) best.erase(u.name);
  return best;
}

bool tells_zero(const TrueFeature& f) { return f.kind == Kind::zero || f.kind == Kind::gauge; }

}  // namespace

std::map<std::string, Best> optimum(const Truth& truth, const ReadingSet& without_slips, bool everything) {
  const Linear all = linear_about(truth, without_slips);
  if (everything) return solve(truth, all, rows_where(all, [](const TrueFeature&) { return true; }));
  std::map<std::string, Best> out;
  for (Group g : {Group::lengths, Group::heights, Group::round, Group::diagonals, Group::walls})
    out.merge(of_group(truth, all, g));
  if (!rows_where(all, tells_zero).empty())
    out[name::caliper_zero] = solve(truth, all, rows_where(all, [](const TrueFeature& f) { return is_steel(f.kind); }))
                                  .at(name::caliper_zero);
  return out;
}

}  // namespace fitwright::accuracy
