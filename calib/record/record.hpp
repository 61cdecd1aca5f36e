#pragma once
// The record: one file that keeps everything measured, by setup, with its dates.

#include <string>
#include <vector>

#include "base/result.hpp"
#include "record/database.hpp"

namespace fitwright::record {

/// Where the record is and how it was opened. Move-only; not to be shared between threads (each opens its own).
class Record {
 public:
  explicit Record(Database database) : database_(std::move(database)) {}
  [[nodiscard]] Database& database() { return database_; }
  /// Kept in memory only, since its file could not be opened: to be saved elsewhere (save_copy).
  [[nodiscard]] bool in_memory() const { return database_.access() == Access::memory; }
  [[nodiscard]] bool read_only() const { return database_.access() == Access::read_only; }
  [[nodiscard]] const std::string& path() const { return database_.path(); }

 private:
  Database database_;
};

struct OpenOptions {
  bool read_only = false;    ///< for reports: nothing is made or brought up to date
  bool keep_backups = true;  ///< a backup of the day at opening, and older ones thinned out (backup.hpp)
  bool must_exist = false;   ///< a missing file is an error instead of a new record
};

/// Opens the record at `path`; a missing one is made, an older one brought up to date (after a backup). Its integrity
/// is looked at first; a damaged file is never written to. Errors, each saying what to do: Code::bad_input for a
/// damaged file (names the newest good backup), a database that is not a record, a record of a newer program; Code::io
/// for a folder or file that cannot be written or read, a full disk, a file locked by another program.
Result<Record> open_record(const std::string& path, const OpenOptions& options = {});

/// A record in memory, for work to go on when the file cannot be opened.
Record record_in_memory();

/// The file used when none is named: "record.fitwright" in the program's folder of the user's data folder (XDG base
/// directory specification). Does not make it. Errors: Code::io when there is no home.
Result<std::string> default_record_path();

/// A DatabaseError in our own words: what happened, where, what to do.
Problem problem_of(const DatabaseError& error, const std::string& path);

/// Runs `work` on the record and turns DatabaseError into a problem.
template <class Work>
auto guarded(Record& record, Work&& work) -> decltype(work()) {
  try {
    return work();
  } catch (const DatabaseError& error) {
    return problem_of(error, record.path());
  }
}

}  // namespace fitwright::record
