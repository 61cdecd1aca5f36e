#include "record/backup.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <filesystem>

#include "record/files.hpp"
#include "record/look.hpp"
#include "record/rotation.hpp"
#include "record/schema.hpp"
#include "record/store.hpp"
#include "record/wording.hpp"

namespace fitwright::record {
namespace {

namespace fs = std::filesystem;

constexpr const char* ending = ".fitwright";
constexpr int wait_ms = 5000;
constexpr std::size_t date_length = 10;
/// A copy cut off by a power failure is cleared away after this long; until then it may be another window's.
constexpr std::chrono::hours stale_after{24};

/// The record's name without its ending.
std::string stem_of(const std::string& record_path) {
  std::string name = fs::path(resolved(record_path)).filename().string();
  if (name.ends_with(ending)) name.resize(name.size() - std::string(ending).size());
  return name;
}

std::string path_of(const std::string& record_path, const std::string& date, const std::string& more = {}) {
  return (fs::path(backup_folder(record_path)) / (stem_of(record_path) + '.' + date + more + ending)).string();
}

/// Calls `take` with the path, date and what follows the date for each file whose name begins as this record's backups.
template <class Take>
void each_backup(const std::string& record_path, Take&& take) {
  const std::string start = stem_of(record_path) + '.';
  std::error_code none;
  for (auto entry = fs::directory_iterator(backup_folder(record_path), none); entry != fs::directory_iterator();
       entry.increment(none)) {
    const std::string name = entry->path().filename().string();
    if (!name.starts_with(start) || name.size() < start.size() + date_length) continue;
    const std::string date = name.substr(start.size(), date_length);
    if (is_date(date)) take(entry->path().string(), date, name.substr(start.size() + date_length));
  }
}

bool holds_facts(Database& database) {
  for (const std::string& table : thing_tables())
    if (database.number("SELECT 1 FROM " + table + " LIMIT 1")) return true;
  return false;
}

/// Copies all pages by SQLite's online backup: the content is that of one moment. Throws DatabaseError.
void copy_pages(Database& from, const std::string& to) {
  Database target(to, Access::read_write);
  target.script("PRAGMA synchronous = OFF");  // made sure of on the disk as a whole, before it gets its name
  sqlite3_backup* copying = sqlite3_backup_init(target.handle(), "main", from.handle(), "main");
  if (!copying) throw DatabaseError(sqlite3_extended_errcode(target.handle()), sqlite3_errmsg(target.handle()));
  constexpr int all_pages = -1;
  int code = SQLITE_BUSY, system = 0;
  for (int tries = 0; tries < 50 && (code == SQLITE_BUSY || code == SQLITE_LOCKED); ++tries) {
    if (tries > 0) sqlite3_sleep(wait_ms / 50);
    errno = 0;
    code = sqlite3_backup_step(copying, all_pages);
    system = errno;
  }
  const int end = sqlite3_backup_finish(copying);
  if (code != SQLITE_DONE) throw DatabaseError(end != SQLITE_OK ? end : code, "copying stopped", system);
  // A copy lies still: no journal beside it, so that it can be read from where nothing can be written.
  target.script("PRAGMA journal_mode = DELETE");
}

Result<Done> copy_to(Database& from, const std::string& to, bool replace) {
  auto temporary = Temporary::beside(to);
  if (!temporary) return temporary.problems();
  int version = schema_version;
  try {
    version = static_cast<int>(from.number("PRAGMA user_version").value_or(0));
    copy_pages(from, temporary->path());
  } catch (const DatabaseError& error) {
    // Damage is the source's; all else is about the place that the copy goes to.
    return problem_of(error, tells_damage(error.code) ? from.path() : to);
  }
  const Look look = look_at(temporary->path(), version, wait_ms);
  const bool sound = look.kind == Look::Kind::record || look.kind == Look::Kind::empty;
  if (!sound)
    return Problem{Code::io,
                   {to, 0, 0},
                   "the copy did not come out as the record is",
                   "do not trust the disk: save a copy elsewhere"};
  return temporary->put(to, replace);
}

bool same_file(const std::string& a, const std::string& b) {
  std::error_code none;
  return fs::equivalent(a, b, none);
}

void clear_stale(const std::string& record_path) {
  std::vector<fs::path> stale;
  each_backup(record_path, [&](const std::string& path, const std::string&, const std::string& rest) {
    constexpr std::size_t made_up = 7;  // ".XXXXXX" of a temporary file
    const std::size_t length = std::string(ending).size();
    if (rest.size() != length + made_up || !rest.starts_with(ending) || rest[length] != '.') return;
    std::error_code none;
    const auto written = fs::last_write_time(path, none);
    if (!none && written < fs::file_time_type::clock::now() - stale_after) stale.emplace_back(path);
  });
  std::error_code none;
  for (const fs::path& path : stale) fs::remove(path, none);
}

void thin_out(const std::string& record_path, const std::string& today) {
  std::vector<std::string> dates;
  each_backup(record_path, [&](const std::string&, const std::string& date, const std::string& rest) {
    if (rest == ending) dates.push_back(date);
  });
  const auto kept = to_keep(dates, today);
  std::error_code none;
  for (const std::string& date : dates)
    if (!std::binary_search(kept.begin(), kept.end(), date)) fs::remove(path_of(record_path, date), none);
}

/// A name beside `path` that is not taken.
std::string aside_name(const std::string& path) {
  std::string moment = now_utc().substr(0, 19);
  std::replace(moment.begin(), moment.end(), ':', '-');
  const std::string name = path + ".set-aside-" + moment;
  std::error_code none;
  for (int k = 1;; ++k) {
    const std::string candidate = k == 1 ? name : name + '-' + std::to_string(k);
    if (!fs::exists(candidate, none) && !fs::exists(candidate + "-wal", none)) return candidate;
  }
}

/// Holds the lock that nobody else may have who has the file open. False when somebody has.
class Alone {
 public:
  explicit Alone(const std::string& path) {
    try {
      held_.emplace(path, Access::read_write);
    } catch (const DatabaseError&) {
      return;  // not to be opened for writing: then nobody writes it either
    }
    sqlite3_file* file = nullptr;
    sqlite3_file_control(held_->handle(), "main", SQLITE_FCNTL_FILE_POINTER, &file);
    if (!file || !file->pMethods || sqlite3_db_readonly(held_->handle(), "main") == 1) return;
    alone_ = file->pMethods->xLock(file, SQLITE_LOCK_SHARED) == SQLITE_OK &&
             file->pMethods->xLock(file, SQLITE_LOCK_RESERVED) == SQLITE_OK &&
             file->pMethods->xLock(file, SQLITE_LOCK_EXCLUSIVE) == SQLITE_OK;
    if (!alone_) file->pMethods->xUnlock(file, SQLITE_LOCK_NONE);
  }
  explicit operator bool() const { return alone_; }

