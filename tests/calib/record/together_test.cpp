// Two programs on one record at once: both right, no lost update.

#include <catch2/catch.hpp>

#include "calib/record/scratch.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;

TEST_CASE("two programs add readings at once, and all are there") {
  constexpr int each = 200;
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  Record record = scratch::opened(path);
  const Id copy = scratch::fill(record, 0).copy;
  scratch::Writer one({"many", path, copy.text, "one", std::to_string(each)});
  scratch::Writer two({"many", path, copy.text, "two", std::to_string(each)});
  CHECK(one.rest().size() == each);
  CHECK(two.rest().size() == each);
  CHECK(one.wait() == 0);
  CHECK(two.wait() == 0);
  for (const char* tag : {"one", "two"})
    CHECK(record.database().number("SELECT count(*) FROM reading WHERE note = ?", std::string_view(tag)) == each);
  CHECK(record.database().word("PRAGMA integrity_check") == "ok");
}

TEST_CASE("a record that others are writing opens again and again, and is never taken for a damaged one") {
  const scratch::Folder folder(true);  // in memory: as many writes as can be between two looks
  const std::string path = folder / "record.fitwright";
  Id copy;
  {
    Record record = scratch::opened(path);
    copy = scratch::fill(record, 0).copy;
  }
  scratch::Writer one({"many", path, copy.text, "one", "3000"});
  scratch::Writer two({"many", path, copy.text, "two", "3000"});
  REQUIRE(one.line() == "C 0");
  long long before = 0;
  for (int k = 0; k < 150; ++k) {
    OpenOptions options;
    options.keep_backups = false;
    options.read_only = k % 2 == 0;
    auto record = open_record(path, options);
    INFO(scratch::told(record.ok() ? Problems{} : record.problems()));
    REQUIRE(record.ok());
    CHECK(record->notes().empty());
    const long long now = record->database().number("SELECT count(*) FROM reading").value_or(0);
    CHECK(now >= before);
    before = now;
  }
  CHECK(one.rest().size() == 2999);
  CHECK(two.rest().size() == 3000);
  Record record = scratch::opened(path);
  CHECK(record.database().number("SELECT count(*) FROM reading") == 6000);
}

TEST_CASE("two programs begin a record at once") {
  for (int round = 0; round < 10; ++round) {
    const scratch::Folder folder;
    const std::string path = folder / "deep/er/record.fitwright";
    scratch::Writer one({"open", path}), two({"open", path});
    const std::string a = one.line(), b = two.line();
    INFO(a << '\n' << b);
    CHECK(a == "O");
    CHECK(b == "O");
  }
}

TEST_CASE("two programs amend the same thing at once: one does, the other is told") {
  const scratch::Folder folder;
  const std::string path = folder / "record.fitwright";
  Record record = scratch::opened(path);
  const Id printer = scratch::fill(record, 0).printer;
  constexpr int rounds = 20;
  for (int round = 0; round < rounds; ++round) {
    scratch::Writer one({"amend", path, printer.text, "one " + std::to_string(round)});
    scratch::Writer two({"amend", path, printer.text, "two " + std::to_string(round)});
    REQUIRE(one.line() == "R");
    REQUIRE(two.line() == "R");
    one.go();
    two.go();
    const std::string a = one.line(), b = two.line();
    INFO(a << '\n' << b);
    CHECK((a == "W") != (b == "W"));
    const std::string& loser = a == "W" ? b : a;
    CHECK(loser.find("in the meantime") != std::string::npos);
    const std::string winner = (a == "W" ? "one " : "two ") + std::to_string(round);
    CHECK(fitwright::record::one<Printer>(record, printer)->value.note == winner);
  }
  CHECK(history<Printer>(record, printer)->size() == rounds + 1);
}
