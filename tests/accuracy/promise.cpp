#include "accuracy/promise.hpp"

#include <algorithm>
#include <cmath>

#include "accuracy/parallel.hpp"
#include "accuracy/scenario.hpp"
#include "base/number.hpp"
#include "fits/part_law.hpp"
#include "model/estimate.hpp"
#include "practice/stream.hpp"
#include "practice/true_size.hpp"
#include "stats/intervals.hpp"

namespace fitwright::accuracy {
namespace {

// How hands feel: common practice, no source. Each user's own.
constexpr std::array<double, threshold_count> typical_mm{-0.05, 0.05, 0.15, 0.30};
constexpr double shift_sd_mm = 0.05, gap_log_sd = 0.35;
constexpr double feel_mm = 0.03, feel_log_sd = 0.4;
// The ladder: 15 places on each of two copies, pegs of 8 mm.
constexpr double ladder_mm = 8, ladder_from_mm = -0.2, ladder_step_mm = 0.05;  // real clearance that it begins at
constexpr int ladder_places = 15, ladder_copies = 2;
constexpr double wanted_default = 0.9;
constexpr std::uint64_t first_seed = 500000;

struct World {
  Truth truth;
  std::uint64_t seed = 0;
  std::array<double, threshold_count> t_mm{};
  double feel = 0;

  [[nodiscard]] double normal(const std::string& label) const { return stream_normal(seed, "fits|" + label); }
  [[nodiscard]] double uniform(const std::string& label) const { return stream_uniform(seed, "fits|" + label); }

