// Parts read while still warm are long: told, never taken off, since nobody knows how warm the caliper was.
#include <algorithm>
#include <cmath>
#include <optional>

#include "base/number.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

/// Linear expansion of common printing plastics, 1/K (handbook range 6e-5 to 1e-4; 7e-5 is typical of PLA and PETG).
constexpr double plastic_expansion_per_k = 7e-5;
/// Standard reference temperature of lengths, degrees C (ISO 1:2022).
constexpr double reference_c = 20;

}  // namespace

void warm_finding(const FindingInput& in, Findings& out) {
  std::optional<double> hottest, coldest;
  for (const Reading& r : in.readings.rows) {
    if (!r.part_c) continue;
    hottest = std::max(hottest.value_or(*r.part_c), *r.part_c);
    coldest = std::min(coldest.value_or(*r.part_c), *r.part_c);
  }
  if (!hottest) return;
  const double off_hot = *hottest - reference_c, off_cold = *coldest - reference_c;
  const double worst = std::abs(off_hot) > std::abs(off_cold) ? off_hot : off_cold;
  const double effect = in.on_length(plastic_expansion_per_k * worst);
  // Heat worth a third of what matters already shows in a decision about it.
  constexpr double worth_telling = 1.0 / 3;
  if (std::abs(effect) < worth_telling * in.options.tolerance_mm) return;
  out.push_back(
      {"warm", in.matters(effect) ? Severity::act : Severity::know,
       "A part was read at " + fixed(reference_c + worst, 0) + " °C: that alone makes " + length(in.options.length_mm) +
           " read " + mm(std::abs(effect)) + (worst > 0 ? " long." : " short."),
       "plastics grow by about 7 parts in 100 000 a degree, and lengths are meant at 20 °C; nothing was taken "
       "off for it",
       "let part and caliper lie together at room temperature, half an hour after the bed is cold, and read "
       "again"});
}

}  // namespace fitwright
