#pragma once
// All that is run for the report, in order.

#include <functional>
#include <string>
#include <vector>

#include "accuracy/coverage.hpp"
#include "accuracy/loop.hpp"
#include "accuracy/slips.hpp"

namespace fitwright::accuracy {

struct StudyOptions {
  int runs = 1000;  ///< of each coverage scenario
  int loop_runs = 400;
  int slip_runs = 300;
  int fit_users = 1000;  ///< promised 90 %, of each kind of knowledge
  int threads = 2;
  std::string only;                                  ///< coverage scenarios whose text holds this; empty: all
  std::function<void(const std::string&)> progress;  ///< told what is done; may be empty
};

struct Study {
  StudyOptions options;
  std::vector<Coverage> coverage;
  std::vector<std::pair<LoopScenario, std::vector<LoopTally>>> loops;
  std::vector<SlipCheck> slips;
  std::string fits;  ///< section of the report
};

/// 1 copy, 2 and 3 alike, 2 and 3 turned.
const std::vector<Lay>& lays();
/// Every coverage scenario, seeds set: places, truths, steel, slips, lay, in that order of nesting.
std::vector<Scenario> coverage_scenarios();

Study run_study(const StudyOptions& options);

}  // namespace fitwright::accuracy