  /// Real size of a drawn one, without scatter, on a copy with these errors.
  [[nodiscard]] double size(SizeKind kind, double drawn_mm, const CopyErrors& copy) const {
    static constexpr Kind kinds[] = {Kind::hole, Kind::peg, Kind::inner, Kind::outer};
    TrueFeature f{"new", kinds[static_cast<int>(kind)], Axis::z, {drawn_mm}, {}, {}};
    AxisValues scale = scales_of(truth);
    if (kind == SizeKind::slot || kind == SizeKind::tab) {
      f.axis = Axis::x;
      scale.x = scale.y = (scale.x + scale.y) / 2;
    }
    return true_size_mm(truth, scale, f, f.kind, f.axis, copy);
  }
  [[nodiscard]] CopyErrors copy(const std::string& label) const {
    return {truth.edge_growth_mm + truth.sd_copy_edge_mm * normal(label + "|edge"),
            truth.sd_copy_scale * normal(label + "|scale")};
  }
  [[nodiscard]] double place(const std::string& label) const {
    return std::hypot(truth.sd_feature_mm, truth.sd_feature_copy_mm) * normal(label);
  }
  [[nodiscard]] Grade feels(double clearance_mm, const std::string& label) const {
    const double at = clearance_mm + feel * normal(label);
    int grade = 0;
    for (const double t : t_mm) grade += at > t;
    return static_cast<Grade>(grade);
  }
};

World world_of(std::uint64_t seed) {
  World w;
  w.seed = seed;
  w.t_mm[0] = typical_mm[0] + shift_sd_mm * w.normal("shift");
  for (std::size_t k = 1; k < w.t_mm.size(); ++k)
    w.t_mm[k] = w.t_mm[k - 1] +
                (typical_mm[k] - typical_mm[k - 1]) * std::exp(gap_log_sd * w.normal("gap" + std::to_string(k)));
  w.feel = feel_mm * std::exp(feel_log_sd * w.normal("feel"));
  return w;
}

double shown(double reading_mm, double resolution_mm) { return std::round(reading_mm / resolution_mm) * resolution_mm; }

/// Drawn clearance of the ladder's first place, so that it begins at ladder_from_mm as the estimates have it.
double first_place_mm(const Estimates& e) {
  SizeQuestion hole, peg;
  peg.kind = SizeKind::peg;
  LawParameters both = law_parameters(e, SizeKind::hole).value();
  const LawParameters of_pegs = law_parameters(e, SizeKind::peg).value();
  both.values.insert(of_pegs.values.begin(), of_pegs.values.end());
  const double shift = printed_mm(hole, both.values, ladder_mm) - printed_mm(peg, both.values, ladder_mm);
  return ladder_step_mm * std::round((ladder_from_mm - shift) / ladder_step_mm);
}

TrialSet try_ladder(const World& w, double from_mm, bool measured) {
  TrialSet set{"ladder", {}};
  const Truth& t = w.truth;
  for (int copy = 1; copy <= ladder_copies; ++copy) {
    const CopyErrors errors = w.copy("ladder" + std::to_string(copy));
    for (int i = 0; i < ladder_places; ++i) {
      const double c = from_mm + ladder_step_mm * i;
      const std::string label = "ladder" + std::to_string(copy) + '|' + std::to_string(i);
      const double hole = w.size(SizeKind::hole, ladder_mm + c, errors) + w.place(label + "|hole");
      const double peg = w.size(SizeKind::peg, ladder_mm, errors) + w.place(label + "|peg");
      FitTrial trial{c, w.feels(hole - peg, label + "|feel"), copy, {}, ladder_mm, 0, true};
      if (measured) {
        const double inside = t.caliper_zero_mm + t.inside_bias_mm +
                              std::sqrt(hole * hole - t.jaw_flat_mm * t.jaw_flat_mm) +
                              t.sd_reading_mm * w.normal(label + "|read hole");
        const double outside = t.caliper_zero_mm + peg + t.sd_reading_mm * w.normal(label + "|read peg");
        trial.measured_clearance_mm = shown(inside, t.resolution_mm) - shown(outside, t.resolution_mm);
      }
      set.rows.push_back(trial);
    }
  }
  return set;
}

AllowanceRequest wish_of(const World& w, double wanted_chance, double& mate_true_mm) {
  AllowanceRequest r;
  r.wanted_chance = wanted_chance;
  r.kind = static_cast<SizeKind>(static_cast<int>(4 * w.uniform("kind")));
  r.nominal_mm = 4 + std::floor(20 * w.uniform("size"));
  const double fit = w.uniform("fit");  // half of them loose: other fits seldom reach 90 %
  r.fit = fit < 0.5 ? Fit::loose : static_cast<Fit>(static_cast<int>(6 * (fit - 0.5)));
  r.mate.inside = !is_inside(r.kind);
  const double mate = w.uniform("mate");
  mate_true_mm = r.nominal_mm - 0.02 * w.uniform("mate size");
  if (mate < 0.4) {
    r.mate.kind = MateKind::limits;
    r.mate.low_mm = r.nominal_mm - 0.02;
    r.mate.high_mm = r.nominal_mm;
  } else if (mate < 0.7) {
    const Truth& t = w.truth;
    r.mate.kind = MateKind::measured;
    const double reading = mate_true_mm + t.caliper_zero_mm + (r.mate.inside ? t.inside_bias_mm : 0.0) +
                           t.sd_reading_mm * w.normal("read mate");
    r.mate.low_mm = r.mate.high_mm = shown(reading, t.resolution_mm);
  } else {
    r.mate.kind = MateKind::printed;
  }
  return r;
}

Kept one_user(Knows knows, int user, double wanted_chance) {
  Scenario scenario;
  scenario.places = Places::coupons;
  scenario.lay = {"1 copy", 1, {}};
  scenario.truths = Truths::drawn_scatter;
  scenario.first_seed = first_seed + static_cast<std::uint64_t>(user);
  const Run run = make_run(scenario, 0, 2);
  World w = world_of(scenario.first_seed);
  w.truth = run.truth;

  AllowanceBasis basis;
  basis.estimates = estimate(run.readings).value();
  basis.thresholds = assumed_thresholds();
  if (knows != Knows::nothing) {
    const bool measured = knows == Knows::measured_ladder;
    basis.thresholds = thresholds_from(try_ladder(w, first_place_mm(basis.estimates), measured),
                                       measured ? ClearanceUsed::measured : ClearanceUsed::nominal)
                           .value();
  }
  double mate_true = 0;
  const AllowanceRequest r = wish_of(w, wanted_chance, mate_true);
  const Allowance a = allowance(basis, r).value();

  // The part to come.
  const bool both = r.mate.kind == MateKind::printed;
  const double sign = is_inside(r.kind) ? 1 : -1;
  static constexpr SizeKind other[] = {SizeKind::peg, SizeKind::hole, SizeKind::tab, SizeKind::slot};
  const SizeKind mate_kind = other[static_cast<int>(r.kind)];
  const auto clearance = [&](const CopyErrors& copy) {
    const double mate = both ? w.size(mate_kind, *a.mate_draw_mm, copy) : mate_true;
    return sign * (w.size(r.kind, a.draw_mm, copy) - mate);
  };
  const CopyErrors none{w.truth.edge_growth_mm, 0};
  const double mean = clearance(none);
  const double real = clearance(w.copy("new")) + w.place("new|part") + (both ? w.place("new|mate") : 0.0);
  Kept out;
  out.fit = r.fit;
  out.reached = a.reached;
  out.promised = a.chance;
  out.came_out = w.feels(real, "new|feel") == grade_of(r.fit);

  // The best size with the truth known.
  const int printed = both ? 2 : 1;
  const Truth& t = w.truth;
  const double place = std::hypot(t.sd_feature_mm, t.sd_feature_copy_mm);
  const double variance = w.feel * w.feel + printed * place * place + std::pow(2 * printed * t.sd_copy_edge_mm, 2) +
                          (both ? 0.0 : std::pow(r.nominal_mm * t.sd_copy_scale, 2));
  const double sd = std::sqrt(variance);
  const auto grade = static_cast<std::size_t>(grade_of(r.fit));
  const bool open = grade >= w.t_mm.size();
  const double low = w.t_mm[grade - 1], high = open ? low : w.t_mm[grade];
  const auto chance = [&](double c) {
    return (open ? 1.0 : normal_chance((high - c) / sd)) - normal_chance((low - c) / sd);
  };
  const double best = open ? low + normal_quantile(wanted_chance) * sd : (low + high) / 2;
  out.true_chance = chance(mean);
  out.best_chance = chance(best);
  out.off_best_mm = mean - best;
  return out;
}

const char* what_is_known(Knows knows) {
  switch (knows) {
    case Knows::nothing:
      return "nothing (assumed thresholds)";
    case Knows::nominal_ladder:
      return "a ladder, drawn clearances";
    case Knows::measured_ladder:
      break;
  }
  return "a ladder, measured clearances";
}

double quantile(std::vector<double> values, double p) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(p * static_cast<double>(values.size() - 1))];
}

