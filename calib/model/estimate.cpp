#include "model/estimate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include "base/number.hpp"
#include "base/words.hpp"
#include "model/contrast.hpp"
#include "model/fit.hpp"
#include "model/priors.hpp"
#include "model/separation.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rule 3: chance, corrected for the number of places looked at, below which a place stands out.
constexpr double residual_chance = 0.01;
/// A value whose uncertainty is this share of its prior's was not learnt from the readings.
constexpr double prior_alone_share = 0.9;

Block home_block(Term term) {
  for (Block b : blocks_in_order())
    for (Term t : terms_of(b))
      if (t == term) return b;
  return Block::lengths;
}

const char* source_of(Term term) {
  switch (term) {
    case Term::zero:
      return tr("caliper set to zero by hand, not read; common practice, no source");
    case Term::inside:
      return tr("inside jaws of a used caliper, no ring read; common practice, no source");
    case Term::jaw_flat_term:
      return tr("flats of 0.2 to 0.45 mm on inside jaws, no ring read; common practice, no source");
    case Term::hole_c1:
    case Term::holeh_c1:
      return tr("small holes close more; common practice, no source");
    case Term::peg_p0:
    case Term::peg_p1:
      return tr("curved outsides pull inward; common practice, no source");
    default:
      return tr("in-place shrinkage of common plastics, no length read along this axis; common practice, no source");
  }
}

/// Names for priors of terms that are not reported under their own.
std::string prior_name(Term term) {
  return term == Term::jaw_flat_term ? "jaw_flat_squared_half_mm2" : std::string(name_of(term));
}

Problems unknown_references(const ReadingSet& set, const std::map<std::string, double>& sizes) {
  Problems out;
  for (const auto& [id, size] : sizes) {
    bool found = false;
    for (const Reading& r : set.rows) found = found || (is_steel(r.feature.kind) && r.feature.id == id);
    if (!found)
      out.push_back({Code::usage,
                     {set.source, 0, 0},
                     "no gauge or ring named '" + id + "' is among the readings",
                     "use the feature_id of a row of kind gauge or ring"});
  }
  return out;
}

/// The drawn bead width that wall_mm speaks of: the one most walls have, the narrower of two alike.
std::optional<double> bead_of_wall(const std::vector<PlaceCell>& cells) {
  std::map<double, int> count;
  for (const PlaceCell& c : cells)
    if (c.place.kind == Kind::wall) ++count[c.place.nominal_mm];
  std::optional<double> bead;
  for (const auto& [nominal, n] : count)
    if (!bead || n > count[*bead]) bead = nominal;
  return bead;
}

/// The one reading of a standing-out place that strays most from its copies' other readings, or its first.
std::size_t most_astray(const ReadingSet& set, const std::vector<PlaceCell>& cells, const std::vector<std::size_t>& of,
                        const Values& values) {
  std::size_t worst = cells[of[0]].rows[0];
  double most = -1;
  for (std::size_t c : of)
    for (std::size_t row : cells[c].rows) {
      const double astray = std::abs(set.rows[row].reading_mm - predicted_reading(cells[c].place, values));
      if (astray > most) {
        most = astray;
        worst = row;
      }
    }
  return worst;
}

void add_parameters(const Fit& fit, Estimates& out) {
  MatrixXd total = MatrixXd::Zero(term_count, term_count);
  for (const UncertaintyPart& p : fit.parts) total += p.covariance;
  std::vector<int> kept;
  for (Term t : reported_terms()) {
    const int i = index(t);
    const auto k = static_cast<std::size_t>(i);
    if (!fit.structure.in_play[k] || fit.structure.unresolved.term[k]) continue;
    const ContrastEstimate own = uncertainty_of(fit.parts, VectorXd::Unit(term_count, i));
    Parameter p;
    p.name = name_of(t);
    p.unit = unit_of(t);
    p.value = fit.values[i];
    p.u = own.u;
    p.df = own.df;
    const Block home = home_block(t);
    if (std::find(fit.no_scatter.begin(), fit.no_scatter.end(), home) != fit.no_scatter.end())
      p.u = std::numeric_limits<double>::quiet_NaN();
    double prior_sd = 0;
    for (const PseudoReading& q : fit.priors)
      if (q.for_term == t) prior_sd = q.u;
    const bool alone = prior_sd > 0 && p.u > prior_alone_share * prior_sd;
    if (alone && (t == Term::scale_x || t == Term::scale_y || t == Term::scale_z)) continue;  // assumed, not estimated
    const double half = std::isnan(p.u) ? p.u : own.half_width;
    p.lower = p.value - half;
    p.upper = p.value + half;
    p.established = !alone && (p.lower > 0 || p.upper < 0);
    p.prior = own.rests_on_prior;
    for (const LentScatter& l : fit.lent) p.prior = p.prior || (l.is_prior && l.block == home);
    kept.push_back(i);
    out.parameters.push_back(p);
  }
  const auto n = static_cast<Index>(kept.size());
  out.covariance.resize(n, n);
  for (Index a = 0; a < n; ++a)
    for (Index b = 0; b < n; ++b)
      out.covariance(a, b) = total(kept[static_cast<std::size_t>(a)], kept[static_cast<std::size_t>(b)]);
  for (const UncertaintyPart& p : fit.parts) {
    UncertaintyPart q{MatrixXd(n, n), VectorXd(n), p.is_prior, p.assumed_copies};
    for (Index a = 0; a < n; ++a) {
      const int i = kept[static_cast<std::size_t>(a)];
      q.df[a] = p.df[i];
      for (Index b = 0; b < n; ++b) q.covariance(a, b) = p.covariance(i, kept[static_cast<std::size_t>(b)]);
    }
    out.parts.push_back(std::move(q));
  }
  out.combinations = combinations(fit.without_priors, fit.rows, fit.values, total);
}

