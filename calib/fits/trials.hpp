#pragma once
// Trials: how the places of a fit ladder felt.

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "fits/fit.hpp"
#include "record/record.hpp"

namespace fitwright {

/// One place tried once.
struct FitTrial {
  double clearance_mm = 0;  ///< drawn
  Grade grade = Grade::will_not_enter;
  int copy = 1;
  std::optional<double> measured_clearance_mm;  ///< hole minus peg, both read with one caliper
  std::optional<double> diameter_mm;            ///< drawn, of the peg or the tongue
  int row = 0;                                  ///< physical line in the file; 0 = not from a file
  std::optional<bool> round;                    ///< peg in a hole, or tongue in a groove; empty: not known
};

struct TrialSet {
  std::string source;  ///< file name or setup, for messages
  std::vector<FitTrial> rows;
};

/// Reads trials from CSV text: clearance_mm, grade, copy and optionally measured_clearance_mm, diameter_mm, in any
/// order; ',' ';' or tab separated, decimal comma accepted in the latter two. Errors: all defects at once as
/// Code::bad_input with line and column.
Result<TrialSet> parse_trials(const std::string& csv, const std::string& source);

/// The trials as CSV text; optional columns where any row uses them. Reads back to the same trials.
std::string to_trials_csv(const TrialSet& trials);

/// The trials of a setup from the record, copies by their print numbers. Errors: those of the record;
/// Code::unanswerable when there are none.
Result<TrialSet> trials_of(record::Record& record, const record::Id& setup);

}  // namespace fitwright