/// Share with its 95 % margin, in %.
std::string share(int n, int of) {
  const double p = static_cast<double>(n) / of;
  return fixed(100 * p, 1) + " ± " + fixed(196 * std::sqrt(p * (1 - p) / of), 1);
}

}  // namespace

std::vector<Kept> users(Knows knows, int first, int count, double wanted_chance, int threads) {
  return in_parallel(count, threads, [&](int i) { return one_user(knows, first + i, wanted_chance); });
}

std::string promise_tables(int users_each, int threads) {
  std::string out =
      "## Fits: is the promised chance kept?\n\n"
      "Each user has a truth of their own (printer, scatter between copies, caliper, how clearances feel), reads the "
      "coupons frame, bores and "
      "stair\n(one copy, two readings a place), may try a fit ladder (15 places, two copies, begun where the estimates "
      "have a real clearance of -0.2 mm), and asks for a hole, "
      "peg, "
      "slot or\ntab of 4 to 23 mm with a chance of 90 %, for hardware with limits, a part read with the same caliper, "
      "or another\nprinted part; half of them for a loose fit, since other fits seldom reach 90 %. The size is drawn, "
      "one new part is\nprinted and tried. *Off the best*: real mean clearance of the drawn size minus that of the "
      "best "
      "size with the truth\nknown (for a loose fit the least with 90 %; else the middle between the thresholds): "
      "median "
      "of its size, and its mean.\n\n";
  std::string promised =
      "| known of feel | users | 90 % promised | of them got it % | mean promised % | off the best, median mm | mean "
      "mm "
      "|\n| --- | ---: | ---: | ---: | ---: | ---: | ---: |\n";
  std::string all =
      "| known of feel | promised | users | mean promised % | got it % | best size would give % | off the best, median "
      "mm "
      "| mean mm |\n| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |\n";
  for (const Knows knows : {Knows::nothing, Knows::nominal_ladder, Knows::measured_ladder}) {
    // As many users as it takes for users_each to be promised 90 %.
    std::vector<Kept> kept, with_promise;
    for (int first = 0; static_cast<int>(with_promise.size()) < users_each && first < 10 * users_each;
         first += users_each) {
      const auto more = users(knows, first, users_each, wanted_default, threads);
      kept.insert(kept.end(), more.begin(), more.end());
      for (const Kept& k : more)
        if (k.reached && static_cast<int>(with_promise.size()) < users_each) with_promise.push_back(k);
    }
    const auto row = [&](const std::vector<Kept>& some, bool short_row) {
      int got = 0;
      double sum = 0, off = 0, best = 0;
      std::vector<double> distance;
      for (const Kept& k : some) {
        got += k.came_out;
        sum += k.promised;
        off += k.off_best_mm;
        best += k.best_chance;
        distance.push_back(std::abs(k.off_best_mm));
      }
      const auto n = static_cast<int>(some.size());
      const std::string mean_promised = fixed(100 * sum / n, 1);
      const std::string tail = " | " + fixed(quantile(distance, 0.5), 3) + " | " + fixed(off / n, 3) + " |\n";
      return short_row ? std::to_string(n) + " | " + share(got, n) + " | " + mean_promised + tail
                       : std::to_string(n) + " | " + mean_promised + " | " + share(got, n) + " | " +
                             fixed(100 * best / n, 1) + tail;
    };
    if (!with_promise.empty())
      promised += std::string("| ") + what_is_known(knows) + " | " + std::to_string(kept.size()) + " | " +
                  row(with_promise, true);
    constexpr double edges[] = {0, 0.5, 0.7, 0.9 - 1e-6, 1};
    constexpr const char* names[] = {"below 50 %", "50 to 70 %", "70 to 90 %", "90 % and more"};
    for (std::size_t b = 0; b + 1 < std::size(edges); ++b) {
      std::vector<Kept> some;
      for (const Kept& k : kept)
        if (k.promised >= edges[b] && k.promised < edges[b + 1]) some.push_back(k);
      if (some.size() < 20) continue;
      all += std::string("| ") + what_is_known(knows) + " | " + names[b] + " | " + row(some, false);
    }
  }
  return out + promised + "\nAll users, by what they were promised:\n\n" + all + '\n';
}

}  // namespace fitwright::accuracy
