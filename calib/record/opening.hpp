#pragma once
// Parts of opening a record that are looked at one by one in tests.

#include <string>
#include <vector>

#include "record/record.hpp"
#include "record/schema.hpp"

namespace fitwright::record {

/// open_record() with other steps from version to version, on the day `today` ("2026-11-25"; empty: now, UTC).
Result<Record> open_with(const std::string& path, const OpenOptions& options, const std::vector<Migration>& steps,
                         const std::string& today = {});

/// Whether a file system, by its number in linux/magic.h, lies on another computer: there the journal that needs shared
/// memory (WAL) is not to be trusted (sqlite.org/wal.html).
bool on_another_computer(unsigned long file_system);

/// Puts the file in the journal's mode that fits its disk. A note for the user, or empty.
std::string choose_journal(Database& database, bool far, int wait_ms);

}  // namespace fitwright::record
