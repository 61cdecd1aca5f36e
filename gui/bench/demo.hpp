#pragma once

#include <string_view>

namespace fitwright {

/// Text of gui/demo/heron-slate-14.csv, built into the program so that it opens wherever it is run.
std::string_view demo_csv();

}  // namespace fitwright
