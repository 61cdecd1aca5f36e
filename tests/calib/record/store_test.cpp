// Keeping things: what is added comes back, amendments keep the old, no update is lost.

#include "record/store.hpp"

#include <catch2/catch.hpp>

#include "record/mapping.hpp"
#include "record/schema.hpp"

using namespace fitwright;
using namespace fitwright::record;

namespace {

template <class T>
void matches_schema(Record& record) {
  INFO(Mapping<T>::table);
  std::vector<std::string> columns{"id", "thing", "amends", "at", "why", "gone"};
  T sample{};
  Mapping<T>::visit(sample, [&](const char* name, auto&) { columns.emplace_back(name); });
  CHECK(columns_of(record.database(), Mapping<T>::table) == columns);
}

}  // namespace

TEST_CASE("every thing has a table with just its columns") {
  Record record = record_in_memory();
  matches_schema<Printer>(record);
  matches_schema<Material>(record);
  matches_schema<Spool>(record);
  matches_schema<Caliper>(record);
  matches_schema<Setup>(record);
  matches_schema<Travelled>(record);
  matches_schema<MadeCoupon>(record);
  matches_schema<Copy>(record);
  matches_schema<Session>(record);
  matches_schema<StoredReading>(record);
  matches_schema<SteelReading>(record);
  matches_schema<StoredEstimate>(record);
  matches_schema<StoredCorrection>(record);
  matches_schema<CorrectionEvent>(record);
  matches_schema<Remark>(record);
  matches_schema<Trial>(record);
  matches_schema<DrawnSize>(record);
}

TEST_CASE("a thing is added, amended and ended; every row stays") {
  Record record = record_in_memory();
  const auto heron = add(record, Printer{.name = "Heron", .drive = {}, .note = {}}, "2026-11-01T10:00:00.000Z");
  REQUIRE(heron.ok());
  Printer next = heron->value;
  next.note = "new belts";
  // A clock set back does not make the amendment older than what it amends.
  const auto amended = amend(record, *heron, next, "belts changed", "2026-10-01T10:00:00.000Z");
  REQUIRE(amended.ok());
  CHECK(amended->at == "2026-11-01T10:00:00.001Z");
  CHECK(one<Printer>(record, heron->thing)->value.note == "new belts");
  CHECK(all<Printer>(record)->size() == 1);
  REQUIRE(end(record, *amended, "sold").ok());
  CHECK(all<Printer>(record)->empty());
  CHECK(history<Printer>(record, heron->thing)->size() == 3);
}

TEST_CASE("who amends what was amended meanwhile is told, and nothing is lost") {
  Record record = record_in_memory();
  const auto heron = add(record, Printer{.name = "Heron", .drive = {}, .note = {}});
  Printer a = heron->value, b = heron->value;
  a.note = "a";
  b.note = "b";
  REQUIRE(amend(record, *heron, a, "").ok());
  const auto late = amend(record, *heron, b, "");
  REQUIRE_FALSE(late.ok());
  CHECK(late.problems().front().what.find("in the meantime") != std::string::npos);
  CHECK(one<Printer>(record, heron->thing)->value.note == "a");
}

TEST_CASE("facts are never changed or deleted, even by hand") {
  Record record = record_in_memory();
  REQUIRE(add(record, Printer{.name = "Heron", .drive = {}, .note = {}}).ok());
  CHECK_THROWS_AS(record.database().script("UPDATE printer SET name = 'x'"), DatabaseError);
  CHECK_THROWS_AS(record.database().script("DELETE FROM printer"), DatabaseError);
}

TEST_CASE("a reference to what is not there is refused, and many are added all or none in their order") {
  Record record = record_in_memory();
  CHECK_FALSE(add(record, Spool{.material = new_id(),
                                .name = "n",
                                .colour = {},
                                .batch = {},
                                .price_per_kg = {},
                                .currency = {},
                                .note = {}})
                  .ok());
  std::vector<Material> many;
  for (int k = 0; k < 50; ++k) many.push_back({"M" + std::to_string(k), 1.2, ""});
  REQUIRE(add_all(record, many).ok());
  const auto back = all<Material>(record);
  REQUIRE(back->size() == 50);
  for (std::size_t k = 0; k < 50; ++k) CHECK((*back)[k].value.name == "M" + std::to_string(k));
}
