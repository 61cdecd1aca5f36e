// Backups: one a day, thinned out, checked; on demand; and the way back.

#include "record/backup.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "calib/record/scratch.hpp"
#include "record/opening.hpp"
#include "record/store.hpp"

namespace fs = std::filesystem;
using namespace fitwright;
using namespace fitwright::record;
using Catch::Matchers::Contains;

namespace {

std::vector<std::string> names_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

/// Opened on a day, as every opening does: with the day's backup.
void open_on(const std::string& path, const std::string& day) {
  auto record = open_with(path, {}, migrations(), day);
  INFO(scratch::told(record.ok() ? Problems{} : record.problems()));
  REQUIRE(record.ok());
  CHECK(record->notes().empty());
}

}  // namespace

TEST_CASE("the first opening of a day makes a backup, once there is something in the record") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  open_on(path, "2026-11-23");
  open_on(path, "2026-11-24");
  CHECK_FALSE(fs::exists(backup_folder(path)));
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 20);
    content = scratch::content_of(record.database());
  }
  open_on(path, "2026-11-24");
  {
    Record record = scratch::opened(path);
    REQUIRE(add(record, Printer{}).ok());
  }
  open_on(path, "2026-11-24");  // the backup is that of the day's beginning
  CHECK(names_in(backup_folder(path)) == std::vector<std::string>{"record.2026-11-24.fitwright"});
  Database backup(backup_folder(path) + "/record.2026-11-24.fitwright", Access::read_only);
  CHECK((scratch::content_of(backup) == content));
  CHECK(backup.word("PRAGMA journal_mode") == "delete");
  open_on(path, "2026-11-25");
  CHECK(backups_of(path).size() == 2);
  CHECK(newest_good_backup(path)->date == "2026-11-25");
}

TEST_CASE("older backups are thinned out; what is not a daily backup of this record stays") {
  const scratch::Folder folder(true);
  const std::string path = folder / "record.fitwright", backups = backup_folder(path);
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 1);
  }
  fs::create_directory(backups);
  for (const char* other : {"other.2026-11-01.fitwright", "record.2026-11-02.before-version-2.fitwright",
                            "record.2026-11-03.fitwright.txt", "record.mine.fitwright"})
    scratch::put(backups + '/' + other, "kept");
  const std::string cut_off = backups + "/record.2026-11-04.fitwright.Ab3dEf";
  const std::string at_work = backups + "/record.2026-11-05.fitwright.Ab3dEf";
  scratch::put(cut_off, "half");
  scratch::put(at_work, "half");
  fs::last_write_time(cut_off, fs::file_time_type::clock::now() - std::chrono::hours(48));
  for (int day = 1; day <= 25; ++day)
    open_on(path, std::string("2026-11-") + (day < 10 ? "0" : "") + std::to_string(day));
  CHECK(names_in(backups) ==
        std::vector<std::string>{"other.2026-11-01.fitwright", "record.2026-11-02.before-version-2.fitwright",
                                 "record.2026-11-03.fitwright.txt", "record.2026-11-05.fitwright.Ab3dEf",
                                 "record.2026-11-08.fitwright", "record.2026-11-15.fitwright",
                                 "record.2026-11-21.fitwright", "record.2026-11-22.fitwright",
                                 "record.2026-11-23.fitwright", "record.2026-11-24.fitwright",
                                 "record.2026-11-25.fitwright", "record.mine.fitwright"});
}

TEST_CASE("no backup possible: work goes on, with a note") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 1);
  }
  scratch::put(backup_folder(path), "a file where the folder should be");
  auto record = open_record(path);
  REQUIRE(record.ok());
  REQUIRE(record->notes().size() == 1);
  CHECK_THAT(record->notes().front(), Contains("no backup was made today"));
}

TEST_CASE("a backup on demand, while another window has the record open and writes") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  Record record = scratch::opened(path), other = scratch::opened(path);
  scratch::fill(record, 30);
  const std::string content = scratch::content_of(record.database());
  {
    Transaction writing(other.database());
    REQUIRE(add(other, Printer{}).ok());
    REQUIRE(back_up(record, folder / "copy.fitwright").ok());  // what is not yet confirmed is not in it
    writing.commit();
  }
  Record copy = scratch::opened(folder / "copy.fitwright");
  CHECK((scratch::content_of(copy.database()) == content));

  const auto again = back_up(record, folder / "copy.fitwright");
  REQUIRE_FALSE(again.ok());
  CHECK_THAT(again.problems().front().what, Contains("already"));
  CHECK(back_up(record, folder / "copy.fitwright", true).ok());
  const auto itself = back_up(record, folder / "./record.fitwright", true);
  REQUIRE_FALSE(itself.ok());
  CHECK_THAT(itself.problems().front().what, Contains("itself"));
  const auto nowhere = back_up(record, folder / "no/such/folder.fitwright");
  REQUIRE_FALSE(nowhere.ok());
  CHECK(nowhere.problems().front().code == Code::io);
  CHECK(names_in(folder.path()) == std::vector<std::string>{"copy.fitwright", "copy.fitwright-shm",
                                                            "copy.fitwright-wal", "record.fitwright",
                                                            "record.fitwright-shm", "record.fitwright-wal"});
}

TEST_CASE("the way back: not while it is open elsewhere, not to what is no backup, and nothing is deleted") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright", backup = folder / "copy.fitwright";
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 10);
    content = scratch::content_of(record.database());
    REQUIRE(back_up(record, backup).ok());
    REQUIRE(add(record, Printer{}).ok());
    const auto refused = restore_backup(path, backup);
    REQUIRE_FALSE(refused.ok());
    CHECK_THAT(refused.problems().front().what, Contains("open in another window"));
  }
  scratch::put(folder / "text",
               "no record, though it is longer than the header of one would be, as a glance at it tells; "
               "and on it goes until it is");
  for (const std::string& wrong : {folder / "text", folder / "nothing", path}) {
    const auto refused = restore_backup(path, wrong);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problems().front().where.file == wrong);
  }
  const std::string later = scratch::bytes_of(path);
  const auto restored = restore_backup(path, backup);
  REQUIRE(restored.ok());
  CHECK((scratch::bytes_of(restored->set_aside) == later));
  {
    Record record = scratch::opened(path);
    CHECK((scratch::content_of(record.database()) == content));
  }
  const auto twice = restore_backup(path, backup);  // within the same second: another name
  REQUIRE(twice.ok());
  CHECK(twice->set_aside != restored->set_aside);
  Record aside = scratch::opened(restored->set_aside);
  CHECK(all<Printer>(aside)->size() == 2);
}

TEST_CASE("a record that is restored keeps the latest writes of the damaged one beside it") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright", backup = folder / "copy.fitwright";
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 10);
    REQUIRE(back_up(record, backup).ok());
  }
  scratch::put(path + "-wal", "latest");
  const auto restored = restore_backup(path, backup);
  REQUIRE(restored.ok());
  CHECK(scratch::bytes_of(restored->set_aside + "-wal") == "latest");
  CHECK_FALSE(fs::exists(path + "-wal"));
}
