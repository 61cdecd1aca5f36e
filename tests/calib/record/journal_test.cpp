// What is told of a journal, against SQLite itself: the writes counted are those that SQLite takes.

#include "record/journal.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "calib/record/scratch.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;

namespace {

constexpr int writes = 25;

struct Left {
  std::string bytes, journal;
};

/// A record with an empty journal, then `writes` printers, each a write of its own.
Left left_by_a_kill(const scratch::Folder& folder) {
  const std::string path = folder / "live.fitwright";
  Record record = scratch::opened(path);
  record.database().each("PRAGMA wal_checkpoint(TRUNCATE)", [](Statement&) {});
  for (int k = 0; k < writes; ++k) REQUIRE(add(record, Printer{}).ok());
  return {scratch::bytes_of(path), scratch::bytes_of(path + "-wal")};
}

/// How many of them SQLite finds.
long long taken_by_sqlite(const std::string& path, const Left& left, const std::string& journal) {
  for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(path + end);
  scratch::put(path, left.bytes);
  scratch::put(path + "-wal", journal);
  Database database(path, Access::read_only);
  return database.number("SELECT count(*) FROM printer").value_or(-1);
}

}  // namespace

TEST_CASE("a sound journal: every write is counted and none is lost") {
  const scratch::Folder folder(true);
  const Left left = left_by_a_kill(folder);
  const JournalLook look = look_at_journal(left.journal);
  CHECK(look.sound_header);
  CHECK(look.taken == writes);
  CHECK(look.lost == 0);
  CHECK(taken_by_sqlite(folder / "copy", left, left.journal) == writes);
  CHECK(look_at_journal("").taken == 0);
  CHECK(look_at_journal_file(folder / "nothing").taken == 0);
}

TEST_CASE("a journal cut off or with a flipped bit: the writes counted are those that SQLite takes") {
  const scratch::Folder folder(true);
  const Left left = left_by_a_kill(folder);
  std::mt19937_64 random(11);
  for (int k = 0; k < 100; ++k) {
    std::string journal = left.journal;
    const std::size_t at = random() % journal.size();
    if (k % 4 == 0)
      journal.resize(at);
    else
      journal[at] = static_cast<char>(journal[at] ^ 1 << random() % 8);
    INFO("damage " << k << " at " << at);
    const JournalLook look = look_at_journal(journal);
    CHECK(taken_by_sqlite(folder / "copy", left, journal) == (look.sound_header ? look.taken : 0));
    // A flipped bit takes away no end of a write but its own: the rest is counted as lost.
    if (k % 4 != 0 && look.sound_header) CHECK(look.taken + look.lost >= writes - 1);
  }
}

TEST_CASE("a journal begun anew over an older one: what is left of the older is not counted") {
  const scratch::Folder folder(true);
  const std::string path = folder / "live.fitwright";
  Record record = scratch::opened(path);
  for (int k = 0; k < writes; ++k) REQUIRE(add(record, Printer{}).ok());
  record.database().each("PRAGMA wal_checkpoint(RESTART)", [](Statement&) {});
  for (int k = 0; k < 3; ++k) REQUIRE(add(record, Printer{}).ok());
  const JournalLook look = look_at_journal(scratch::bytes_of(path + "-wal"));
  CHECK(look.taken == 3);
  CHECK(look.lost == 0);
}
