#pragma once
// A correction as text in the record (StoredCorrection::detail), and back.

#include <string>

#include "correct/correction.hpp"
#include "record/things.hpp"

namespace fitwright::record {

/// JSON of everything but policy and states, which have columns of their own. Numbers that are not finite are null.
std::string kept_text(const Correction& correction);

/// The whole correction as it was proposed, for showing it again. A re-expression or a change by hand has no estimates
/// behind it: changes, cautions and commands only. Errors: Code::bad_input when the stored text cannot be read.
Result<Correction> correction_from(const StoredCorrection& stored);

}  // namespace fitwright::record
