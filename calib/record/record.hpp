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
  explicit Record(Database database, std::vector<std::string> notes = {})
      : database_(std::move(database)), notes_(std::move(notes)) {}
  [[nodiscard]] Database& database() { return database_; }
  /// Kept in memory only, since its file could not be opened: to be saved elsewhere (save_copy).
  [[nodiscard]] bool in_memory() const { return database_.access() == Access::memory; }
  [[nodiscard]] bool read_only() const {
    return database_.access() == Access::read_only || database_.access() == Access::unchanging;
  }
  [[nodiscard]] const std::string& path() const { return database_.path(); }
  /// What the user should know of how it was opened, in whole sentences: no backup today, an older way of writing, ...
  [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }

 private:
  Database database_;
  std::vector<std::string> notes_;
};

struct OpenOptions {
  bool read_only = false;    ///< for reports: nothing is made or brought up to date
  bool keep_backups = true;  ///< a backup of the day at opening, and older ones thinned out (backup.hpp)
  bool must_exist = false;   ///< a missing file is an error instead of a new record
  int wait_ms = 5000;        ///< how long a statement waits for another program's write
};

/// Opens the record at `path`; a missing one is made (with its folder, for the owner alone), an older one brought up to
/// date (after a backup). Its integrity is looked at first; a damaged file is never written to. Errors, each saying
/// what to do: Code::bad_input for a damaged file, and for a missing one that has backups (both name the newest good
/// backup), a database that is not a record, a record of a newer program; Code::io for a folder or file that cannot be
/// written or read, a full disk, a file locked by another program. A confirmed write survives a power cut (synchronous
/// = FULL).
Result<Record> open_record(const std::string& path, const OpenOptions& options = {});

/// A record in memory, for work to go on when the file cannot be opened.
Record record_in_memory();

struct Opened {
  Record record;
  Problems problems;  ///< why it is in memory; empty when it is the file's
};

/// The record at `path`, or one in memory together with the reason.
Opened open_or_memory(const std::string& path, const OpenOptions& options = {});

/// Saves the record to a new file: for one in memory, or as a copy. The record itself stays where it is. Errors:
/// Code::bad_input when there is a file already, Code::io.
Result<Done> save_copy(Record& record, const std::string& path);

/// The file used when none is named: "record.fitwright" in the program's folder of the user's data folder (XDG base
/// directory specification). Does not make it. Errors: Code::io when there is no home.
Result<std::string> default_record_path();

/// A DatabaseError in our own words: what happened, where, what to do. Code::io, or Code::bad_input when it is about
/// the content.
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
