// Opening: a new record, what is no record, what may not be written, what another program holds, an earlier version.

#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "calib/record/scratch.hpp"
#include "record/backup.hpp"
#include "record/opening.hpp"
#include "record/store.hpp"

namespace fs = std::filesystem;
using namespace fitwright;
using namespace fitwright::record;
using Catch::Matchers::Contains;

namespace {

constexpr const char* today = "2026-11-25";

Problem refusal(const std::string& path, const OpenOptions& options = {}) {
  const auto record = open_record(path, options);
  REQUIRE_FALSE(record.ok());
  REQUIRE(record.problems().size() == 1);
  const Problem problem = record.problems().front();
  INFO(problem.text());
  CHECK(problem.where.file == path);
  CHECK(problem.remedy.size() > 10);
  return problem;
}

unsigned mode_of(const std::string& path) {
  struct stat status {};
  REQUIRE(::stat(path.c_str(), &status) == 0);
  return status.st_mode & 0777u;
}

OpenOptions reading_only() {
  OpenOptions options;
  options.read_only = true;
  return options;
}

}  // namespace

TEST_CASE("a new record is made with its folders, for its owner alone, and set up to last") {
  const scratch::Folder folder;
  const std::string path = folder / "a/b/record.fitwright";
  auto record = open_record(path);
  REQUIRE(record.ok());
  CHECK(record->notes().empty());
  CHECK_FALSE(record->in_memory());
  CHECK_FALSE(record->read_only());
  CHECK(mode_of(folder / "a") == 0700);
  CHECK(mode_of(folder / "a/b") == 0700);
  CHECK(mode_of(path) == 0600);
  CHECK(mode_of(path + "-wal") == 0600);
  Database& db = record->database();
  CHECK(db.word("PRAGMA journal_mode") == "wal");
  CHECK(db.number("PRAGMA foreign_keys") == 1);
  CHECK(db.number("PRAGMA synchronous") == 2);  // FULL
  CHECK(db.number("PRAGMA cell_size_check") == 1);
  CHECK(db.number("PRAGMA trusted_schema") == 0);
  CHECK(db.number("PRAGMA application_id") == application_id);
  CHECK(db.number("PRAGMA user_version") == schema_version);
}

TEST_CASE("an empty file, and a program killed while it began a record, are new records") {
  const scratch::Folder folder;
  scratch::put(folder / "empty", "");
  CHECK(open_record(folder / "empty").ok());
  {
    Database begun(folder / "begun", Access::read_write);
    begun.script("PRAGMA journal_mode = WAL");
  }
  CHECK(open_record(folder / "begun").ok());
  CHECK(open_record(folder / "begun").ok());
}

TEST_CASE("what is no record is refused by what it is, and left as it is") {
  const scratch::Folder folder;
  const std::string path = folder / "file";
  SECTION("a text") {
    const std::string text(5000, 'x');
    scratch::put(path, text);
    CHECK_THAT(refusal(path).what, Contains("some other kind of file"));
    CHECK(scratch::bytes_of(path) == text);
  }
  SECTION("a few bytes") {
    scratch::put(path, "feature_id,kind\n");
    CHECK_THAT(refusal(path).what, Contains("not a record"));
  }
  SECTION("a folder") {
    fs::create_directory(path);
    CHECK_THAT(refusal(path).what, Contains("is a folder"));
  }
  SECTION("a pipe") {
    REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
    CHECK_THAT(refusal(path).what, Contains("not an ordinary file"));
  }
  SECTION("a database of another program") {
    sqlite3* other = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &other) == SQLITE_OK);
    REQUIRE(sqlite3_exec(other, "CREATE TABLE t (a); INSERT INTO t VALUES (1)", nullptr, nullptr, nullptr) ==
            SQLITE_OK);
    sqlite3_close(other);
    const std::string before = scratch::bytes_of(path);
    const Problem problem = refusal(path);
    CHECK(problem.code == Code::bad_input);
    CHECK_THAT(problem.what, Contains("another program"));
    CHECK((scratch::bytes_of(path) == before));
  }
  SECTION("a record of a newer program") {
    {
      Record record = scratch::opened(path);
      record.database().script("PRAGMA user_version = 99");
    }
    const std::string before = scratch::bytes_of(path);
    CHECK_THAT(refusal(path).what, Contains("newer program (version 99"));
    CHECK((scratch::bytes_of(path) == before));
  }
  SECTION("a record that another program has rewritten") {
    { Record record = scratch::opened(path); }
    sqlite3* other = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &other) == SQLITE_OK);
    REQUIRE(sqlite3_exec(other, "CREATE TABLE t (a)", nullptr, nullptr, nullptr) == SQLITE_OK);
    sqlite3_close(other);
    CHECK_THAT(refusal(path).what, Contains("damaged"));
  }
}

