#pragma once

#include <string_view>

namespace fitwright {

/// Text of gui/demo/heron-slate-14.csv, built into the program so that it opens wherever it is run.
std::string_view demo_csv();

/// Text of gui/demo/demo-record.json: the record of the demo, to be taken into an empty one (record/exchange.hpp,
/// import_json_text).
const char* demo_record_json();

}  // namespace fitwright
