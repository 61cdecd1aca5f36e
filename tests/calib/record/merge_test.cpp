// Two records made one: what each bench wrote is there afterwards, and what does not fit together is told.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "calib/record/random_record.hpp"
#include "record/exchange.hpp"
#include "record/schema.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

namespace {

MergeReport merged(Record& ours, Record& theirs) {
  const auto report = merge(ours, theirs);
  if (!report.ok()) FAIL(report.problems().front().text());
  return *report;
}

std::vector<Conflict> fresh(const MergeReport& report) {
  std::vector<Conflict> out;
  for (const Conflict& conflict : report.conflicts)
    if (!conflict.known) out.push_back(conflict);
  return out;
}

Kept<Printer> printer(Record& record, const std::string& name) {
  const auto kept = add(record, Printer{.name = name, .drive = {}, .note = {}}, "2026-11-01T10:00:00.000Z");
  REQUIRE(kept.ok());
  return *kept;
}

Kept<Printer> renoted(Record& record, const Kept<Printer>& seen, const std::string& note, const std::string& at) {
  Printer next = seen.value;
  next.note = note;
  const auto kept = amend(record, seen, next, "why " + note, at);
  REQUIRE(kept.ok());
  return *kept;
}

Printer one_value(Record& record, const Id& thing) {
  const auto kept = one<Printer>(record, thing);
  REQUIRE(kept.ok());
  return kept->value;
}

const std::string early = "2026-11-20T10:00:00.000Z", late = "2026-11-20T11:00:00.000Z",
                  latest = "2026-11-20T12:00:00.000Z";

/// New conflicts, whichever side is ours.
std::set<std::string> pairs(const MergeReport& report) {
  std::set<std::string> out;
  for (const Conflict& c : fresh(report))
    out.insert(std::string(word(c.kind)) + std::min(c.ours.row, c.theirs.row).text +
               std::max(c.ours.row, c.theirs.row).text);
  return out;
}

std::multiset<std::string> lines(const std::string& text) {
  std::multiset<std::string> out;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string line = text.substr(begin, end - begin);
    if (!line.empty() && line.back() == ',') line.pop_back();
    out.insert(line);
    begin = end + 1;
  }
  return out;
}

}  // namespace

TEST_CASE("laws of merging, on 30 pairs of random records that share a past") {
  std::size_t amendments = 0, names = 0, agreed = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    INFO("seed " << seed);
    Record past = random_record(seed, 60);
    Record a = copy_of(past), b = copy_of(past);
    change_randomly(a, 1000 + seed, 60, 6);
    change_randomly(b, 2000 + seed, 60, 6);
    const std::string a_alone = exported(a), b_alone = exported(b);

    Record ab = copy_of(a), ba = copy_of(b);
    const MergeReport first = merged(ab, b), other = merged(ba, a);
    // Either way the rows of both, and only those.
    const std::string whole = exported(ab);
    REQUIRE(exported(ba) == whole);
    std::multiset<std::string> expected = lines(a_alone);
    for (const std::string& line : lines(b_alone))
      if (expected.count(line) == 0) expected.insert(line);
    CHECK(lines(whole).size() == expected.size());
    std::set<std::string> unique;
    for (const std::string& line : lines(whole)) unique.insert(line);
    for (const std::string& line : expected) REQUIRE(unique.count(line) == 1);
    CHECK(exported(b) == b_alone);  // theirs is only read
    // Either way the same conflicts, with the sides exchanged.
    CHECK(first.new_conflicts() == other.new_conflicts());
    CHECK(first.agreed == other.agreed);
    // A second time nothing is new.
    const MergeReport second = merged(ab, b);
    CHECK(second.added == 0);
    CHECK(second.new_conflicts() == 0);
    CHECK(exported(ab) == whole);
    // When both have merged, there is nothing left between them.
    const MergeReport settled = merged(ab, ba);
    CHECK(settled.added == 0);
    CHECK(settled.new_conflicts() == 0);
    // By way of a JSON file it is the same.
    Record by_file = copy_of(a);
    const auto from_json = import_json_text(by_file, b_alone, "b.json");
    REQUIRE(from_json.ok());
    CHECK(exported(by_file) == whole);
    CHECK(from_json->new_conflicts() == first.new_conflicts());
    CHECK(pairs(first) == pairs(other));
    for (const Conflict& conflict : fresh(first)) {
      amendments += conflict.kind == Conflict::Kind::two_amendments;
      names += conflict.kind == Conflict::Kind::same_name;
      CHECK(conflict.kind != Conflict::Kind::changed_row);
    }
    agreed += first.agreed;
  }
  CHECK(amendments > 80);  // the random records do bring about what is looked at
  CHECK(names > 20);
}

