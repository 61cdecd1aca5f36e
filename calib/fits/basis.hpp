#pragma once
// What an allowance rests on, from an estimate's JSON or from the record.

#include <string>
#include <vector>

#include "fits/allowance.hpp"
#include "record/record.hpp"

namespace fitwright {

/// Estimates from the JSON that `fitw estimate --json` writes: parameters with covariance and what scatter was found.
/// Cells and suspects are not in it. Errors: Code::bad_input, with line and column.
Result<Estimates> parse_estimates(const std::string& json, const std::string& source);

struct RecordBasis {
  AllowanceBasis basis;  ///< thresholds from the setup's trials, or those assumed
  std::optional<TrialSet> trials;
  std::vector<std::string> notes;  ///< in sentences
};

/// Everything the record knows of a setup: estimates of its newest copies, the settings they were printed with and
/// those in force, its trials. Errors: those of record::estimate_setup().
Result<RecordBasis> allowance_basis_of(record::Record& record, const record::Id& setup);

}  // namespace fitwright
