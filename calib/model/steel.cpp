#include "model/steel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "model/priors.hpp"

namespace fitwright {
namespace {

/// Only a ring this small tells the jaw flat (its effect is g^2 / 2d); only one this large tells the inside bias
/// without it.
constexpr double small_ring_mm = 4;
constexpr double large_ring_mm = 10;
/// Two rings tell both when their sizes differ by this factor.
constexpr double ring_ratio = 2;

struct Group {
  double sum = 0;
  std::vector<double> values;
  Kind kind = Kind::outer;
  double nominal_mm = 0;
};

std::map<std::pair<std::string, int>, Group> groups_of(const ReadingSet& set, const std::vector<bool>& counts) {
  std::map<std::pair<std::string, int>, Group> groups;
  for (std::size_t i = 0; i < set.rows.size(); ++i) {
    if (!counts[i]) continue;
    const Reading& r = set.rows[i];
    Group& g = groups[{r.feature.id, is_steel(r.feature.kind) ? 0 : r.copy}];  // steel has no copies
    g.values.push_back(r.reading_mm);
    g.sum += r.reading_mm;
    g.kind = r.feature.kind;
    g.nominal_mm = r.feature.nominal_mm;
  }
  return groups;
}

bool is_round(Kind kind) {
  return kind == Kind::peg || kind == Kind::hole || kind == Kind::hole_h || kind == Kind::pin;
}

PseudoReading prior_on(Term term, const prior::Normal& p) {
  PseudoReading out;
  out.coefficients[index(term)] = 1;
  out.value = p.mean;
  out.u = p.sd;
  out.df = std::numeric_limits<double>::infinity();
  out.is_prior = true;
  out.for_term = term;
  return out;
}

/// What the rings fix of inside bias and jaw flat.
struct RingReach {
  bool inside = false;
  bool flat = false;
};

RingReach reach_of(const std::vector<PseudoReading>& steel) {
  double smallest = std::numeric_limits<double>::infinity(), largest = 0;
  for (const PseudoReading& p : steel) {
    const double c = p.coefficients[index(Term::jaw_flat_term)];
    if (c == 0) continue;
    smallest = std::min(smallest, -1 / c);
    largest = std::max(largest, -1 / c);
  }
  if (largest == 0) return {};
  const bool both = largest >= ring_ratio * smallest;
  return {both || smallest >= large_ring_mm, both || smallest <= small_ring_mm};
}

}  // namespace

Repeatability repeatability_of(const ReadingSet& set, const std::vector<bool>& counts, bool use_priors) {
  double sum[2] = {0, 0}, df[2] = {0, 0};  // [0] flat, [1] round
  for (const auto& [key, g] : groups_of(set, counts)) {
    if (g.values.size() < 2 || g.kind == Kind::pin) continue;
    const double mean = g.sum / static_cast<double>(g.values.size());
    const int which = is_round(g.kind) ? 1 : 0;
    for (double v : g.values) sum[which] += (v - mean) * (v - mean);
    df[which] += static_cast<double>(g.values.size()) - 1;
  }
  const int use = df[0] > 0 ? 0 : 1;
  if (df[use] == 0)
    return use_priors ? Repeatability{prior::reading_sd_mm, prior::reading_df, true}
                      : Repeatability{prior::resolution_sd_mm, prior::reading_df, false};
  return {std::max(std::sqrt(sum[use] / df[use]), prior::resolution_sd_mm), df[use], false};
}

std::vector<PseudoReading> steel_readings(const ReadingSet& set, const std::vector<bool>& counts,
                                          const std::map<std::string, double>& true_size_mm,
                                          const Repeatability& repeatability, const Values& at) {
  std::vector<PseudoReading> out;
  for (const auto& [key, g] : groups_of(set, counts)) {
    if (!is_steel(g.kind)) continue;
    const auto given = true_size_mm.find(key.first);
    const double size = given != true_size_mm.end() ? given->second : g.nominal_mm;
    const auto n = static_cast<double>(g.values.size());
    const double u_mean = std::max(repeatability.sd_mm / std::sqrt(n), prior::resolution_sd_mm);
    PseudoReading p;
    p.u = std::hypot(u_mean, g.kind == Kind::zero ? 0.0 : prior::reference_u_mm);
    p.df = repeatability.df;
    p.coefficients[index(Term::zero)] = 1;
    p.value = g.sum / n - size;
    if (g.kind == Kind::ring) {
      const double flat = at[index(Term::jaw_flat_term)];
      const double chord = std::sqrt(std::max(size * size - 2 * flat, 1e-6));
      p.coefficients[index(Term::inside)] = 1;
      p.coefficients[index(Term::jaw_flat_term)] = -1 / chord;
      p.value = g.sum / n - chord - flat / chord;
    }
    out.push_back(p);
  }
  return out;
}

std::vector<PseudoReading> priors_needed(const Rows& rows, const std::vector<PseudoReading>& steel) {
  std::vector<PseudoReading> out;
  const auto touched = [&](Term t, bool by_rows_only = false) {
    bool yes = rows.size() > 0 && (rows.design.col(index(t)).array() != 0).any();
    if (!by_rows_only)
      for (const PseudoReading& p : steel) yes = yes || p.coefficients[index(t)] != 0;
    return yes;
  };
  const RingReach rings = reach_of(steel);
  if (touched(Term::inside) && !rings.inside) out.push_back(prior_on(Term::inside, prior::inside_bias_mm));
  if (touched(Term::jaw_flat_term) && !rings.flat)
    out.push_back(prior_on(Term::jaw_flat_term, prior::jaw_flat_term_mm2));
  if (touched(Term::hole_c1)) out.push_back(prior_on(Term::hole_c1, prior::hole_c1_mm2));
  if (touched(Term::holeh_c1)) out.push_back(prior_on(Term::holeh_c1, prior::hole_c1_mm2));
  if (touched(Term::peg_p0)) {
    out.push_back(prior_on(Term::peg_p0, prior::peg_p0_mm));
    out.push_back(prior_on(Term::peg_p1, prior::peg_p1_mm2));
  }
  // A scale that holes, pegs or diagonals need, along an axis whose own block has no length.
  for (const auto& [scale, home] : {std::pair{Term::scale_x, Block::lengths}, std::pair{Term::scale_y, Block::lengths},
                                    std::pair{Term::scale_z, Block::heights}}) {
    if (!touched(scale, true)) continue;
    bool read = false;
    for (Eigen::Index i : rows.of(home)) read = read || rows.design(i, index(scale)) != 0;
    if (!read) out.push_back(prior_on(scale, prior::scale_unread));
  }
  // The zero is free when outsides and slots tell it; else it is held near 0.
  std::vector<PseudoReading> all = steel;
  all.insert(all.end(), out.begin(), out.end());
  if (touched(Term::zero) && structure_of(rows, all).unresolved.term[static_cast<std::size_t>(index(Term::zero))])
    out.push_back(prior_on(Term::zero, prior::caliper_zero_mm));
  return out;
}

}  // namespace fitwright