TEST_CASE("three benches: the order of merging does not matter, on 20 random triples") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    Record past = random_record(seed, 30);
    Record a = copy_of(past), b = copy_of(past), c = copy_of(past);
    change_randomly(a, 3000 + seed, 30);
    change_randomly(b, 4000 + seed, 30);
    change_randomly(c, 5000 + seed, 30);
    Record left = copy_of(a), bc = copy_of(b), backwards = copy_of(c);
    merged(left, b);
    merged(left, c);
    merged(bc, c);
    Record right = copy_of(a);
    merged(right, bc);
    merged(backwards, a);
    merged(backwards, b);
    REQUIRE(exported(left) == exported(right));
    REQUIRE(exported(left) == exported(backwards));
  }
}

TEST_CASE("unrelated records come together whole") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Record a = random_record(seed), b = random_record(100 + seed);
    Record ab = copy_of(a), ba = copy_of(b);
    const MergeReport report = merged(ab, b);
    merged(ba, a);
    CHECK(report.present == 0);
    CHECK(exported(ab) == exported(ba));
  }
}

TEST_CASE("a dry run tells the same and writes nothing") {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    Record past = random_record(seed, 40);
    Record a = copy_of(past), b = copy_of(past);
    change_randomly(a, 6000 + seed, 40, 3);
    change_randomly(b, 7000 + seed, 40, 3);
    const std::string before = exported(a);
    const auto looked = merge(a, b, {.dry_run = true});
    REQUIRE(looked.ok());
    CHECK(exported(a) == before);
    const MergeReport done = merged(a, b);
    CHECK(looked->added == done.added);
    CHECK(looked->new_conflicts() == done.new_conflicts());
    CHECK(merge_text(*looked).find("would be added") != std::string::npos);
  }
}

TEST_CASE("both benches amended a thing: both rows are kept, the newest holds, both sides are told once") {
  Record a = record_in_memory();
  const auto heron = printer(a, "Heron");
  Record b = copy_of(a);
  const auto on_a = renoted(a, heron, "new belts", late);
  const auto on_b = renoted(b, heron, "new nozzle", early);

  const auto conflicts = fresh(merged(b, a));
  REQUIRE(conflicts.size() == 1);
  const Conflict& c = conflicts[0];
  CHECK(c.kind == Conflict::Kind::two_amendments);
  CHECK(c.table == "printer");
  CHECK(c.name == "Heron");
  CHECK(c.ours.row == on_b.row);
  CHECK(c.ours.at == early);
  CHECK(c.ours.why == "why new nozzle");
  CHECK(c.theirs.row == on_a.row);
  CHECK(c.theirs_holds);
  REQUIRE(c.fields.size() == 1);
  CHECK(c.fields[0].field == "note");
  CHECK(c.fields[0].before.empty());
  CHECK(c.fields[0].ours == "new nozzle");
  CHECK(c.fields[0].theirs == "new belts");
  CHECK(one_value(b, heron.thing).note == "new belts");
  CHECK(history<Printer>(b, heron.thing)->size() == 3);
  CHECK(merged(b, a).new_conflicts() == 0);

  SECTION("a person decides, and the other bench takes it over without being asked again") {
    const auto now = one<Printer>(b, heron.thing);
    renoted(b, *now, "new belts, new nozzle", latest);
    const MergeReport back = merged(a, b);
    CHECK(back.new_conflicts() == 0);  // what holds there follows from what held here
    CHECK(one_value(a, heron.thing).note == "new belts, new nozzle");
    CHECK(exported(a) == exported(b));
  }
  SECTION("a later amendment of a bench that has not heard of it is told again") {
    const auto more = renoted(a, on_a, "new belts, tightened", latest);
    CHECK(merged(b, a).new_conflicts() == 0);  // follows from what holds
    Record third = copy_of(a);
    static_cast<void>(more);
    const auto theirs_late =
        renoted(third, *one<Printer>(third, heron.thing), "gone again", "2026-11-21T10:00:00.000Z");
    renoted(b, *one<Printer>(b, heron.thing), "other", "2026-11-22T10:00:00.000Z");
    const auto told = fresh(merged(b, third));
    REQUIRE(told.size() == 1);
    CHECK(told[0].theirs.row == theirs_late.row);
    CHECK_FALSE(told[0].theirs_holds);
    CHECK(told[0].fields[0].before == "new belts, tightened");
  }
}