void add_priors(const Fit& fit, const CopyPrior& copies, bool steel, Estimates& out) {
  for (const PseudoReading& q : fit.priors)
    out.priors.push_back({prior_name(q.for_term), q.value, q.u, source_of(q.for_term)});
  if (fit.copy_prior_used) {
    out.priors.push_back({"copy_edge_mm", 0, copies.edge_sd_mm, copies.source});
    out.priors.push_back({"copy_scale", 0, copies.scale_sd, copies.source});
  }
  if (steel && fit.reading_assumed)
    out.priors.push_back(
        {"reading_mm", 0, prior::reading_sd_mm,
         tr("repeatability of one reading of steel, nothing was read twice; common practice, no source")});
  for (const LentScatter& l : fit.lent) {
    if (!l.is_prior) continue;
    out.priors.push_back(
        {"scatter of " + std::string(word(l.block)) + " (mm)", 0, l.sd_mm,
         filled(l.from_lengths ? tr("scatter of the lengths of the same prints, worth {} degrees of freedom: too "
                                    "few places of this kind")
                               : tr("typical scatter of places, common practice, no source, worth {} degrees of "
                                    "freedom: too few places of this kind"),
                said_fixed(l.df, 0))});
  }
}

/// What the model makes of each place on each copy; walls of other bead widths than `bead` are told but not fitted.
void add_cells(const std::vector<PlaceCell>& all, const std::optional<double>& bead, const Fit& fit, Estimates& out) {
  std::set<std::string> features;
  std::set<int> copies;
  std::size_t fitted = 0;
  for (const PlaceCell& c : all) {
    const bool in_fit = c.place.kind != Kind::wall || c.place.nominal_mm == bead;
    Cell cell;
    cell.feature = c.feature;
    cell.kind = c.place.kind;
    cell.axis = c.place.axis;
    cell.copy = c.copy;
    cell.turned_deg = c.turned_deg;
    cell.readings = static_cast<int>(c.rows.size());
    cell.mean_mm = c.mean_mm;
    cell.fitted_mm = in_fit ? predicted_reading(c.place, fit.values) : c.mean_mm;
    cell.residual_mm = c.mean_mm - cell.fitted_mm;
    if (in_fit) cell.studentised = fit.studentised[fitted++];
    cell.rows = c.rows;
    out.cells.push_back(std::move(cell));
    features.insert(c.feature.id);
    copies.insert(c.copy);
  }
  out.counts.features = static_cast<int>(features.size());
  out.counts.copies = static_cast<int>(copies.size());
}

/// Rule 3: places that stand out from the model. Told, never set aside.
void add_standing_out(const ReadingSet& set, const std::vector<PlaceCell>& cells, const Fit& fit, Estimates& out) {
  std::map<std::string, std::vector<std::size_t>> standing_out;
  for (std::size_t i = 0; i < cells.size(); ++i)
    if (fit.chance[i] < residual_chance) standing_out[cells[i].effect_key].push_back(i);
  for (const auto& [key, members] : standing_out) {
    Suspect s;
    s.index = most_astray(set, cells, members, fit.values);
    s.rule = Rule::residual;
    out.suspects.push_back({s, true});
  }
  std::stable_sort(out.suspects.begin(), out.suspects.end(),
                   [](const SuspectReading& a, const SuspectReading& b) { return a.suspect.index < b.suspect.index; });
}

}  // namespace

Result<Estimates> estimate(const ReadingSet& set, const EstimateOptions& options) {
  if (Problems unknown = unknown_references(set, options.true_size_mm); !unknown.empty()) return unknown;

  Estimates out;
  FitInput input;
  input.set = &set;
  input.counts.assign(set.rows.size(), true);
  input.true_size_mm = options.true_size_mm;
  input.use_priors = options.use_priors;
  input.copy_prior = options.copy_prior;
  for (Suspect& s : check_readings(set)) {
    const bool used = !options.set_suspects_aside;
    input.counts[s.index] = input.counts[s.index] && used;
    out.suspects.push_back({std::move(s), used});
  }
  const std::vector<PlaceCell> all_cells = cells_of(set, input.counts);
  const std::optional<double> bead = bead_of_wall(all_cells);
  for (const PlaceCell& c : all_cells)
    if (c.place.kind != Kind::wall || c.place.nominal_mm == bead) input.cells.push_back(c);

  const MatchedTable table = match(input.cells);
  bool edges = false;
  for (const PlaceCell& c : input.cells) edges = edges || (!c.feature.edge_a.empty() && !c.feature.edge_b.empty());
  const bool balanced = table.complete && !edges && table.one_way_to_lie;
  const Fit fit = balanced ? fit_balanced(input, table) : fit_components(input);

  out.method = fit.method;
  add_parameters(fit, out);
  const bool steel =
      std::any_of(set.rows.begin(), set.rows.end(), [](const Reading& r) { return is_steel(r.feature.kind); });
  add_priors(fit, options.copy_prior, steel, out);
  out.not_separable = not_separable(fit.without_priors);
  out.scatter = fit.scatter;
  if (out.parameters.empty() && out.combinations.empty())
    return Problem{
        Code::unanswerable,
        {set.source, 0, 0},
        tr("the readings cannot tell any of the errors"),
        tr("read a coupon with lengths of several sizes on both axes, and the caliper with its jaws closed")};

  add_cells(all_cells, bead, fit, out);
  add_standing_out(set, input.cells, fit, out);
  for (const bool counts : input.counts) ++(counts ? out.counts.readings : out.counts.set_aside);
  return out;
}

}  // namespace fitwright
