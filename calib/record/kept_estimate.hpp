#pragma once
// Estimates of a setup from its readings in the record, and keeping them with all they rest on.

#include <string>

#include "model/estimate.hpp"
#include "record/reading_set.hpp"

namespace fitwright::record {

struct EstimateSetupOptions {
  std::vector<Id> copies;    ///< as for readings_for()
  EstimateOptions estimate;  ///< copy_prior is replaced when the printer has a history (see use_history)
  bool use_history = true;   ///< scatter between copies from the printer's own past copies, from five on
};

struct SetupEstimate {
  Id setup;
  GatheredReadings from;
  EstimateOptions options;  ///< as used
  Estimates estimates;
  std::string input_hash;  ///< content hash of readings, state and options: equal input, equal hash
  std::string copy_prior;  ///< in a sentence: which scatter between copies was assumed, and why
};

/// Estimates a setup. Writes nothing. Errors: those of readings_for() and estimate().
Result<SetupEstimate> estimate_setup(Record& record, const Id& setup, const EstimateSetupOptions& options = {});

/// Keeps an estimate. `result`: the estimate as JSON (report/estimate_report.hpp); `program`: its version. An estimate
/// of equal input, result and program is not kept twice: the one that is there comes back.
Result<Kept<StoredEstimate>> keep_estimate(Record& record, const SetupEstimate& estimate, const std::string& result,
                                           const std::string& program, const std::string& at = {});

/// The state that a kept estimate was made in, and the ids of its copies. Errors: Code::bad_input.
Result<State> state_of(const StoredEstimate& estimate);
Result<std::vector<Id>> copies_of(const StoredEstimate& estimate);

/// 128 bits of FNV-1a as 32 hexadecimal digits (G. Fowler, L. C. Noll, K.-P. Vo; draft-eastlake-fnv): tells whether two
/// contents are the same. Not for security.
std::string content_hash(std::string_view bytes);

}  // namespace fitwright::record
