#pragma once
// What the Setup place shows: the setups of the record, and the one on the bench with its parts as forms.

#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/bench.hpp"
#include "bench/form.hpp"
#include "bench/setup_forms.hpp"

namespace fitwright {

struct SetupLine {
  record::Id setup;
  std::string name;
  bool on_bench = false;
};

struct SetupView {
  std::vector<SetupLine> setups;
  bool on_bench = false;  ///< the forms are filled
  Form setup, printer, material, spool, caliper;
  std::vector<AxisLine> axes;
  std::string steps_note;  ///< beside the steps: whether a correction holds others
  std::vector<std::pair<record::Id, std::string>> calipers;
  int caliper_chosen = -1;
  std::vector<std::string> caliper_log;  ///< its zero and gauges, and what it can judge, in sentences
};

/// Everything for the setup on the bench; with none there, the list only. Errors: the record's.
Result<SetupView> setup_view(Bench& bench);

}  // namespace fitwright
