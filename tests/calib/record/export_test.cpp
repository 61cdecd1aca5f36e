// One JSON file out and in: nothing is lost, nothing changes, and the same record gives the same bytes.

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/file.hpp"
#include "calib/record/random_record.hpp"
#include "record/exchange.hpp"
#include "record/schema.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

TEST_CASE("an empty record is a document with empty lists") {
  Record record = record_in_memory();
  const auto document = nlohmann::json::parse(exported(record));
  CHECK(document["fitwright_record"] == 1);
  CHECK(document["schema"] == schema_version);
  CHECK(document["things"].size() == thing_tables().size());
  for (const std::string& table : thing_tables()) CHECK(document["things"][table].empty());
}

TEST_CASE("export, import, export: equal bytes, for 60 random records") {
  std::size_t rows = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    Record first = random_record(seed), second = record_in_memory();
    const std::string document = exported(first);
    const auto report = import_json_text(second, document, "a.json");
    if (!report.ok()) FAIL(report.problems().front().text());
    CHECK(report->new_conflicts() == 0);
    CHECK(report->present == 0);
    REQUIRE(exported(second) == document);
    rows += report->added;
  }
  CHECK(rows > 60 * 50);
}

TEST_CASE("the document says what the record holds, in the order of ids and columns") {
  Record record = record_in_memory();
  const auto heron =
      add(record, Printer{.name = "Heron \"old\"\n", .drive = "{\"x\":1}", .note = {}}, "2026-11-25T10:00:00.000Z");
  REQUIRE(heron.ok());
  REQUIRE(
      amend(record, *heron, Printer{.name = "Heron", .bed_x_mm = 1.0 / 3, .drive = {}, .note = {}}, "renamed").ok());
  const std::string text = exported(record);
  const std::string id = heron->thing.text;
  CHECK(text.find("{\"id\":\"" + id + "\",\"thing\":\"" + id +
                  "\",\"amends\":null,\"at\":\"2026-11-25T10:00:00.000Z\",\"why\":\"\",\"gone\":0,\"name\":\"Heron "
                  "\\\"old\\\"\\n\",\"bed_x_mm\":220,") != std::string::npos);
  const auto rows = nlohmann::json::parse(text)["things"]["printer"];
  REQUIRE(rows.size() == 2);
  CHECK(rows[0]["drive"] == "{\"x\":1}");
  CHECK(rows[1]["bed_x_mm"] == 1.0 / 3);
  CHECK(rows[1]["amends"] == id);
  CHECK(rows[1]["why"] == "renamed");
}

TEST_CASE("the file is the text, written whole; a record is never written over") {
  std::string folder = (std::filesystem::temp_directory_path() / "fitwright-test-XXXXXX").string();
  REQUIRE(::mkdtemp(folder.data()) != nullptr);
  {
    OpenOptions plain;
    plain.keep_backups = false;
    auto record = open_record(folder + "/record.fitwright", plain);
    REQUIRE(record.ok());
    REQUIRE(add(*record, Printer{.name = "Heron", .drive = {}, .note = {}}).ok());
    const auto count = export_json(*record, folder + "/out.json");
    REQUIRE(count.ok());
    CHECK(count->rows == 1);
    CHECK(count->notes.empty());
    CHECK(*read_whole(folder + "/out.json") == exported(*record));
    const auto refused = export_json(*record, folder + "/record.fitwright");
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problems()[0].what == "is a record, which an export would destroy");
    CHECK(all<Printer>(*record)->size() == 1);
    CHECK(export_json(*record, folder + "/no/such/folder/out.json").problems()[0].code == Code::io);
    // Read only is enough to export.
    OpenOptions looking;
    looking.read_only = true;
    auto reader = open_record(folder + "/record.fitwright", looking);
    REQUIRE(reader.ok());
    CHECK(exported(*reader) == exported(*record));
  }
  std::filesystem::remove_all(folder);
}

TEST_CASE("bytes that are no UTF-8 are told and replaced, and the rest of the record is there") {
  Record record = record_in_memory();
  REQUIRE(add(record, Material{"PLA \xff", 1.24, ""}).ok());
  const std::string path = (std::filesystem::temp_directory_path() / "fitwright-not-utf8.json").string();
  const auto count = export_json(record, path);
  REQUIRE(count.ok());
  REQUIRE(count->notes.size() == 1);
  CHECK(count->notes[0] == "1 text is not UTF-8; the bytes that are not stand as U+FFFD");
  Record back = record_in_memory();
  REQUIRE(merge_file(back, path).ok());
  CHECK(all<Material>(back)->front().value.name == "PLA \uFFFD");
  std::filesystem::remove(path);
}
