#include "accuracy/study.hpp"

#include "accuracy/promise.hpp"

namespace fitwright::accuracy {
namespace {

constexpr double slip_rate = 0.02;
/// Seeds of scenario number n begin at n times this, so that no two scenarios share scatter.
constexpr std::uint64_t seeds_a_scenario = 10000;

}  // namespace

const std::vector<Lay>& lays() {
  static const std::vector<Lay> all{
      {"1 copy", 1, {}}, {"2 alike", 2, {}}, {"2 turned", 2, {0, 90}}, {"3 alike", 3, {}}, {"3 turned", 3, {0, 90, 0}}};
  return all;
}

std::vector<Scenario> coverage_scenarios() {
  std::vector<Scenario> out;
  for (const Places places : {Places::coupons, Places::list})
    for (const Truths truths : {Truths::drawn, Truths::drawn_scatter, Truths::fixed})
      for (const bool steel : {true, false})
        for (const double rate : {0.0, slip_rate})
          for (const Lay& lay : lays()) {
            if (truths == Truths::drawn_scatter && lay.copies > 2) continue;  // 3 copies show their scatter themselves
            out.push_back({places, lay, truths, steel, rate, seeds_a_scenario * (out.size() + 1)});
          }
  return out;
}

Study run_study(const StudyOptions& options) {
  Study study;
  study.options = options;
  const auto say = [&](const std::string& what) {
    if (options.progress) options.progress(what);
  };
  for (const Scenario& s : coverage_scenarios()) {
    if (text_of(s).find(options.only) == std::string::npos) continue;
    study.coverage.push_back(coverage_of(s, options.runs, options.threads));
    say(text_of(s));
  }
  if (!options.only.empty()) return study;
  for (const LoopScenario& s : {LoopScenario{Places::coupons, lays()[2]}, LoopScenario{Places::coupons, lays()[0]},
                                LoopScenario{Places::list, lays()[3]}}) {
    study.loops.emplace_back(s, close_the_loop(s, options.loop_runs, options.threads));
    say("loop, " + s.lay.name);
  }
  for (const int repeats : {3, 2, 1}) {
    study.slips.push_back(check_slips(repeats, options.slip_runs, options.threads));
    say("slips, " + std::to_string(repeats) + " readings a place");
  }
  study.fits = promise_tables(options.fit_users, options.threads);
  say("fits");
  return study;
}

}  // namespace fitwright::accuracy