TEST_CASE("a record that has gone while its backups are there is not begun anew without a word") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 5);
    REQUIRE(back_up_today(record, today).empty());
  }
  SECTION("missing") {
    fs::remove(path);
    const Problem problem = refusal(path);
    CHECK_THAT(problem.what, Contains("not there any more"));
    CHECK_THAT(problem.remedy, Contains("record.2026-11-25.fitwright --record"));
    CHECK_FALSE(fs::exists(path));
  }
  SECTION("emptied") {
    scratch::put(path, "");
    CHECK_THAT(refusal(path).what, Contains("empty"));
  }
  SECTION("only its journal is left") {
    fs::remove(path);
    scratch::put(path + "-wal", "x");
    CHECK_THAT(refusal(path).what, Contains("-wal"));
  }
  const auto restored = restore_backup(path, newest_good_backup(path)->path);
  REQUIRE(restored.ok());
  CHECK(open_record(path).ok());
}

TEST_CASE("for reading only nothing is made") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  CHECK_THAT(refusal(path, reading_only()).what, Contains("no record here"));
  OpenOptions there;
  there.must_exist = true;
  CHECK_THAT(refusal(path, there).what, Contains("no record here"));
  CHECK(fs::is_empty(folder.path()));
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 5);
  }
  auto record = open_record(path, reading_only());
  REQUIRE(record.ok());
  CHECK(record->read_only());
  CHECK(all<StoredReading>(*record)->size() == 5);
  const auto denied = add(*record, Printer{});
  REQUIRE_FALSE(denied.ok());
  CHECK_THAT(denied.problems().front().what, Contains("read-only"));
}

TEST_CASE("a file or folder that may not be written: said so, and it can still be read") {
  // As root permissions stop nobody: the other program becomes the user nobody.
  const scratch::Folder folder;
  fs::permissions(folder.path(), fs::perms(0755));
  fs::create_directory(folder / "own");
  const std::string path = folder / "own/record.fitwright";
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 3);
  }
  const auto answer = [&](const std::string& what) {
    scratch::Writer writer({what, path, "nobody"});
    return writer.line();
  };
  SECTION("a file that is read-only") {
    fs::permissions(folder / "own", fs::perms(0777));
    fs::permissions(path, fs::perms(0444));
    const std::string line = answer("open");
    CHECK_THAT(line, Contains("cannot be written") && Contains("permission is denied") && Contains("--record FILE"));
    CHECK_THAT(answer("read"), Contains("O 3"));
  }
  SECTION("a folder that is read-only") {
    fs::permissions(path, fs::perms(0666));
    fs::permissions(folder / "own", fs::perms(0555));
    CHECK_THAT(answer("open"), Contains("cannot be written in its folder") && Contains("permission is denied"));
    CHECK_THAT(answer("read"), Contains("O 3"));
    CHECK(std::distance(fs::directory_iterator(folder / "own"), {}) == 1);
  }
  SECTION("a file that may not be read") {
    fs::permissions(folder / "own", fs::perms(0777));
    fs::permissions(path, fs::perms(0000));
    CHECK_THAT(answer("open"), Contains("cannot be read") && Contains("permission is denied"));
  }
  SECTION("a folder in which nothing may be made") {
    fs::remove(path);
    fs::permissions(folder / "own", fs::perms(0555));
    CHECK_THAT(answer("open"), Contains("cannot be made") && Contains("permission is denied"));
  }
  fs::permissions(folder / "own", fs::perms(0755));
}

TEST_CASE("a full disk: one clear message, what was confirmed is there, and it goes on when there is room") {
  // A limit on the size of files stands for a full disk.
  const scratch::Folder folder(true);
  const std::string path = folder / "record.fitwright";
  Id copy;
  {
    Record record = scratch::opened(path);
    copy = scratch::fill(record, 10).copy;
  }
  scratch::Writer writer({"fill", path, copy.text, "full", "600000"});
  int confirmed = 0;
  std::vector<std::string> messages;
  for (const std::string& line : writer.rest()) {
    if (line.starts_with("C")) ++confirmed;
    if (line.starts_with("E")) messages.push_back(line);
  }
  REQUIRE(messages.size() == 1);
  const std::string& message = messages.front();
  CHECK(confirmed > 10);
  CHECK_THAT(message, Contains("could not grow") && Contains("nothing of this was written") &&
                          Contains("what was there is unharmed"));
  Record record = scratch::opened(path);
  CHECK(record.database().number("SELECT count(*) FROM reading WHERE note = 'full'") == confirmed);
  CHECK(record.database().word("PRAGMA integrity_check") == "ok");
  CHECK(add(record, Printer{}).ok());
}

