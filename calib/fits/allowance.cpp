#include "fits/allowance.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fits/allowance_words.hpp"
#include "fits/chance.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Clearances looked at, mm: beyond the thresholds' values by this much.
constexpr double beyond_mm = 0.6;
constexpr double coarse_mm = 0.02;
/// Sizes are drawn to a hundredth; the search goes ten times finer.
constexpr double fine_mm = 1e-3;

/// Least clearance at or above `from` (or the greatest at or below, going down) whose chance still reaches `wanted`.
double edge_of(const ChanceForm& form, Grade grade, double inside, double outside, double wanted) {
  while (std::abs(outside - inside) > fine_mm / 10) {
    const double middle = (inside + outside) / 2;
    (form.of(grade, middle) >= wanted ? inside : outside) = middle;
  }
  return inside;
}

struct Found {
  double clearance_mm = 0, chance = 0;
  double low_mm = 0, high_mm = 0;  ///< within which the wanted chance is reached
};

Found search(const ChanceForm& form, const Thresholds& thresholds, double shift, const AllowanceRequest& request) {
  const Grade grade = grade_of(request.fit);
  const double from = thresholds.t_mm.front().value + shift - beyond_mm;
  const double to = thresholds.t_mm.back().value + shift + beyond_mm;
  Found out;
  if (request.fit == Fit::loose) {
    double high = to;
    while (form.of(grade, high) < request.wanted_chance && high < to + 5) high += beyond_mm;
    out.clearance_mm = edge_of(form, grade, high, from, request.wanted_chance);
    out.chance = form.of(grade, out.clearance_mm);
    out.low_mm = out.clearance_mm;
    out.high_mm = high;
    return out;
  }
  double best = from, most = -1;
  for (double c = from; c <= to; c += coarse_mm)
    if (const double p = form.of(grade, c); p > most) most = p, best = c;
  double low = best - coarse_mm, high = best + coarse_mm;
  while (high - low > fine_mm) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (form.of(grade, a) < form.of(grade, b) ? low : high) = form.of(grade, a) < form.of(grade, b) ? a : b;
  }
  out.clearance_mm = (low + high) / 2;
  out.chance = form.of(grade, out.clearance_mm);
  out.low_mm = out.high_mm = out.clearance_mm;
  if (out.chance >= request.wanted_chance) {
    out.low_mm = edge_of(form, grade, out.clearance_mm, from, request.wanted_chance);
    out.high_mm = edge_of(form, grade, out.clearance_mm, to, request.wanted_chance);
  }
  return out;
}

/// Variances of the thresholds that bound the fit, of their middle, of feel, and of places where s has them.
struct ThresholdSpread {
  double each = 0, middle = 0, feel = 0, places = 0;
};

ThresholdSpread spread_of(const Thresholds& thresholds, Fit fit, const ClearanceLaw& law) {
  const auto upper = static_cast<std::size_t>(grade_of(fit));
  const bool one = upper >= threshold_count;
  double sum_low = 0, sum_high = 0, low2 = 0, high2 = 0, middle2 = 0, feel = 0, places = 0;
  for (const ThresholdDraw& d : thresholds.draws) {
    const double low = d.t_mm[upper - 1], high = one ? low : d.t_mm[upper];
    sum_low += d.weight * low;
    sum_high += d.weight * high;
    low2 += d.weight * low * low;
    high2 += d.weight * high * high;
    middle2 += d.weight * std::pow((low + high) / 2, 2);
    const LadderScatter ladder = ladder_scatter(d.s_mm, law);
    feel += d.weight * ladder.feel_variance;
    places += d.weight * ladder.place_variance;
  }
  const double middle = (sum_low + sum_high) / 2;
  return {std::max(0.0, (low2 - sum_low * sum_low + high2 - sum_high * sum_high) / 2),
          std::max(0.0, middle2 - middle * middle), feel, places};
}

}  // namespace

std::string_view word(SizeKind kind) {
  switch (kind) {
    case SizeKind::hole:
      return "hole";
    case SizeKind::peg:
      return "peg";
    case SizeKind::slot:
      return "slot";
    case SizeKind::tab:
      break;
  }
  return "tab";
}

std::optional<SizeKind> size_kind_from(std::string_view text) {
  for (const SizeKind kind : {SizeKind::hole, SizeKind::peg, SizeKind::slot, SizeKind::tab})
    if (text == word(kind)) return kind;
  return std::nullopt;
}

Result<std::array<double, grade_count>> chances_for(const AllowanceBasis& basis, const AllowanceRequest& request,
                                                    double clearance_mm) {
  const auto law = clearance_law(basis, request);
  if (!law) return law.problems();
  return ChanceForm(basis.thresholds, *law).at(clearance_mm);
}

Result<Allowance> allowance(const AllowanceBasis& basis, const AllowanceRequest& request) {
  const auto law = clearance_law(basis, request);
  if (!law) return law.problems();
  const ChanceForm form(basis.thresholds, *law);
  const Found found = search(form, basis.thresholds, law->threshold_shift_mm, request);
  const auto sizes = sizes_for(*law, request, found.clearance_mm);
  if (!sizes)
    return Problem{Code::unanswerable,
                   {},
                   tr("no drawn size gives this fit: the hole would close to nothing"),
                   tr("draw it smaller and drill it")};

  Allowance out;
  out.request = request;
  out.draw_mm = sizes->part_mm;
  out.mate_draw_mm = sizes->mate_mm;
  out.chance_of = form.at(found.clearance_mm);
  out.chance = found.chance;
  out.reached = found.chance >= request.wanted_chance - 1e-6;
  const auto a = sizes_for(*law, request, found.low_mm), b = sizes_for(*law, request, found.high_mm);
  out.draw_range_mm = {out.draw_mm, a ? a->part_mm : out.draw_mm, b ? b->part_mm : out.draw_mm};
  if (out.draw_range_mm.lower > out.draw_range_mm.upper) std::swap(out.draw_range_mm.lower, out.draw_range_mm.upper);

  const double k = coverage_factor(0.95, std::max(law->df, 1.0));
  const double printed = printed_mm(law->part, law->parameters.values, out.draw_mm);
  const ThresholdSpread t = spread_of(basis.thresholds, request.fit, *law);
  const double places = law->place_variance + t.places;
  const double part_sd = std::sqrt(law->estimates_variance + (places + law->copy_variance) / law->printed);
  out.printed_mm = {printed, printed - k * part_sd, printed + k * part_sd};
  const double clearance_sd = std::sqrt(law->variance() + t.places);
  out.clearance_mm = {found.clearance_mm, found.clearance_mm - k * clearance_sd, found.clearance_mm + k * clearance_sd};

  out.best_size_u_mm = std::sqrt(law->estimates_variance + t.middle);
  const std::pair<ChanceLimit::What, double> parts[] = {{ChanceLimit::What::thresholds, t.each},
                                                        {ChanceLimit::What::feel, t.feel},
                                                        {ChanceLimit::What::new_part, places + law->copy_variance},
                                                        {ChanceLimit::What::estimates, law->estimates_variance},
                                                        {ChanceLimit::What::mate, law->mate_variance}};
  double all = 0;
  for (const auto& [what, variance] : parts) all += variance;
  for (const auto& [what, variance] : parts)
    if (variance > 0) out.limits.push_back({what, std::sqrt(variance), variance / all, words_for(what, basis)});
  std::stable_sort(out.limits.begin(), out.limits.end(),
                   [](const ChanceLimit& x, const ChanceLimit& y) { return x.share > y.share; });
  tell(out, basis, *law);
  return out;
}

}  // namespace fitwright
