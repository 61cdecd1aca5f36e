#include <sqlite3.h>

#include <cstdlib>
#include <filesystem>

#include "record/record.hpp"
#include "record/schema.hpp"

namespace fitwright::record {
namespace {

void set_up(Database& database) {
  database.script("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF;");
}

}  // namespace

Result<Record> open_record(const std::string& path, const OpenOptions& options) {
  try {
    Database database(path, options.read_only ? Access::read_only : Access::read_write);
    set_up(database);
    if (!options.read_only) {
      database.script("PRAGMA journal_mode = WAL;");
      migrate(database);
    }
    return Record(std::move(database));
  } catch (const DatabaseError& error) {
    return problem_of(error, path);
  }
}

Record record_in_memory() {
  Database database("", Access::memory);
  set_up(database);
  migrate(database);
  return Record(std::move(database));
}

Result<std::string> default_record_path() {
  const char* data = std::getenv("XDG_DATA_HOME");
  const char* home = std::getenv("HOME");
  std::filesystem::path folder;
  if (data && *data == '/')
    folder = data;
  else if (home && *home)
    folder = std::filesystem::path(home) / ".local/share";
  else
    return Problem{Code::io, {}, "there is no home folder to keep the record in", "name a file with --record FILE"};
  return (folder / "fitwright/record.fitwright").string();
}

Problem problem_of(const DatabaseError& error, const std::string& path) {
  return {Code::io, {path, 0, 0}, "the record could not be used (" + std::to_string(error.code) + ")", "try again"};
}

}  // namespace fitwright::record
