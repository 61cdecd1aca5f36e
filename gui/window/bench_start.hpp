#pragma once
// Which record is opened, and what of it comes onto the bench.

#include <string>

#include "base/result.hpp"
#include "bench/bench.hpp"

namespace fitwright {

/// The bench on a record that was opened, with the setup of that name, else the one that was on the bench last, else
/// the newest; and the caliper that was in the hand. What is to be told of the opening stands in its notes.
Bench bench_on(record::Opened opened, const std::string& setup = {});

/// The same on the record at `path`. Errors: those of record::open_record; a file that is not there is one.
Result<Bench> bench_on_file(const std::string& path);

/// Whether the file at `path` is a record, by its first bytes.
bool is_record_file(const std::string& path);

}  // namespace fitwright