TEST_CASE("the losing bench goes on without knowing: that its row now holds is told") {
  Record a = record_in_memory();
  const auto heron = printer(a, "Heron");
  Record b = copy_of(a);
  const auto on_a = renoted(a, heron, "a", early);
  renoted(b, heron, "b", late);
  CHECK(merged(b, a).new_conflicts() == 1);
  renoted(a, on_a, "a again", latest);
  const auto told = fresh(merged(b, a));
  REQUIRE(told.size() == 1);
  CHECK(told[0].theirs_holds);
  CHECK(told[0].fields[0].ours == "b");
  CHECK(told[0].fields[0].theirs == "a again");
}

TEST_CASE("equal amendments are no conflict, an end against an amendment is") {
  Record a = record_in_memory();
  const auto heron = printer(a, "Heron"), wren = printer(a, "Wren");
  Record b = copy_of(a);
  renoted(a, heron, "same", early);
  renoted(b, heron, "same", late);
  REQUIRE(end(a, wren, "sold", late).ok());
  renoted(b, wren, "moved", early);
  const MergeReport report = merged(a, b);
  CHECK(report.agreed == 1);
  const auto conflicts = fresh(report);
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0].ours.ended);
  CHECK_FALSE(conflicts[0].theirs.ended);
  REQUIRE(conflicts[0].fields.size() == 2);
  CHECK(conflicts[0].fields[0].field == "gone");
  CHECK(conflicts[0].fields[1].field == "note");
  CHECK(all<Printer>(a)->size() == 1);  // the end is the newer row
}

TEST_CASE("amendments of one moment: the ids decide, on every bench alike") {
  for (int k = 0; k < 20; ++k) {
    Record a = record_in_memory();
    const auto heron = printer(a, "Heron");
    Record b = copy_of(a);
    const auto on_a = renoted(a, heron, "a", early), on_b = renoted(b, heron, "b", early);
    merged(a, b);
    merged(b, a);
    const std::string expected = on_a.row > on_b.row ? "a" : "b";
    CHECK(one_value(a, heron.thing).note == expected);
    CHECK(one_value(b, heron.thing).note == expected);
  }
}

