#pragma once
// What is put before the estimator: which places are read, on how many copies, with which truths.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "practice/simulate.hpp"

namespace fitwright::accuracy {

/// Places that are read.
enum class Places {
  list,     ///< the practice printer's own list (default_truth): every feature with faces of its own
  coupons,  ///< the coupons as drawn by make_coupon, with the faces that their features share
};

/// Copies and how they lie on the bed. `turned_deg` empty: all alike.
struct Lay {
  std::string name;
  int copies = 1;
  std::vector<int> turned_deg;
};

/// Where the truths of the runs come from.
enum class Truths {
  fixed,         ///< default_truth() in every run
  drawn,         ///< each run its own, from the ranges of draw_truth
  drawn_scatter  ///< as drawn, and the scatter between copies from the estimator's prior of it
};

struct Scenario {
  Places places = Places::list;
  Lay lay;
  Truths truths = Truths::fixed;
  bool steel = true;  ///< jaws closed, a steel gauge of 10 mm and a ring of 3 mm were read
  double typo_rate = 0;
  std::uint64_t first_seed = 1;  ///< run k has first_seed + k for everything in it
};

/// One run: what is true and what was read.
struct Run {
  Truth truth;
  ReadingSet readings;
  ReadingSet without_slips;  ///< the same readings before any was mistyped
};

/// Run number `run` (0, 1, ...) of a scenario.
Run make_run(const Scenario& scenario, int run, int repeats = 3);

/// Truth of a run without any features: values, scatter, caliper.
Truth draw_truth(Truths truths, std::uint64_t seed);

/// The ranges of draw_truth, a line each, for the report.
std::vector<std::string> drawn_ranges();

std::vector<TrueFeature> features_of(Places places);

/// What each parameter of the error model really is, by its name in the estimates.
std::map<std::string, double> true_values(const Truth& truth);

}  // namespace fitwright::accuracy
