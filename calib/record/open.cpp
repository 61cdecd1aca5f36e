#include <fcntl.h>
#include <sqlite3.h>
#include <sys/vfs.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <filesystem>

#include "record/backup.hpp"
#include "record/files.hpp"
#include "record/look.hpp"
#include "record/opening.hpp"
#include "record/record.hpp"
#include "record/schema.hpp"
#include "record/store.hpp"
#include "record/wording.hpp"

namespace fitwright::record {
namespace {

using Kind = Look::Kind;

void set_up(Database& database, int wait_ms) {
  sqlite3_busy_timeout(database.handle(), wait_ms);
  sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);  // no way round the tables
  database.script(
      "PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;"
      "PRAGMA temp_store = MEMORY;");
}

Problem problem(Code code, const std::string& path, const std::string& what, const std::string& remedy) {
  return {code, {path, 0, 0}, what, remedy};
}

/// What stands against using the file as a record; empty when nothing does.
std::optional<Problem> objection(const Look& look, const std::string& path, const OpenOptions& options, int newest) {
  constexpr const char* other = "name another file with --record FILE";
  switch (look.kind) {
    case Kind::unusable:
      return look.problem;
    case Kind::damaged:
      return damaged_problem(path, look.found);
    case Kind::foreign:
      return problem(Code::bad_input, path, "is a database of another program, not a record", other);
    case Kind::other_file:
      return problem(Code::bad_input, path, "is not a record: it " + look.found, other);
    case Kind::newer:
      return problem(Code::bad_input, path,
                     "the record is of a newer program (version " + std::to_string(look.version) +
                         " of its tables; this one knows up to " + std::to_string(newest) + ")",
                     "use the newer program; nothing was written to it");
    case Kind::record:
      if (options.read_only && look.waiting) return problem_of(DatabaseError(SQLITE_READONLY_ROLLBACK, ""), path);
      if (options.read_only && look.version < newest)
        return problem(Code::bad_input, path,
                       "the record is of an earlier program and has to be brought up to date before it is read",
                       "open it once for writing; a backup is made first");
      return std::nullopt;
    case Kind::missing:
    case Kind::empty: {
      const bool missing = look.kind == Kind::missing;
      if (!backups_of(path).empty())
        return problem(Code::bad_input, path,
                       std::string("the record is ") + (missing ? "not there any more" : "empty") +
                           ", while backups of it are in " + backup_folder(path),
                       way_back(path) + "; to begin a new one, move the backups to another folder first");
      if (options.must_exist || options.read_only)
        return problem(Code::io, path, missing ? "there is no record here" : "the record is empty",
                       missing ? "check the name" : "open it once for writing to begin it");
      return std::nullopt;
    }
  }
  return std::nullopt;
}

/// Whether this program may write the file and beside it.
std::optional<Problem> may_not_write(const std::string& path) {
  for (const std::string& what : {path, folder_of(path)})
    if (::faccessat(AT_FDCWD, what.c_str(), W_OK, AT_EACCESS) != 0) {
      if (what == path && errno == ENOENT) continue;
      Problem denied =
          system_problem(path, errno, what == path ? "cannot be written" : "cannot be written in its folder");
      denied.remedy += ", or open it for reading only";
      return denied;
    }
  return std::nullopt;
}

std::string today_utc() { return now_utc().substr(0, std::string("2026-11-25").size()); }

bool lies_far(const std::string& path) {
  struct statfs status {};
  return ::statfs(path.c_str(), &status) == 0 && on_another_computer(static_cast<unsigned long>(status.f_type));
}

Result<Record> open_to_read(const std::string& path, const Look& look, const OpenOptions& options) {
  Database database(path, reading_access(path));
  set_up(database, options.wait_ms);
  return Record(std::move(database), look.note.empty() ? std::vector<std::string>{} : std::vector{look.note});
}

Result<Record> open_to_write(const std::string& path, const Look& look, const OpenOptions& options,
                             const std::vector<Migration>& steps, const std::string& today) {
  const int newest = steps.back().to;
  if (look.kind == Kind::missing) {
    if (const auto made = make_folder(folder_of(path)); !made) return made.problems();
    if (const auto made = make_file(path); !made) return made.problems();
  }
  if (const auto denied = may_not_write(path)) return *denied;
  std::vector<std::string> notes;
  if (!look.note.empty()) notes.push_back(look.note);
  Database database(path, Access::read_write);
  if (sqlite3_db_readonly(database.handle(), "main") == 1) return problem_of(DatabaseError(SQLITE_READONLY, ""), path);
  set_up(database, options.wait_ms);
  int version = look.version;
  if (look.waiting) {  // reading puts right what a cut-off writer left; only then can it be looked at
    const Look now = look_through(database, newest);
    if (const auto against = objection(now, path, options, newest)) return *against;
    version = now.version;
  }
  if (const std::string note = choose_journal(database, lies_far(path), options.wait_ms); !note.empty())
    notes.push_back(note);
  Record record(std::move(database));
  std::string before;
  if (version > 0 && version < newest) {
    const auto kept = back_up_before(record, newest, today);
    if (!kept) {
      Problems problems = kept.problems();
      problems.push_back(problem(Code::io, path, "the record is of an earlier program and was not brought up to date",
                                 "make a backup possible first"));
      return problems;
    }
    before = *kept;
    notes.push_back("The record was brought up to date; as it was before it is kept in " + before + ".");
  }
  try {
    migrate(record.database(), steps);
  } catch (const DatabaseError& error) {
    Problem failed = problem_of(error, path);
    if (before.empty()) return failed;
    failed.what = "the record could not be brought up to date: " + failed.what;
    failed.remedy = "as it was it is kept in " + before + "; " + failed.remedy;
    return failed;
  }
  // A new record's tables go into the file itself, so that it says what it is even without its journal.
  if (version == 0 && record.database().word("PRAGMA journal_mode") == "wal")
    record.database().each("PRAGMA wal_checkpoint(TRUNCATE)", [](Statement&) {});
  if (options.keep_backups)
    for (const std::string& note : back_up_today(record, today)) notes.push_back(note);
  return Record(std::move(record.database()), std::move(notes));
}

}  // namespace

