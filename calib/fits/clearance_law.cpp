#include "fits/clearance_law.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "model/priors.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Below it a hole's closing is not to be trusted (docs/mathematics.md, holes).
constexpr double smallest_round_mm = 2;
constexpr double greatest_mm = 1000;
/// How far a ladder's real clearance may be off its drawn one where nothing was read to tell (common practice, no
/// source).
constexpr double unread_shift_sd_mm = 0.1;

bool is_round(SizeKind kind) { return kind == SizeKind::hole || kind == SizeKind::peg; }

SizeKind opposite(SizeKind kind) {
  switch (kind) {
    case SizeKind::hole:
      return SizeKind::peg;
    case SizeKind::peg:
      return SizeKind::hole;
    case SizeKind::slot:
      return SizeKind::tab;
    case SizeKind::tab:
      break;
  }
  return SizeKind::slot;
}

Problems wrong_numbers(const AllowanceRequest& r) {
  Problems out;
  const auto wrong = [&](std::string what, std::string remedy) {
    out.push_back({Code::usage, {}, std::move(what), std::move(remedy)});
  };
  if (!(r.nominal_mm > 0 && r.nominal_mm <= greatest_mm))
    wrong(said("{} mm is no size of a part", said_shortest(r.nominal_mm)), tr("give a size above 0 up to 1000 mm"));
  if (!(r.wanted_chance > 0 && r.wanted_chance < 1))
    wrong(said("{} is no chance", said_shortest(r.wanted_chance)), tr("give a chance between 0 and 1, like 0.9"));
  if (!(r.share >= 0 && r.share <= 1))
    wrong(said("{} is no share", said_shortest(r.share)), tr("give a share from 0 to 1"));
  if (r.facets != 0 && r.facets < 3)
    wrong(said("a circle of {} sides cannot be drawn", r.facets), tr("give 0 for a true circle"));
  if (r.mate.kind != MateKind::printed && !(r.mate.low_mm > 0 && r.mate.high_mm >= r.mate.low_mm))
    wrong(tr("the mate has no size above zero"), tr("give its size in mm"));
  else if (r.mate.kind != MateKind::printed && std::abs((r.mate.low_mm + r.mate.high_mm) / 2 - r.nominal_mm) > 5)
    wrong(said("the mate is {} mm, far from the {} mm of the part", said_shortest((r.mate.low_mm + r.mate.high_mm) / 2),
               said_shortest(r.nominal_mm)),
          tr("check both: they go together within a few tenths"));
  if (out.empty() && is_round(r.kind) && r.nominal_mm < smallest_round_mm)
    out.push_back({Code::unanswerable,
                   {},
                   said("round sizes below {} mm are not told: small holes close by more than the model knows",
                        said_shortest(smallest_round_mm)),
                   tr("draw it smaller and drill it")});
  return out;
}

void add(Contrast& to, const Contrast& more, double factor) {
  for (const auto& [parameter, weight] : more) to[parameter] += factor * weight;
}

/// Parameters of one more size, joined to those that are there.
Problems join(LawParameters& to, const Estimates& estimates, SizeKind kind) {
  const auto more = law_parameters(estimates, kind);
  if (!more) return more.problems();
  to.values.insert(more->values.begin(), more->values.end());
  to.prior_sd.insert(more->prior_sd.begin(), more->prior_sd.end());
  return {};
}

/// From the ladder's clearance to real clearance. `extra`: variance that comes with it.
void bring_thresholds(const AllowanceBasis& basis, const AllowanceRequest& request, const NewPartScatter& scatter,
                      ClearanceLaw& law, double& extra) {
  const Thresholds& t = basis.thresholds;
  if (t.assumed) return;  // real clearance is meant
  const bool round = t.round.value_or(is_round(request.kind));
  const double at_mm = t.diameter_mm > 0 ? t.diameter_mm : request.nominal_mm;
  if (t.used == ClearanceUsed::measured) {
    // The caliper's inside jaws read a hole j more and, with flats, g^2/(2d) less than it is.
    if (const Parameter* j = basis.estimates.find(name::inside_bias)) {
      law.parameters.values[name::inside_bias] = j->value;
      law.slopes[name::inside_bias] += 1;
      law.threshold_shift_mm -= j->value;
    } else {
      extra += std::pow(prior::inside_bias_mm.sd, 2);
    }
    if (round) {
      law.threshold_shift_mm += prior::jaw_flat_term_mm2.mean / at_mm;
      extra += std::pow(prior::jaw_flat_term_mm2.sd / at_mm, 2);
    }
    return;
  }
  // The ladder's s holds how its places came out; its copies' own edge growth moved its thresholds.
  law.ladder_place_variance = 2 * law.one_place_variance;
  law.place_variance = 0;
  extra += std::pow(4 * scatter.copy_edge_sd_mm, 2) / std::max(t.copies, 1);
  SizeQuestion hole{round ? SizeKind::hole : SizeKind::slot, request.axis, 0, basis.printed_with, basis.printed_with};
  SizeQuestion peg = hole;
  peg.kind = opposite(hole.kind);
  LawParameters joined = law.parameters;
  if (!join(joined, basis.estimates, hole.kind).empty() || !join(joined, basis.estimates, peg.kind).empty()) {
    extra += unread_shift_sd_mm * unread_shift_sd_mm;
    law.notes.push_back(
        tr("How far the ladder's real clearances are from its drawn ones was not read: a wide spread is "
           "assumed for it."));
    return;
  }
  law.parameters = joined;
  law.threshold_shift_mm = printed_mm(hole, joined.values, at_mm) - printed_mm(peg, joined.values, at_mm);
  add(law.slopes, printed_slopes(hole, joined.values, at_mm), -1);
  add(law.slopes, printed_slopes(peg, joined.values, at_mm), 1);
}

}  // namespace

