#pragma once
// What a command leaves behind. Commands print nothing themselves.

#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitw {

/// Text for standard output, messages for standard error, and what went wrong. With problems the exit code is that of
/// the gravest: wrong usage before bad input before a question without an answer before a file.
struct Outcome {
  std::string out;
  std::vector<std::string> notes;
  fitwright::Problems problems;
};

/// Prints an outcome and gives the exit code. A standard output that cannot be written is Code::io.
int print(const Outcome& outcome);

/// Appends all of `more`.
void add(fitwright::Problems& problems, const fitwright::Problems& more);

}  // namespace fitw
