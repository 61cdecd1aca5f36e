// From version to version: a kept file of each opens; each step whole or not at all, after a backup.

#include <catch2/catch.hpp>
#include <filesystem>

#include "calib/record/scratch.hpp"
#include "record/backup.hpp"
#include "record/integrity.hpp"
#include "record/look.hpp"
#include "record/opening.hpp"
#include "record/schema.hpp"
#include "record/store.hpp"

namespace fs = std::filesystem;
using namespace fitwright;
using namespace fitwright::record;
using Catch::Matchers::Contains;

namespace {

std::string kept(int version) {
  return FW_SOURCE "/tests/calib/record/kept/version_" + std::to_string(version) + ".fitwright";
}

/// All that makes up the tables, by name.
std::string schema_of(Database& database) {
  std::string text;
  database.each("SELECT type, name, sql FROM sqlite_schema ORDER BY name",
                [&](Statement& row) { text += row.text(0) + ' ' + row.text(1) + ": " + row.text(2) + '\n'; });
  return text;
}

std::vector<Migration> with_second(const std::string& sql) {
  std::vector<Migration> steps = migrations();
  steps.push_back({schema_version + 1, sql});
  return steps;
}

constexpr const char* adds_a_column = "ALTER TABLE printer ADD COLUMN place TEXT NOT NULL DEFAULT ''";

}  // namespace

// Run by hand after a new version: test_record "[keep]". It writes the file that the test below wants.
TEST_CASE("write the kept file of this version", "[.][keep]") {
  const std::string path = kept(schema_version);
  REQUIRE_FALSE(fs::exists(path));
  const scratch::Folder folder;
  Record record = scratch::opened(folder / "record.fitwright");
  scratch::fill(record, 40);
  REQUIRE(back_up(record, path).ok());
}

TEST_CASE("the kept file of every version opens, with all that is in it") {
  for (int version = 1; version <= schema_version; ++version) {
    INFO("version " << version);
    const scratch::Folder folder;
    const std::string path = folder / "record.fitwright";
    fs::copy_file(kept(version), path);
    fs::permissions(path, fs::perms(0600));
    CHECK(look_at(path, schema_version, 100).version == version);
    Record record = scratch::opened(path);
    CHECK(scratch::told(check_record(record)).empty());
    REQUIRE(all<Printer>(record)->size() == 1);
    CHECK(all<Printer>(record)->front().value.name == "Heron");
    CHECK(all<Spool>(record)->front().value.name == "PLA slate, batch 14");
    const auto readings = all<StoredReading>(record);
    REQUIRE(readings->size() == 40);
    CHECK(readings->front().value.reading_mm == Approx(20.02));  // amended
    CHECK(history<StoredReading>(record, readings->front().thing)->size() == 2);
    // The tables come out as a new record has them. If this fails, they were changed without a new version: add a
    // migration, or, as long as the version was never given out, delete the kept file and run the test above.
    Record fresh = record_in_memory();
    CHECK((schema_of(record.database()) == schema_of(fresh.database())));
  }
}

TEST_CASE("an earlier version is brought up to date after a backup") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 10);
    content = scratch::content_of(record.database());
  }
  const auto steps = with_second(adds_a_column);
  OpenOptions reading;
  reading.read_only = true;
  const auto refused = open_with(path, reading, steps);
  REQUIRE_FALSE(refused.ok());
  CHECK_THAT(refused.problems().front().what, Contains("earlier program"));
  {
    auto record = open_with(path, {}, steps, "2026-11-25");
    REQUIRE(record.ok());
    REQUIRE(record->notes().size() == 1);
    CHECK_THAT(record->notes().front(), Contains("brought up to date"));
    CHECK(record->database().number("PRAGMA user_version") == schema_version + 1);
    CHECK(record->database().word("SELECT place FROM printer") == "");
  }
  const std::string before =
      backup_folder(path) + "/record.2026-11-25.before-version-" + std::to_string(schema_version + 1) + ".fitwright";
  Record old = scratch::opened(before);
  CHECK((scratch::content_of(old.database()) == content));
  const auto by_the_earlier = open_record(path);
  REQUIRE_FALSE(by_the_earlier.ok());
  CHECK_THAT(by_the_earlier.problems().front().what, Contains("newer program"));
}

TEST_CASE("a step that fails changes nothing, and says where the backup is") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 10);
    content = scratch::content_of(record.database());
  }
  const auto failed = open_with(path, {}, with_second(std::string(adds_a_column) + "; SELECT nothing FROM nowhere"));
  REQUIRE_FALSE(failed.ok());
  INFO(failed.problems().front().text());
  CHECK_THAT(failed.problems().front().what, Contains("could not be brought up to date"));
  CHECK_THAT(failed.problems().front().remedy, Contains("before-version"));
  Record record = scratch::opened(path);
  CHECK((scratch::content_of(record.database()) == content));
  CHECK(record.database().number("PRAGMA user_version") == schema_version);
}

TEST_CASE("without a backup an earlier version is not touched") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 1);
  }
  scratch::put(backup_folder(path), "a file where the folder should be");
  const std::string bytes = scratch::bytes_of(path);
  const auto failed = open_with(path, {}, with_second(adds_a_column));
  REQUIRE_FALSE(failed.ok());
  CHECK_THAT(scratch::told(failed.problems()), Contains("not brought up to date"));
  CHECK((scratch::bytes_of(path) == bytes));
}

TEST_CASE("two programs bring the same record up to date") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  const auto steps = with_second(adds_a_column);
  { Record record = scratch::opened(path); }
  auto one = open_with(path, {}, steps), two = open_with(path, {}, steps);
  CHECK(one.ok());
  CHECK(two.ok());
  migrate(one->database(), steps);  // again: nothing left to do
  CHECK(one->database().number("PRAGMA user_version") == schema_version + 1);
}