TEST_CASE("two printers of one name are told, once, and not joined") {
  Record a = record_in_memory(), b = record_in_memory();
  const auto ours = printer(a, "Heron");
  Printer other{.name = " heron", .drive = {}, .note = {}};
  other.bed_x_mm = 180;
  const auto theirs = add(b, other, late);
  REQUIRE(theirs.ok());
  const auto conflicts = fresh(merged(a, b));
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0].kind == Conflict::Kind::same_name);
  CHECK(conflicts[0].ours.thing == ours.thing);
  CHECK(conflicts[0].theirs.thing == theirs->thing);
  REQUIRE(conflicts[0].fields.size() == 2);
  CHECK(conflicts[0].fields[1].field == "bed_x_mm");
  CHECK(conflicts[0].fields[1].ours == "220");
  CHECK(conflicts[0].fields[1].theirs == "180");
  CHECK(all<Printer>(a)->size() == 2);
  CHECK(merged(a, b).new_conflicts() == 0);
  SECTION("renamed, it is a matter no more; named back, it is one again") {
    Printer renamed = ours.value;
    renamed.name = "Heron in the shed";
    const auto away = amend(a, ours, renamed, "", latest);
    REQUIRE(away.ok());
    CHECK(merged(a, b).conflicts.empty());
    Record c = copy_of(b);
    printer(c, "Wren");
    CHECK(fresh(merged(c, a)).empty());
  }
  SECTION("a third of the name is told against both") {
    Record c = record_in_memory();
    printer(c, "HERON");
    const auto third = fresh(merged(a, c));
    REQUIRE(third.size() == 2);
    CHECK(third[0].ours.thing == ours.thing);
    CHECK(third[1].ours.thing == theirs->thing);
  }
}

TEST_CASE("one batch of spool under two names is told; setups show what they refer to by name") {
  const auto bench = [](const std::string& spool_name) {
    Record record = record_in_memory();
    const auto pla = add(record, Material{"PLA", 1.24, ""}, early);
    const auto spool = add(record,
                           Spool{.material = pla->thing,
                                 .name = spool_name,
                                 .colour = "slate",
                                 .batch = "14",
                                 .price_per_kg = {},
                                 .currency = {},
                                 .note = {}},
                           early);
    const auto heron = printer(record, "Heron");
    REQUIRE(add(record,
                Setup{.name = "fine",
                      .printer = heron.thing,
                      .spool = spool->thing,
                      .nozzle_c = {},
                      .bed_c = {},
                      .state = {},
                      .note = {}},
                early)
                .ok());
    return record;
  };
  Record a = bench("PLA slate, batch 14"), b = bench("slate 14");
  const auto conflicts = fresh(merged(a, b));
  std::vector<std::string> tables;
  for (const Conflict& c : conflicts) tables.push_back(c.table);
  CHECK(tables == std::vector<std::string>{"printer", "material", "spool", "setup"});
  const Conflict& setup = conflicts[3];
  REQUIRE(setup.fields.size() == 2);
  CHECK(setup.fields[0].field == "printer");
  CHECK(setup.fields[0].ours.rfind("Heron (", 0) == 0);
  CHECK(setup.fields[1].ours.rfind("PLA slate, batch 14 (", 0) == 0);
  CHECK(setup.fields[1].theirs.rfind("slate 14 (", 0) == 0);
}

TEST_CASE("a fact changed by hand: ours is kept, both sides are told, once") {
  Record a = record_in_memory();
  const auto heron = printer(a, "Heron");
  std::string forged = exported(a);
  const auto at = forged.find("\"Heron\"");
  forged.replace(at, 7, "\"Stork\"");
  const auto first = import_json_text(a, forged, "forged.json");
  REQUIRE(first.ok());
  REQUIRE(first->new_conflicts() == 1);
  CHECK(first->conflicts[0].kind == Conflict::Kind::changed_row);
  REQUIRE(first->conflicts[0].fields.size() == 1);
  CHECK(first->conflicts[0].fields[0].ours == "Heron");
  CHECK(first->conflicts[0].fields[0].theirs == "Stork");
  CHECK(one_value(a, heron.thing).name == "Heron");
  const auto second = import_json_text(a, forged, "forged.json");
  CHECK(second->new_conflicts() == 0);
  CHECK(second->conflicts.size() == 1);
  forged.replace(forged.find("\"Stork\""), 7, "\"Crane\"");
  CHECK(import_json_text(a, forged, "forged.json")->new_conflicts() == 1);
}
