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

/// A reading of steel for the caliper's log, as typed.
struct SteelEntry {
  Kind kind = Kind::zero;  ///< zero, gauge or ring
  std::string true_size;   ///< not asked for closed jaws
  std::string reading;
  bool inches = false;  ///< what a length without a unit means
};
/// Adds it to the log of the caliper in the hand, with undo on the bench. Errors: Code::bad_input for what was typed;
/// the record's.
Result<Done> log_steel(Bench& bench, const SteelEntry& entry);

/// Ends the setup on the bench: it is no longer offered, and all of it stays in the record. The newest other setup comes
/// onto the bench, or nothing. With undo there. Errors: Code::usage without a setup; the record's.
Result<Done> end_setup(Bench& bench);

/// Everything for the setup on the bench; with none there, the list only. Errors: the record's.
Result<SetupView> setup_view(Bench& bench);

}  // namespace fitwright
