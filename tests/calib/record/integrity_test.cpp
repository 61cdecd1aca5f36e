// The deep check: a sound record has nothing to tell; each fault put in by hand is told.

#include "record/integrity.hpp"

#include <sqlite3.h>

#include <catch2/catch.hpp>

#include "calib/record/scratch.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using Catch::Matchers::Contains;

namespace {

/// A bench in memory whose rows can be changed by hand.
struct Bare {
  Record record = record_in_memory();
  scratch::Bench bench = scratch::fill(record, 20);

  Bare() { record.database().script("PRAGMA foreign_keys = OFF"); }
  void change(const std::string& table, const std::string& sql) {
    Database& db = record.database();
    const auto trigger = db.word("SELECT sql FROM sqlite_schema WHERE name = ?", std::string_view(table + "_keeps"));
    db.script("DROP TRIGGER " + table + "_keeps; " + sql + ";" + *trigger);
  }
  [[nodiscard]] std::string told() { return scratch::told(check_record(record)); }
};

std::string id(char c) { return std::string(32, c); }

}  // namespace

TEST_CASE("a sound record has nothing to tell") {
  Bare b;
  CHECK(b.told().empty());
  CHECK(b.record.database().number("SELECT count(*) FROM reading WHERE amends IS NOT NULL") == 2);
  Record empty = record_in_memory();
  CHECK(check_record(empty).empty());
}

TEST_CASE("a reference to what is not there, and one to an amendment") {
  Bare b;
  b.change("copy", "UPDATE copy SET coupon = '" + id('0') + "'");
  CHECK_THAT(b.told(), Contains("copy " + b.bench.copy.text + " refers to a coupon that is not there"));
  Bare c;
  const auto setup = one<Setup>(c.record, c.bench.setup);
  Setup next = setup->value;
  next.note = "second nozzle";
  const auto amended = amend(c.record, *setup, next, "");
  c.change("copy", "UPDATE copy SET setup = '" + amended->row.text + "'");
  CHECK_THAT(c.told(), Contains("refers to an amendment (" + amended->row.text + ") instead of the setup itself"));
}

TEST_CASE("amendments of another thing, in a circle, older than what they amend") {
  const std::string amendments = "(SELECT id FROM reading WHERE amends IS NOT NULL ORDER BY id";
  Bare b;
  b.change("reading",
           "UPDATE reading SET amends = (SELECT id FROM reading WHERE amends IS NULL ORDER BY id LIMIT 1 OFFSET "
           "5) WHERE id = " +
               amendments + " LIMIT 1)");
  CHECK_THAT(b.told(), Contains("amends a row of another reading"));
  Bare c;
  c.change("reading", "UPDATE reading SET amends = id WHERE id = " + amendments + " LIMIT 1)");
  CHECK_THAT(c.told(), Contains("does not lead back to the first one"));
  Bare d;
  d.change("reading", "UPDATE reading SET at = '2020-01-01T00:00:00.000Z' WHERE id = " + amendments + " LIMIT 1)");
  CHECK_THAT(d.told(), Contains("newer than itself"));
}

TEST_CASE("what should be JSON and is not") {
  Bare b;
  b.change("setup", "UPDATE setup SET state = '{\"size_factor\":'");
  b.change("coupon", "UPDATE coupon SET parameters = '[1]'");
  CHECK_THAT(b.told(), Contains("\"state\" of setup " + b.bench.setup.text + " is not JSON") &&
                           Contains("\"parameters\" of coupon " + b.bench.coupon.text + " is a list, not an object"));
}

TEST_CASE("a remark about nothing, a guard that is missing, many faults counted") {
  Bare b;
  Remark remark;
  remark.about = Id{id('f')};
  REQUIRE(add(b.record, remark).ok());
  b.record.database().script("DROP TRIGGER trial_stays");
  b.change("reading", "UPDATE reading SET copy = '" + id('e') + "'");
  const std::string told = b.told();
  CHECK_THAT(told, Contains("is about what is not there"));
  CHECK_THAT(told, Contains("\"trial_stays\" is missing"));
  CHECK_THAT(told, Contains("12 more references to what is not there"));  // 20 readings and 2 amendments
}