 private:
  std::optional<Database> held_;
  bool alone_ = true;
};

/// Moves a file and what SQLite keeps beside it.
Result<std::string> set_aside(const std::string& path) {
  const std::string name = aside_name(path);
  for (const char* end : {"-wal", "-journal", "-shm", ""}) {
    const int error = rename_new(path + end, name + end);
    if (error == 0 || error == ENOENT) continue;
    for (const char* back : {"-wal", "-journal", "-shm"}) rename_new(name + back, path + back);
    return system_problem(path, error, "cannot be set aside");
  }
  return name;
}

}  // namespace

std::string backup_folder(const std::string& record_path) {
  return (fs::path(folder_of(resolved(record_path))) / "backups").lexically_normal().string();
}

std::vector<Backup> backups_of(const std::string& record_path) {
  std::vector<Backup> found;
  each_backup(record_path, [&](const std::string& path, const std::string& date, const std::string& rest) {
    if (rest.ends_with(ending)) found.push_back({path, date});
  });
  std::sort(found.begin(), found.end(),
            [](const Backup& a, const Backup& b) { return std::tie(b.date, b.path) < std::tie(a.date, a.path); });
  return found;
}

std::optional<Backup> newest_good_backup(const std::string& record_path) {
  for (const Backup& backup : backups_of(record_path))
    if (look_at(backup.path, schema_version, wait_ms).kind == Look::Kind::record) return backup;
  return std::nullopt;
}

Result<Done> back_up(Record& record, const std::string& to, bool replace) {
  if (!record.in_memory() && same_file(record.path(), to))
    return Problem{Code::bad_input, {to, 0, 0}, "is the record itself", "choose another name"};
  std::error_code none;
  if (!replace && fs::exists(to, none))
    return Problem{Code::bad_input, {to, 0, 0}, "there is a file of that name already", "choose another name"};
  return copy_to(record.database(), to, replace);
}

std::vector<std::string> back_up_today(Record& record, const std::string& today) {
  const std::string path = path_of(record.path(), today);
  std::error_code none;
  if (fs::exists(path, none)) return {};
  const auto failed = [&](const Problems& problems) {
    return std::vector<std::string>{"no backup was made today: " + problems.front().text()};
  };
  try {
    if (!holds_facts(record.database())) return {};
  } catch (const DatabaseError& error) {
    return failed({problem_of(error, record.path())});
  }
  if (const auto made = make_folder(backup_folder(record.path())); !made) return failed(made.problems());
  clear_stale(record.path());
  if (const auto done = copy_to(record.database(), path, true); !done) return failed(done.problems());
  thin_out(record.path(), today);
  return {};
}

Result<std::string> back_up_before(Record& record, int version, const std::string& today) {
  const std::string path = path_of(record.path(), today, ".before-version-" + std::to_string(version));
  if (const auto made = make_folder(backup_folder(record.path())); !made) return made.problems();
  if (const auto done = copy_to(record.database(), path, true); !done) return done.problems();
  return path;
}

Result<Restored> restore_backup(const std::string& named, const std::string& backup) {
  const std::string record_path = resolved(named);
  if (same_file(record_path, backup))
    return Problem{Code::bad_input, {backup, 0, 0}, "is the record itself", "name one of its backups"};
  const Look look = look_at(backup, schema_version, wait_ms);
  if (look.problem) return *look.problem;
  if (look.kind != Look::Kind::record)
    return Problem{Code::bad_input,
                   {backup, 0, 0},
                   "is not a sound backup of a record of this program or an earlier one",
                   way_back(record_path)};
  if (const auto made = make_folder(folder_of(record_path)); !made) return made.problems();
  auto temporary = Temporary::beside(record_path);
  if (!temporary) return temporary.problems();
  try {
    Database source(backup, reading_access(backup));
    copy_pages(source, temporary->path());
  } catch (const DatabaseError& error) {
    return problem_of(error, tells_damage(error.code) ? backup : record_path);
  }
  Restored restored;
  std::error_code none;
  if (fs::exists(record_path, none) || holds_something(record_path + "-wal")) {
    std::optional<Alone> alone;
    if (fs::is_regular_file(record_path, none)) alone.emplace(record_path);
    if (alone && !*alone)
      return Problem{Code::io,
                     {record_path, 0, 0},
                     "the record is open in another window or program",
                     "close it there and try again: nothing was changed"};
    const auto moved = set_aside(record_path);
    if (!moved) return moved.problems();
    restored.set_aside = *moved;
  }
  if (const auto done = temporary->put(record_path, false); !done) return done.problems();
  return restored;
}

}  // namespace fitwright::record
