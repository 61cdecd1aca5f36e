#pragma once
// The record's things as JSON, for list and show. Included by .cpp files only.

#include "record_view.hpp"
#include "report/json_text.hpp"

namespace fitw {

fitwright::Json setup_json(const SetupView& view);
fitwright::Json correction_json(const fitwright::record::CorrectionLife& life);
/// The state as an object.
fitwright::Json state_json(const fitwright::State& state);

}  // namespace fitw
