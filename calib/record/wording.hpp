#pragma once
// What goes wrong with the record's file, in words: what happened and what to do.

#include <string>

#include "record/record.hpp"

namespace fitwright::record {

/// A problem that the system reported as an error number. `what` follows on the path: "cannot be written".
Problem system_problem(const std::string& path, int error, const std::string& what);

/// A damaged record: what was found ("is damaged: ..."), the newest good backup and the command that takes it.
Problem damaged_problem(const std::string& path, const std::string& found);

/// What to do to go back to the newest good backup of the record at `path`; when there is none, what to do instead.
std::string way_back(const std::string& path);

/// A path as a word of a shell's command line.
std::string shell_word(const std::string& path);

}  // namespace fitwright::record
