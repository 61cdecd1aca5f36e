#pragma once
// A look at a file before it is used, without writing to it: what it is, and whether it holds what was written.

#include <optional>
#include <string>

#include "base/result.hpp"
#include "record/database.hpp"

namespace fitwright::record {

struct Look {
  enum class Kind {
    missing,
    empty,       ///< no bytes, or a database with nothing in it: a record not yet begun
    record,      ///< a sound record of this or an earlier version
    newer,       ///< a record of a later program
    foreign,     ///< a database of something else
    other_file,  ///< no database
    damaged,
    unusable,  ///< could not be looked at: `problem` says why
  };
  Kind kind = Kind::missing;
  int version = 0;       ///< of its tables
  std::string found;     ///< for damaged and other_file: what, in words that follow on "the record"
  bool waiting = false;  ///< a writer was cut off in the old journal's way: only opening for writing can put it right
  std::optional<Problem> problem;
  std::string note;  ///< for a sound record: what the user should know, in a whole sentence
};

/// What the file at `path` is. A small file is checked whole, indices and references too; of a large one every page and
/// the order of the entries. `wait_ms`: how long to wait for another program.
Look look_at(const std::string& path, int newest_version, int wait_ms);

/// The same through a connection that is open already; for one that may write this puts a cut-off writer's part right.
Look look_through(Database& database, int newest_version);

/// How to open a file for reading: unchanging where nothing can be written beside it and nothing waits there.
Access reading_access(const std::string& path);

/// Of a file that SQLite keeps beside a record ("-wal", "-journal"): whether it is there and holds anything.
bool holds_something(const std::string& path);

/// Whether SQLite's code tells of content that is not what was written.
bool tells_damage(int code);

}  // namespace fitwright::record
