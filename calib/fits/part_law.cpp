#include "fits/part_law.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/words.hpp"
#include "correct/algebra.hpp"
#include "model/priors.hpp"

namespace fitwright {
namespace {

double get(const ParameterValues& values, const char* parameter) {
  const auto found = values.find(parameter);
  return found == values.end() ? 0.0 : found->second;
}

PlanarOutcome lengths(const SizeQuestion& q, const ParameterValues& v) {
  return outcome(q.before, q.after, {get(v, name::scale_x), get(v, name::scale_y), get(v, name::edge_growth)});
}

RoundLaw law(const SizeQuestion& q, const ParameterValues& v) {
  if (q.kind == SizeKind::hole) return {get(v, name::hole_c0), get(v, name::hole_c1), q.facets};
  return {get(v, name::peg_p0), get(v, name::peg_p1), q.facets};
}

struct Flat {
  double gain, edge_mm;
};
Flat flat(const SizeQuestion& q, const PlanarOutcome& l) {
  if (q.axis == 'x') return {l.gain_x, l.edge_x_mm};
  if (q.axis == 'y') return {l.gain_y, l.edge_y_mm};
  return {(l.gain_x + l.gain_y) / 2, l.edge_mm};
}

/// Degrees of freedom behind the scatter of round places, or of the lengths: places less what they determined.
double place_df(const Estimates& estimates, bool round) {
  constexpr int round_terms = 4, length_terms = 3;  // hole c0, c1, peg p0, p1; two scales and edge growth
  if (estimates.cells.empty()) {  // from a file without its cells: lengths and round places halve what is left
    const int spare = estimates.counts.features - static_cast<int>(estimates.parameters.size());
    return std::max(0.0, spare / 2.0);
  }
  std::set<std::string> places;
  for (const Cell& c : estimates.cells) {
    const bool is_round = c.kind == Kind::hole || c.kind == Kind::peg || c.kind == Kind::pin;
    const bool is_length = (c.kind == Kind::outer || c.kind == Kind::inner) && c.axis != Axis::z;
    if (c.readings > 0 && (round ? is_round : is_length)) places.insert(c.feature.id);
  }
  return std::max(0.0, static_cast<double>(places.size()) - (round ? round_terms : length_terms));
}

}  // namespace

double printed_mm(const SizeQuestion& q, const ParameterValues& values, double drawn_mm) {
  const PlanarOutcome l = lengths(q, values);
  switch (q.kind) {
    case SizeKind::hole:
      return hole_as_printed(drawn_mm, l, law(q, values));
    case SizeKind::peg:
      return peg_as_printed(drawn_mm, l, law(q, values));
    case SizeKind::slot:
      return drawn_mm * flat(q, l).gain - 2 * flat(q, l).edge_mm;
    case SizeKind::tab:
      break;
  }
  return drawn_mm * flat(q, l).gain + 2 * flat(q, l).edge_mm;
}

std::optional<double> to_draw_mm(const SizeQuestion& q, const ParameterValues& values, double wanted_mm) {
  const PlanarOutcome l = lengths(q, values);
  std::optional<double> drawn;
  switch (q.kind) {
    case SizeKind::hole:
      return hole_to_draw(wanted_mm, l, law(q, values));
    case SizeKind::peg:
      return peg_to_draw(wanted_mm, l, law(q, values));
    case SizeKind::slot:
      drawn = slot_to_draw(wanted_mm, flat(q, l).gain, flat(q, l).edge_mm);
      break;
    case SizeKind::tab:
      drawn = tab_to_draw(wanted_mm, flat(q, l).gain, flat(q, l).edge_mm);
      break;
  }
  return *drawn > 0 ? drawn : std::nullopt;
}

Contrast printed_slopes(const SizeQuestion& q, const ParameterValues& values, double drawn_mm) {
  constexpr double step = 1e-5;  // of mm, mm2 or 1: sizes are all but linear in the parameters
  Contrast out;
  for (const auto& [parameter, value] : values) {
    ParameterValues up = values, down = values;
    up[parameter] += step;
    down[parameter] -= step;
    out[parameter] = (printed_mm(q, up, drawn_mm) - printed_mm(q, down, drawn_mm)) / (2 * step);
  }
  return out;
}

Result<LawParameters> law_parameters(const Estimates& estimates, SizeKind kind) {
  LawParameters out;
  Problems problems;
  const auto missing = [&](const std::string& what, const std::string& remedy) {
    problems.push_back({Code::unanswerable, {}, what, remedy});
  };
  const auto take = [&](const char* parameter, const prior::Normal& otherwise) {
    if (const Parameter* p = estimates.find(parameter)) {
      out.values[parameter] = p->value;
    } else {
      out.values[parameter] = otherwise.mean;
      out.prior_sd[parameter] = otherwise.sd;
    }
  };
  take(name::scale_x, prior::scale_unread);
  take(name::scale_y, prior::scale_unread);
  if (!estimates.find(name::edge_growth))
    missing(tr("edge growth is not known from these readings"),
            tr("read outsides and slots of the coupon frame, and the caliper closed"));
  else
    take(name::edge_growth, {});
  if (kind == SizeKind::hole) {
    if (!estimates.find(name::hole_c0))
      missing(tr("how holes close is not known from these readings"), tr("print and read the coupon bores"));
    else
      take(name::hole_c0, {});
    take(name::hole_c1, prior::hole_c1_mm2);
  }
  if (kind == SizeKind::peg) {
    if (!estimates.find(name::peg_p0))
      missing(tr("how pegs come out is not known from these readings"), tr("print and read the coupon bores"));
    else
      take(name::peg_p0, {});
    take(name::peg_p1, prior::peg_p1_mm2);
  }
  if (!problems.empty()) return problems;
  return out;
}

NewPartScatter new_part_scatter(const Estimates& estimates, bool round) {
  NewPartScatter out;
  const auto found = [&](const char* what) {
    const auto at = estimates.scatter.find(what);
    return at == estimates.scatter.end() ? std::optional<double>() : std::optional<double>(at->second);
  };
  // A place's mean over copies holds what is bound to the feature and a share of what differs by copy; a new part has
  // all of that.
  const int copies = std::max(estimates.counts.copies, 1);
  const double by_copy = found("feature_copy_mm").value_or(0);
  const bool of_means = estimates.method.starts_with("two strata");
  const auto bound = round && found("round_mm") ? found("round_mm") : found("feature_mm");
  const double df = place_df(estimates, round && found("round_mm"));
  // Moderated by the typical scatter, worth a few degrees of freedom: a handful of places tells it roughly.
  const double typical = prior::feature_df * prior::feature_sd_mm * prior::feature_sd_mm;
  const double seen = bound ? std::pow(*bound, 2) + by_copy * by_copy * (of_means ? 1 - 1.0 / copies : 1.0) : 0.0;
  const double known_df = bound ? df : 0.0;
  out.place_df = known_df + prior::feature_df;
  out.place_sd_mm = std::sqrt((typical + known_df * seen) / out.place_df);
  const bool many = copies > 2;
  out.copy_edge_sd_mm = many ? found("copy_edge_mm").value_or(0) : prior::copy_edge_sd_mm;
  out.copy_scale_sd = many ? found("copy_scale").value_or(0) : prior::copy_scale_sd;
  for (const PriorUsed& p : estimates.priors) {  // a printer with a history of copies has its own
    if (many) break;
    if (p.parameter == "copy_edge_mm") out.copy_edge_sd_mm = p.sd;
    if (p.parameter == "copy_scale") out.copy_scale_sd = p.sd;
  }
  out.copy_df = many ? copies - 1.0 : prior::copy_df;
  return out;
}

}  // namespace fitwright