TEST_CASE("a record that another program is writing: waited for, then said so, and nothing is written") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  Record other = scratch::opened(path);
  OpenOptions impatient;
  impatient.wait_ms = 100;
  impatient.keep_backups = false;
  {
    const Transaction writing(other.database());
    auto record = open_record(path, impatient);  // opening does not need to write
    REQUIRE(record.ok());
    const auto refused = add(*record, Printer{});
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problems().front().code == Code::io);
    CHECK_THAT(refused.problems().front().what, Contains("being written by another program"));
    CHECK_THAT(refused.problems().front().remedy, Contains("wait"));
  }
  auto record = open_record(path, impatient);
  REQUIRE(record.ok());
  CHECK(all<Printer>(*record)->empty());
  CHECK(add(*record, Printer{}).ok());
}

TEST_CASE("work goes on in memory and is saved elsewhere") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  scratch::put(path, std::string(4096, 'x'));
  Opened opened = open_or_memory(path);
  REQUIRE(opened.problems.size() == 1);
  REQUIRE(opened.record.in_memory());
  scratch::fill(opened.record, 20);
  REQUIRE(save_copy(opened.record, folder / "new/elsewhere.fitwright").ok());
  Record saved = scratch::opened(folder / "new/elsewhere.fitwright");
  CHECK((scratch::content_of(saved.database()) == scratch::content_of(opened.record.database())));
  CHECK(mode_of(folder / "new/elsewhere.fitwright") == 0600);
  const auto again = save_copy(opened.record, path);
  REQUIRE_FALSE(again.ok());
  CHECK_THAT(again.problems().front().what, Contains("already"));
  CHECK(open_or_memory(folder / "new/elsewhere.fitwright").problems.empty());
}

TEST_CASE("where the record is when none is named") {
  ::setenv("XDG_DATA_HOME", "/data", 1);
  CHECK(*default_record_path() == "/data/fitwright/record.fitwright");
  ::setenv("XDG_DATA_HOME", "relative", 1);  // "All paths ... must be absolute" (XDG base directory specification)
  ::setenv("HOME", "/people/someone", 1);
  CHECK(*default_record_path() == "/people/someone/.local/share/fitwright/record.fitwright");
  ::unsetenv("XDG_DATA_HOME");
  ::unsetenv("HOME");
  CHECK_FALSE(default_record_path().ok());
}

TEST_CASE("a symbolic link stands for the file it leads to") {
  const scratch::Folder folder;
  {
    Record record = scratch::opened(folder / "real.fitwright");
    scratch::fill(record, 3);
  }
  fs::create_symlink(folder / "real.fitwright", folder / "link");
  auto record = open_record(folder / "link");
  REQUIRE(record.ok());
  CHECK(record->path() == folder / "real.fitwright");
  CHECK(backups_of(folder / "link").size() == 1);
}

TEST_CASE("a name with odd characters") {
  const scratch::Folder folder;
  const std::string path = folder / "o'dd ?mode=memory&x=%41#1 \xc3\xa4.fitwright";
  { Record record = scratch::opened(path); }
  CHECK(fs::exists(path));
}

TEST_CASE("on a disk of another computer the journal is the old one, with a note") {
  const scratch::Folder folder;
  CHECK(on_another_computer(0x6969));            // NFS, linux/magic.h
  CHECK_FALSE(on_another_computer(0xEF53));      // ext4
  CHECK_FALSE(on_another_computer(0x9123683E));  // btrfs
  Database db(folder / "record.fitwright", Access::read_write);
  CHECK(choose_journal(db, false, 100).empty());
  CHECK(db.word("PRAGMA journal_mode") == "wal");
  CHECK_THAT(choose_journal(db, true, 100), Contains("another computer"));
  CHECK(db.word("PRAGMA journal_mode") == "delete");
  Database memory("", Access::memory);
  CHECK_FALSE(choose_journal(memory, false, 100).empty());
}

TEST_CASE("cut off in the old journal's way: put right at the next opening") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright", cut = folder / "cut.fitwright";
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 400);
    content = scratch::content_of(record.database());
    record.database().script("PRAGMA journal_mode = DELETE; PRAGMA cache_size = 5");
    Transaction half(record.database());
    for (int k = 0; k < 300; ++k) REQUIRE(add(record, Printer{}).ok());
    scratch::put(cut, scratch::bytes_of(path));
    scratch::put(cut + "-journal", scratch::bytes_of(path + "-journal"));
    REQUIRE(scratch::bytes_of(cut + "-journal").size() > 512);
  }
  CHECK_THAT(refusal(cut, reading_only()).what, Contains("middle of a write"));
  Record record = scratch::opened(cut);
  CHECK((scratch::content_of(record.database()) == content));
  CHECK_FALSE(fs::exists(cut + "-journal"));
}
