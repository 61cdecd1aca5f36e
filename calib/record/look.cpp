#include "record/look.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "record/journal.hpp"
#include "record/pages.hpp"
#include "record/schema.hpp"
#include "record/wording.hpp"

namespace fitwright::record {
namespace {

using Kind = Look::Kind;

/// Files up to this many pages (of 4096 bytes) are checked whole at each opening: a bench's first years, some 20 ms.
constexpr long long pages_checked_whole = 2048;

// Offsets in the file header: sqlite.org/fileformat2.html, 1.3.
constexpr int header_bytes = 100;
constexpr char magic[] = "SQLite format 3";
constexpr std::size_t at_page_size = 16, at_reserved = 20, at_application = 68;

using Header = std::array<unsigned char, header_bytes>;

/// The header as it lies in the file. Read through SQLite's own handle: another one, when closed, would let go the
/// locks that this process holds on the file (sqlite.org/howtocorrupt.html, 2.2).
std::optional<Header> header_of(Database& database, sqlite3_int64& size) {
  sqlite3_file* file = nullptr;
  Header header{};
  if (sqlite3_file_control(database.handle(), "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK || !file ||
      !file->pMethods || file->pMethods->xFileSize(file, &size) != SQLITE_OK)
    return std::nullopt;
  if (size < header_bytes || file->pMethods->xRead(file, header.data(), header_bytes, 0) != SQLITE_OK)
    return std::nullopt;
  return header;
}

long long number_at(const Header& header, std::size_t at) {
  return header[at] * 16777216ll + header[at + 1] * 65536 + header[at + 2] * 256 + header[at + 3];
}

Look damaged(const std::string& found) { return {Kind::damaged, 0, found, false, {}, {}}; }

/// What the first bytes say, if that settles it.
std::optional<Look> by_header(Database& database) {
  sqlite3_int64 size = 0;
  const auto header = header_of(database, size);
  if (!header)
    return Look{Kind::other_file, 0, "is too short for one (" + std::to_string(size) + " bytes)", false, {}, {}};
  const bool ours = number_at(*header, at_application) == application_id;
  if (std::memcmp(header->data(), magic, sizeof magic) != 0) {
    if (ours) return damaged("is damaged in its first bytes");
    return Look{Kind::other_file, 0, "is some other kind of file", false, {}, {}};
  }
  const int size_of_page = (*header)[at_page_size] << 8 | (*header)[at_page_size + 1];
  const bool summed = size_of_page == page_bytes && (*header)[at_reserved] == sum_bytes;
  if (summed) return std::nullopt;
  if (ours) return damaged("is damaged in its first bytes, or was rewritten by another program");
  return Look{Kind::foreign, 0, {}, false, {}, {}};
}

/// Tables that a record must have.
std::string missing_table(Database& database) {
  for (const std::string& table : thing_tables())
    if (!database.number("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?", table)) return table;
  return {};
}

Look by_content(Database& database, int newest_version) {
  Look look;
  const long long pages = database.number("PRAGMA page_count").value_or(0);
  const long long application = database.number("PRAGMA application_id").value_or(0);
  look.version = static_cast<int>(database.number("PRAGMA user_version").value_or(0));
  const bool bare = database.number("SELECT count(*) FROM sqlite_schema").value_or(0) == 0;
  if (bare && application == 0 && look.version == 0) {
    look.kind = Kind::empty;
    return look;
  }
  if (application != application_id) {
    look.kind = Kind::foreign;
    return look;
  }
  if (look.version > newest_version) {
    look.kind = Kind::newer;
    return look;
  }
  look.kind = Kind::record;
  const bool whole = pages <= pages_checked_whole;
  long long faults = 0;
  database.each(whole ? "PRAGMA integrity_check" : "PRAGMA quick_check",
                [&](Statement& row) { faults += row.text(0) == "ok" ? 0 : 1; });
  if (const auto page = take_bad_page())
    return damaged("is damaged: page " + std::to_string(*page) + " of " + std::to_string(pages) +
                   " does not hold what was written to it");
  if (faults > 0)
    return damaged("is damaged: " + (faults == 1 ? std::string("a fault") : std::to_string(faults) + " faults") +
                   " in the order of its " + std::to_string(pages) + " pages");
  if (whole && database.number("SELECT count(*) FROM pragma_foreign_key_check").value_or(0) > 0)
    return damaged("is damaged: some of its entries refer to what is not there");
  if (const std::string table = missing_table(database); !table.empty() && look.version > 0)
    return damaged("is damaged: its table \"" + table + "\" is missing");
  return look;
}

/// Runs `work`; what SQLite finds damaged is a finding, other errors a problem.
template <class Work>
Look told(const std::string& path, Work&& work) {
  take_bad_page();
  try {
    return work();
  } catch (const DatabaseError& error) {
    const auto page = take_bad_page();
    if (page) return damaged("is damaged: page " + std::to_string(*page) + " does not hold what was written to it");
    if (tells_damage(error.code)) return damaged("is damaged: its content is not what was written, or is cut off");
    const bool cut_off = error.code == SQLITE_READONLY_ROLLBACK || error.code == SQLITE_READONLY_RECOVERY;
    if (cut_off) return {Kind::record, 0, {}, true, {}, {}};
    return {Kind::unusable, 0, {}, false, problem_of(error, path), {}};
  }
}

/// What the system says of the path itself, if that settles it.
std::optional<Look> by_system(const std::string& path) {
  struct stat status {};
  const auto unusable = [&](int error) {
    return Look{Kind::unusable, 0, {}, false, system_problem(path, error, "cannot be read"), {}};
  };
  if (::stat(path.c_str(), &status) != 0) {
    if (errno != ENOENT) return unusable(errno);
    if (holds_something(path + "-wal"))
      return damaged("is missing, while its journal " + path + "-wal with the latest entries is there");
    return Look{Kind::missing, 0, {}, false, {}, {}};
  }
  if (S_ISDIR(status.st_mode)) return Look{Kind::other_file, 0, "is a folder", false, {}, {}};
  if (!S_ISREG(status.st_mode)) return Look{Kind::other_file, 0, "is not an ordinary file", false, {}, {}};
  if (::faccessat(AT_FDCWD, path.c_str(), R_OK, AT_EACCESS) != 0) return unusable(errno);
  if (status.st_size == 0) {
    if (holds_something(path + "-wal"))
      return damaged("is empty, while its journal " + path + "-wal with the latest entries is there");
    return Look{Kind::empty, 0, {}, false, {}, {}};
  }
  return std::nullopt;
}

}  // namespace

bool holds_something(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && status.st_size > 0;
}

bool tells_damage(int code) {
  const int primary = code & 0xff;
  return primary == SQLITE_CORRUPT || primary == SQLITE_NOTADB || primary == SQLITE_FORMAT ||
         code == SQLITE_IOERR_DATA || code == SQLITE_IOERR_CORRUPTFS || code == SQLITE_IOERR_SHORT_READ;
}

Access reading_access(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const bool can_write_beside = ::faccessat(AT_FDCWD, folder.empty() ? "." : folder.c_str(), W_OK, AT_EACCESS) == 0;
  struct stat memory {};
  const bool shared = ::stat((path + "-shm").c_str(), &memory) == 0;
  const bool waits = holds_something(path + "-wal") || holds_something(path + "-journal");
  return can_write_beside || shared || waits ? Access::read_only : Access::unchanging;
}

Look look_at(const std::string& path, int newest_version, int wait_ms) {
  if (const auto settled = by_system(path)) return *settled;
  const std::string journal = path + "-wal";
  const JournalLook latest = holds_something(journal) ? look_at_journal_file(journal) : JournalLook{};
  if (!latest.sound_header) return damaged("is damaged: its journal " + journal + " with the latest entries is");
  // One end of a write behind a bad place: a power cut or a kill while it was written, so that nobody was told it was
  // kept. Two: the first of them had been made sure of on the disk.
  if (latest.lost > 1)
    return damaged("is damaged: " + std::to_string(latest.lost) + " of the latest writes, in its journal " + journal +
                   ", cannot be read");
  Look look = told(path, [&]() -> Look {
    Database database(path, reading_access(path));
    sqlite3_busy_timeout(database.handle(), wait_ms);
    if (const auto settled = by_header(database)) return *settled;
    return by_content(database, newest_version);
  });
  if (latest.lost == 1)
    look.note =
        "The last write to the record was cut off (the program or the power failed in the middle of it) and is not in "
        "it: look at the last entries and make good what is missing.";
  return look;
}

Look look_through(Database& database, int newest_version) {
  return told(database.path(), [&] { return by_content(database, newest_version); });
}

}  // namespace fitwright::record
