// Parts read while still warm are long: told, never taken off, since nobody knows how warm the caliper was.
#include <cmath>
#include <optional>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/beyond.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
void warm_finding(const FindingInput& in, Findings& out) {
  const std::optional<double> farthest = farthest_off_reference_k(in.readings);
  if (!farthest) return;
  const double worst = *farthest;
  const double effect = in.on_length(surroundings::plastic_expansion_per_k * worst);
  // Heat worth a third of what matters already shows in a decision about it.
  constexpr double worth_telling = 1.0 / 3;
  if (std::abs(effect) < worth_telling * in.options.tolerance_mm) return;
  out.push_back(
      {"warm", in.matters(effect) ? Severity::act : Severity::know,
       filled(worst > 0 ? tr("A part was read at {} °C: that alone makes {} read {} long.")
                        : tr("A part was read at {} °C: that alone makes {} read {} short."),
              said_fixed(surroundings::reference_c + worst, 0), length(in.options.length_mm), mm(std::abs(effect))),
       tr("plastics grow by about 7 parts in 100 000 a degree, and lengths are meant at 20 °C; nothing was taken "
          "off for it"),
       tr("let part and caliper lie together at room temperature, half an hour after the bed is cold, and read "
          "again")});
}

}  // namespace fitwright