LadderScatter ladder_scatter(double s_mm, const ClearanceLaw& law) {
  const double s2 = s_mm * s_mm;
  const double places = std::min(law.ladder_place_variance, s2 - std::min(s2, least_feel_mm * least_feel_mm));
  return {s2 - places, places * law.printed / 2};
}

Result<ClearanceLaw> clearance_law(const AllowanceBasis& basis, const AllowanceRequest& request) {
  if (Problems problems = wrong_numbers(request); !problems.empty()) return problems;
  ClearanceLaw law;
  law.part = {request.kind, request.axis, request.facets, basis.printed_with, basis.now};
  law.sign = is_inside(request.kind) ? 1 : -1;
  if (Problems problems = join(law.parameters, basis.estimates, request.kind); !problems.empty()) return problems;
  const bool both = request.mate.kind == MateKind::printed;
  if (both) {
    law.other = law.part;
    law.other.kind = opposite(request.kind);
    law.other.facets = 0;
    if (Problems problems = join(law.parameters, basis.estimates, law.other.kind); !problems.empty()) return problems;
  }
  const auto drawn = to_draw_mm(law.part, law.parameters.values, request.nominal_mm);
  const auto other = both ? to_draw_mm(law.other, law.parameters.values, request.nominal_mm) : drawn;
  if (!drawn || !other)
    return Problem{Code::unanswerable,
                   {},
                   tr("no drawn size gives this size: it would close to nothing"),
                   tr("draw it smaller and drill it")};
  add(law.slopes, printed_slopes(law.part, law.parameters.values, *drawn), law.sign);
  if (both) add(law.slopes, printed_slopes(law.other, law.parameters.values, *other), -law.sign);

  const NewPartScatter scatter = new_part_scatter(basis.estimates, is_round(request.kind));
  law.printed = both ? 2 : 1;
  law.one_place_variance = std::pow(scatter.place_sd_mm, 2);
  law.place_variance = law.printed * law.one_place_variance;
  law.copy_variance = std::pow(2 * law.printed * scatter.copy_edge_sd_mm, 2) +
                      (both ? 0.0 : std::pow(request.nominal_mm * scatter.copy_scale_sd, 2));

  double extra = 0;
  if (!both) law.mate_mm = (request.mate.low_mm + request.mate.high_mm) / 2;
  if (request.mate.kind == MateKind::limits)  // anywhere within (JCGM 100:2008, 4.3.7)
    law.mate_variance = std::pow(request.mate.high_mm - request.mate.low_mm, 2) / 12;
  if (request.mate.kind == MateKind::measured) {
    const auto reading = basis.estimates.scatter.find("reading_mm");
    law.mate_variance = std::pow(reading == basis.estimates.scatter.end() ? prior::reading_sd_mm : reading->second, 2);
    for (const char* bias : {name::caliper_zero, name::inside_bias}) {
      if (bias == name::inside_bias && !request.mate.inside) continue;
      if (const Parameter* p = basis.estimates.find(bias)) {  // real size = reading - bias: clearance changes with it
        law.parameters.values[bias] = p->value;
        law.mate_mm -= p->value;
        law.slopes[bias] += law.sign;
      } else {
        extra += std::pow(prior::caliper_zero_mm.sd, 2);
      }
    }
  }
  bring_thresholds(basis, request, scatter, law, extra);

  Contrast read;
  for (const auto& [parameter, weight] : law.slopes) {
    const auto assumed = law.parameters.prior_sd.find(parameter);
    if (assumed != law.parameters.prior_sd.end())
      extra += std::pow(weight * assumed->second, 2);
    else
      read[parameter] = weight;
  }
  const auto known = contrast(basis.estimates, read);
  if (!known || !std::isfinite(known->u))
    return Problem{Code::unanswerable,
                   {},
                   tr("how sure the estimates are is not known"),
                   tr("read more places of the coupons, or let the weak priors take part")};
  law.estimates_variance = known->u * known->u + extra;
  // Scatter between copies is one unknown that stands in the estimates (the copies read) and in the part to come.
  const double of_copies =
      std::min(known->u * known->u, law.copy_variance / std::max(basis.estimates.counts.copies, 1));
  const std::array<Contribution, 3> parts{
      Contribution{std::sqrt(law.copy_variance + of_copies), scatter.copy_df},
      Contribution{std::sqrt(known->u * known->u - of_copies), std::max(known->df, scatter.place_df)},
      Contribution{std::sqrt(law.place_variance), scatter.place_df},
  };
  law.df = welch_satterthwaite_df(parts);
  return law;
}

std::optional<SizesToDraw> sizes_for(const ClearanceLaw& law, const AllowanceRequest& request, double clearance_mm) {
  SizesToDraw out;
  if (request.mate.kind != MateKind::printed) {
    const auto part = to_draw_mm(law.part, law.parameters.values, law.mate_mm + law.sign * clearance_mm);
    if (!part) return std::nullopt;
    out.part_mm = *part;
    return out;
  }
  const auto part =
      to_draw_mm(law.part, law.parameters.values, request.nominal_mm + law.sign * request.share * clearance_mm);
  const auto mate =
      to_draw_mm(law.other, law.parameters.values, request.nominal_mm - law.sign * (1 - request.share) * clearance_mm);
  if (!part || !mate) return std::nullopt;
  out.part_mm = *part;
  out.mate_mm = *mate;
  return out;
}

}  // namespace fitwright
