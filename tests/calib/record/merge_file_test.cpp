// Merging from files, which are only read; and what the report says.

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "calib/record/random_record.hpp"
#include "record/exchange.hpp"
#include "record/staging.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

namespace {

struct Folder {
  std::string path = (std::filesystem::temp_directory_path() / "fitwright-test-XXXXXX").string();
  Folder() { REQUIRE(::mkdtemp(path.data()) != nullptr); }
  ~Folder() { std::filesystem::remove_all(path); }
};

Record opened(const std::string& path) {
  OpenOptions plain;
  plain.keep_backups = false;
  auto record = open_record(path, plain);
  if (!record) FAIL(record.problems()[0].text());
  return std::move(*record);
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

}  // namespace

TEST_CASE("a record file and its export give the same, and neither is written to") {
  const Folder folder;
  const std::string theirs = folder.path + "/theirs.fitwright", json = folder.path + "/theirs.json";
  Record random = random_record(3);
  {
    Record record = opened(theirs);
    REQUIRE(import_json_text(record, exported(random), "a").ok());
    REQUIRE(export_json(record, json).ok());
  }
  const std::string bytes = *read_whole(theirs);
  const auto changed = std::filesystem::last_write_time(theirs);
  Record by_file = record_in_memory(), by_json = record_in_memory();
  const auto first = merge_file(by_file, theirs), second = merge_file(by_json, json);
  if (!first) FAIL(first.problems()[0].text());
  REQUIRE(second.ok());
  CHECK(first->source == theirs);
  CHECK(first->added == second->added);
  CHECK(exported(by_file) == exported(random));
  CHECK(exported(by_json) == exported(random));
  CHECK(*read_whole(theirs) == bytes);
  CHECK(std::filesystem::last_write_time(theirs) == changed);
}

TEST_CASE("rows that another program has just written are merged, too") {
  const Folder folder;
  Record theirs = opened(folder.path + "/theirs.fitwright");  // still open: its rows may stand in the journal
  REQUIRE(add(theirs, Material{"PLA", 1.24, ""}).ok());
  Record ours = record_in_memory();
  const auto report = merge_file(ours, folder.path + "/theirs.fitwright");
  if (!report) FAIL(report.problems()[0].text());
  CHECK(report->added == 1);
  REQUIRE(add(theirs, Material{"PETG", 1.27, ""}).ok());
  CHECK(merge_file(ours, folder.path + "/theirs.fitwright")->added == 1);
}

TEST_CASE("what cannot be merged from is told, and nothing changes") {
  const Folder folder;
  const std::string path = folder.path + "/record.fitwright";
  Record record = opened(path);
  REQUIRE(add(record, Material{"PLA", 1.24, ""}).ok());
  const std::string before = exported(record);
  CHECK(merge_file(record, path).problems()[0].what == "is the record itself");
  std::filesystem::create_symlink(path, folder.path + "/link");
  CHECK(merge_file(record, folder.path + "/link").problems()[0].what == "is the record itself");
  CHECK(merge_file(record, folder.path + "/absent").problems()[0].code == Code::io);
  CHECK(merge_file(record, folder.path).problems()[0].code == Code::io);
  {
    Database newer(folder.path + "/newer.fitwright", Access::read_write);
    newer.script("PRAGMA application_id = 0x46775263; PRAGMA user_version = 99; CREATE TABLE printer (id TEXT)");
    Database foreign(folder.path + "/foreign.db", Access::read_write);
    foreign.script("CREATE TABLE recipes (id TEXT)");
  }
  CHECK(merge_file(record, folder.path + "/newer.fitwright").problems()[0].code == Code::bad_input);
  CHECK(merge_file(record, folder.path + "/foreign.db").problems()[0].code == Code::bad_input);
  CHECK(exported(record) == before);

  OpenOptions looking;
  looking.read_only = true;
  auto reader = open_record(path, looking);
  REQUIRE(reader.ok());
  Record other = random_record(5);
  const auto refused = merge(*reader, other);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.problems()[0].where.file == path);
  CHECK(exported(record) == before);
}

TEST_CASE("the rows of an older version are brought up to date before they are merged") {
  Record older = random_record(9);
  Record copy{stage_older(older.database())};
  CHECK(exported(copy) == exported(older));
}

TEST_CASE("the report as text and as JSON") {
  Record a = record_in_memory();
  const auto heron = add(a, Printer{.name = "Heron", .drive = {}, .note = "as bought"}, "2026-11-01T10:00:00.000Z");
  REQUIRE(heron.ok());
  Record b = copy_of(a);
  Printer on_a = heron->value, on_b = heron->value;
  on_a.note = "new belts";
  on_b.note.clear();
  const auto ours = amend(a, *heron, on_a, "belts changed", "2026-11-02T10:00:00.000Z");
  const auto theirs = amend(b, *heron, on_b, "", "2026-11-03T10:00:00.000Z");
  const auto ours_wren = add(a, Printer{.name = "Wren", .drive = {}, .note = {}}, "2026-11-04T10:00:00.000Z");
  const auto their_wren = add(b, Printer{.name = "Wren", .drive = {}, .note = {}}, "2026-11-05T10:00:00.000Z");
  const auto report = merge(a, b, {.dry_run = true});
  REQUIRE(report.ok());
  std::string text = merge_text(*report);
  text = replaced(text, ours->row.text, "OURS");
  text = replaced(text, theirs->row.text, "THEIRS");
  text = replaced(text, ours_wren->row.text, "OUR-WREN");
  text = replaced(text, their_wren->row.text, "THEIR-WREN");
  CHECK(
      text ==
      "the other record: 2 rows would be added, 1 was there already.\n"
      "  printer: 2 new\n"
      "2 conflicts to decide:\n"
      "  1. printer \"Heron\": amended on both benches. Both are kept; theirs is the newer and holds.\n"
      "     ours: 2026-11-02T10:00:00.000Z, because \"belts changed\" (row OURS)\n"
      "     theirs: 2026-11-03T10:00:00.000Z (row THEIRS)\n"
      "     note: ours \"new belts\", theirs nothing, before \"as bought\"\n"
      "     To do: look at both; if the one that holds lacks something, amend it.\n"
      "  2. printer \"Wren\": two things of one name. Both are kept, and not joined.\n"
      "     ours: 2026-11-04T10:00:00.000Z (row OUR-WREN)\n"
      "     theirs: 2026-11-05T10:00:00.000Z (row THEIR-WREN)\n"
      "     They say the same.\n"
      "     To do: if they are two, amend the name of one; if they are one, go on with one and end the other (what was "
      "measured under it stays).\n"
      "Nothing was written.\n");
  const auto json = nlohmann::json::parse(merge_json(*report));
  CHECK(json["added"] == 2);
  CHECK(json["dry_run"] == true);
  CHECK(json["new_conflicts"] == 2);
  CHECK(json["conflicts"][0]["kind"] == "two amendments");
  CHECK(json["conflicts"][0]["holds"] == "theirs");
  CHECK(json["conflicts"][0]["fields"][0]["before"] == "as bought");
  CHECK(json["conflicts"][0]["ours"]["why"] == "belts changed");
  CHECK(json["conflicts"][1]["kind"] == "same name");
  CHECK(json["conflicts"][1]["theirs"]["thing"] == their_wren->thing.text);
}