bool on_another_computer(unsigned long file_system) {
  // linux/magic.h (NFS, SMB, CIFS, SMB2, AFS, Coda, Ceph, 9P).
  constexpr std::array<unsigned long, 8> far{0x6969,     0x517B,     0xFF534D42, 0xFE534D42,
                                             0x5346414F, 0x73757245, 0x00c36400, 0x01021997};
  return std::find(far.begin(), far.end(), file_system & 0xFFFFFFFFul) != far.end();
}

std::string choose_journal(Database& database, bool far, int wait_ms) {
  const std::string present = database.word("PRAGMA journal_mode").value_or("");
  const std::string wanted = far ? "delete" : "wal";
  if (present == wanted) return {};
  std::string reached = present;
  // Changing the mode does not wait by itself for another program that does the same.
  constexpr int pause_ms = 20;
  for (int waited = 0; waited <= wait_ms; waited += pause_ms) {
    try {
      reached = database.word("PRAGMA journal_mode = " + wanted).value_or("");
      break;
    } catch (const DatabaseError& error) {
      if ((error.code & 0xff) != SQLITE_BUSY) {
        if (tells_damage(error.code) || (error.code & 0xff) == SQLITE_FULL) throw;
        reached = database.word("PRAGMA journal_mode = delete").value_or("");
        break;
      }
      if (waited + pause_ms > wait_ms) throw;
      sqlite3_sleep(pause_ms);
    }
  }
  if (reached == "wal") return {};
  return "The record lies on a disk of another computer or one without shared memory: windows and programs that use it "
         "at "
         "once wait for one another. On a disk of this computer they would not.";
}

Result<Record> open_with(const std::string& named, const OpenOptions& options, const std::vector<Migration>& steps,
                         const std::string& today) {
  const std::string path = resolved(named);
  try {
    const int newest = steps.back().to;
    const Look look = look_at(path, newest, options.wait_ms);
    if (const auto against = objection(look, path, options, newest)) return *against;
    if (options.read_only) return open_to_read(path, look, options);
    return open_to_write(path, look, options, steps, today.empty() ? today_utc() : today);
  } catch (const DatabaseError& error) {
    return problem_of(error, path);
  }
}

Result<Record> open_record(const std::string& path, const OpenOptions& options) {
  return open_with(path, options, migrations());
}

Record record_in_memory() {
  Database database("", Access::memory);
  set_up(database, 0);
  migrate(database);
  return Record(std::move(database));
}

Opened open_or_memory(const std::string& path, const OpenOptions& options) {
  auto opened = open_record(path, options);
  if (opened) return {std::move(*opened), {}};
  return {record_in_memory(), opened.problems()};
}

Result<Done> save_copy(Record& record, const std::string& path) {
  if (const auto made = make_folder(folder_of(path)); !made) return made.problems();
  return back_up(record, path);
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

}  // namespace fitwright::record
