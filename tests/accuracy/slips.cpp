#include "accuracy/slips.hpp"

#include <array>
#include <cmath>
#include <map>
#include <stdexcept>

#include "accuracy/parallel.hpp"
#include "model/estimate.hpp"

namespace fitwright::accuracy {
namespace {

constexpr double slip_rate = 0.02;
/// Half of the last digit shown.
constexpr double equal_mm = 0.005;
constexpr double mm_per_inch = 25.4;
constexpr double rounding_mm = 1e-9;

enum class Slip { times_ten, tenth, inches, whole_mm, digits, count_ };
constexpr std::array<const char*, static_cast<std::size_t>(Slip::count_)> slip_names{
    "point shifted, ten times", "point shifted, a tenth", "typed in inches", "a whole millimetre off",
    "digits swapped"};

Slip slip_of(double meant, double typed) {
  const auto near = [&](double value) { return std::abs(typed - value) <= equal_mm + rounding_mm; };
  if (near(meant * 10)) return Slip::times_ten;
  if (near(meant / 10)) return Slip::tenth;
  if (near(meant / mm_per_inch)) return Slip::inches;
  if (near(meant + 1) || near(meant - 1)) return Slip::whole_mm;
  return Slip::digits;
}

/// How far a proposal may lie from what was meant: the slip threw digits away.
double lost_mm(Slip slip) {
  if (slip == Slip::tenth) return equal_mm * 10;
  if (slip == Slip::inches) return equal_mm * mm_per_inch;
  return equal_mm;
}

struct Found {
  bool gate = false, repeat = false, residual = false;
  std::optional<double> proposal_mm;
};

struct Counts {
  int typed = 0, gate = 0, repeat = 0, all = 0, right = 0, wrong = 0;
};

struct RunCounts {
  std::array<Counts, slip_names.size()> by_kind{};
  int sound = 0, suspected = 0, suspected_by_gate = 0, by_residual = 0;
};

RunCounts check(const Scenario& scenario, int repeats, int run) {
  const Run r = make_run(scenario, run, repeats);
  const auto estimates = estimate(r.readings);
  if (!estimates) throw std::runtime_error(estimates.problems()[0].text());
  std::map<std::size_t, Found> found;
  for (const SuspectReading& s : estimates->suspects) {
    Found& f = found[s.suspect.index];
    f.gate = f.gate || s.suspect.rule == Rule::entry;
    f.repeat = f.repeat || s.suspect.rule == Rule::repeat;
    f.residual = f.residual || s.suspect.rule == Rule::residual;
    if (s.suspect.proposal_mm) f.proposal_mm = s.suspect.proposal_mm;
  }
  RunCounts out;
  for (std::size_t i = 0; i < r.readings.rows.size(); ++i) {
    const double meant = r.without_slips.rows[i].reading_mm, typed = r.readings.rows[i].reading_mm;
    const Found f = found.contains(i) ? found[i] : Found{};
    if (meant == typed) {
      ++out.sound;
      out.suspected += f.gate || f.repeat ? 1 : 0;
      out.suspected_by_gate += f.gate ? 1 : 0;
      out.by_residual += f.residual ? 1 : 0;
      continue;
    }
    const Slip slip = slip_of(meant, typed);
    Counts& c = out.by_kind[static_cast<std::size_t>(slip)];
    ++c.typed;
    c.gate += f.gate ? 1 : 0;
    c.all += f.gate || f.repeat || f.residual ? 1 : 0;
    if (!f.gate && !f.repeat) continue;
    ++c.repeat;
    if (!f.proposal_mm) continue;
    const bool right = std::abs(*f.proposal_mm - meant) <= lost_mm(slip) + rounding_mm;
    (right ? c.right : c.wrong) += 1;
  }
  return out;
}

SlipTally tally_of(const std::string& name, const Counts& c) {
  const auto share = [](int part, int whole) { return whole > 0 ? static_cast<double>(part) / whole : 0.0; };
  return {name,
          c.typed,
          share(c.gate, c.typed),
          share(c.repeat, c.typed),
          share(c.all, c.typed),
          share(c.right, c.repeat),
          share(c.wrong, c.repeat)};
}

}  // namespace

SlipCheck check_slips(int repeats, int runs, int threads) {
  const Scenario scenario{Places::coupons, {"1 copy", 1, {}}, Truths::drawn, true, slip_rate, 7000001};
  const auto all = in_parallel(runs, threads, [&](int run) { return check(scenario, repeats, run); });
  SlipCheck out;
  out.repeats = repeats;
  Counts together;
  const auto add = [](Counts& to, const Counts& c) {
    to.typed += c.typed;
    to.gate += c.gate;
    to.repeat += c.repeat;
    to.all += c.all;
    to.right += c.right;
    to.wrong += c.wrong;
  };
  for (std::size_t k = 0; k < slip_names.size(); ++k) {
    Counts sum;
    for (const RunCounts& run : all) add(sum, run.by_kind[k]);
    add(together, sum);
    out.by_kind.push_back(tally_of(slip_names[k], sum));
  }
  out.by_kind.push_back(tally_of("all", together));
  for (const RunCounts& run : all) {
    out.sound += run.sound;
    out.suspected += run.suspected;
    out.suspected_by_gate += run.suspected_by_gate;
    out.by_residual += run.by_residual;
  }
  return out;
}

}  // namespace fitwright::accuracy
