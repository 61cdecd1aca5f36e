#include "correct/beyond.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

struct Cause {
  std::string name, how_much, because, action;
};

struct OnParameter {
  const char* parameter;
  double u;
};

/// Adds the effects on those parameters that were estimated.
template <std::size_t N>
void add(const Estimates& estimates, const Cause& cause, const std::array<OnParameter, N>& effects,
         std::vector<BeyondReadings>& out) {
  for (const OnParameter& e : effects)
    if (const Parameter* p = estimates.find(e.parameter))
      out.push_back({cause.name, cause.how_much, p->name, e.u, p->unit, cause.because, cause.action});
}

bool every_part_has_a_temperature(const ReadingSet& readings) {
  const auto silent = [](const Reading& r) { return !is_steel(r.feature.kind) && !r.part_c; };
  return std::none_of(readings.rows.begin(), readings.rows.end(), silent);
}

}  // namespace

std::optional<double> farthest_off_reference_k(const ReadingSet& readings) {
  std::optional<double> farthest;
  for (const Reading& r : readings.rows) {
    if (!r.part_c) continue;
    const double off = *r.part_c - surroundings::reference_c;
    if (!farthest || std::abs(off) > std::abs(*farthest)) farthest = off;
  }
  return farthest;
}

std::vector<BeyondReadings> beyond_readings(const Estimates& estimates, const ReadingSet& readings) {
  using namespace surroundings;
  std::vector<BeyondReadings> out;

  const std::optional<double> read = farthest_off_reference_k(readings);
  const bool known = read && every_part_has_a_temperature(readings);
  const double off_k = known ? std::hypot(*read, thermometer_u_k) : std::max(part_u_k, std::abs(read.value_or(0)));
  constexpr double shown_k = 0.5;  // no thermometer of ours tells more
  const Cause temperature{
      tr("temperature of the part"), said_shortest(std::round(off_k / shown_k) * shown_k) + " K",
      known ? tr("plastics grow by about 7 parts in 100 000 a kelvin, lengths are meant at 20 °C, and nothing is taken "
                 "off; as far from it as the parts were read, and 1 K for the thermometer")
            : tr("plastics grow by about 7 parts in 100 000 a kelvin, lengths are meant at 20 °C, and nothing is taken "
                 "off; a part left to cool in a room, its temperature not read"),
      tr("let part and caliper lie together at room temperature, half an hour after the bed is cold; read the part's "
         "temperature into the column part_c")};
  const double relative = plastic_expansion_per_k * off_k;
  add(estimates, temperature,
      std::array<OnParameter, 3>{{{name::scale_x, relative}, {name::scale_y, relative}, {name::scale_z, relative}}},
      out);

  // Outsides read f c small and slots f c large: each edge seems to stand f c / 2 further in, and a height f c low.
  // Holes, pegs, feet and diagonals give alike, so that it drops out of what is said of them beyond edge growth.
  const double closing_mm = jaw_force_u_n * most_compliance_mm_per_n;
  const Cause force{tr("jaw force"), said_shortest(jaw_force_u_n) + " N",
                    said("how hard a thumb presses differs from hand to hand, and a place of these coupons gives up to "
                         "{} mm a newton: outsides read small and slots large, as with less edge growth",
                         said_shortest(most_compliance_mm_per_n)),
                    tr("the lightest pressure that seats the jaws, always the same, also when parts are checked")};
  add(estimates, force, std::array<OnParameter, 2>{{{name::edge_growth, closing_mm / 2}, {name::z0, closing_mm}}}, out);
  return out;
}

double u_beyond(const std::vector<BeyondReadings>& effects, const Contrast& weights) {
  std::map<std::string, double> by_cause;
  for (const BeyondReadings& e : effects)
    if (const auto weight = weights.find(e.parameter); weight != weights.end())
      by_cause[e.cause] += weight->second * e.u;
  double squares = 0;
  for (const auto& [cause, u] : by_cause) squares += u * u;
  return std::sqrt(squares);
}

}  // namespace fitwright
