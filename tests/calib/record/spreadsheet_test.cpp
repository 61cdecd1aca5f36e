// Readings and corrections for a spreadsheet: every cell where it belongs, and none that is worked out as a formula.

#include "record/spreadsheet.hpp"

#include <catch2/catch.hpp>

#include "calib/record/random_record.hpp"
#include "reading/csv_scanner.hpp"
#include "reading/features_csv.hpp"
#include "record/life.hpp"
#include "record/sheet.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;
using namespace fitwright_test;

namespace {

using Cells = std::vector<std::vector<std::string>>;

/// The cells, read by the scanner of readings files.
Cells cells(const std::string& csv) {
  Defects defects("sheet");
  CsvScanner scanner(csv, defects);
  Cells out;
  CsvRow row;
  while (scanner.next(row)) {
    out.emplace_back();
    for (const CsvField& field : row.fields) out.back().push_back(field.text);
  }
  CHECK(defects.empty());
  return out;
}

std::string cell(const Cells& sheet, std::size_t row, const std::string& column) {
  for (std::size_t k = 0; k < sheet[0].size(); ++k)
    if (sheet[0][k] == column) return sheet.at(row).at(k);
  FAIL("no column " << column);
  return {};
}

template <class T>
Id kept(Record& record, const T& value, const std::string& at = "2026-11-20T10:00:00.000Z") {
  const auto added = add(record, value, at);
  REQUIRE(added.ok());
  return added->thing;
}

struct Bench {
  Record record = record_in_memory();
  Id heron = kept(record, Printer{.name = "Heron", .drive = {}, .note = {}});
  Id pla = kept(record, Material{"PLA", 1.24, ""});
  Id spool = kept(record, Spool{.material = pla,
                                .name = "PLA slate, batch 14",
                                .colour = {},
                                .batch = {},
                                .price_per_kg = {},
                                .currency = {},
                                .note = {}});
  Id setup = kept(
      record,
      Setup{.name = "=fine", .printer = heron, .spool = spool, .nozzle_c = {}, .bed_c = {}, .state = {}, .note = {}});
  Id caliper = kept(record, Caliper{.name = "the long one", .serial = {}, .note = {}});
  Id session =
      kept(record,
           Session{.setup = setup, .caliper = caliper, .began = "2026-11-20T19:00:00.000Z", .room_c = {}, .note = {}});
  Id coupon = kept(record, MadeCoupon{.design = "frame",
                                      .parameters = "{}",
                                      .features = "feature_id,kind,axis,nominal_mm,side_a_mm,side_b_mm,facets,edge_a,"
                                                  "edge_b,label\nX40,outer,x,40,,,,x1,x2,\nD1,diag+,xy,50,30,40,,,,\n",
                                      .file_hash = {},
                                      .grams = {},
                                      .note = {}});
  Id copy = kept(record, Copy{.setup = setup,
                              .coupon = coupon,
                              .print = 2,
                              .turned_deg = 90,
                              .state = {},
                              .printed_on = "2026-11-19",
                              .note = {}});

  Kept<StoredReading> read(const std::string& feature, double mm, const std::string& note) {
    const auto added =
        add(record,
            StoredReading{
                .copy = copy, .session = session, .feature_id = feature, .reading_mm = mm, .part_c = {}, .note = note},
            "2026-11-20T19:10:00.000Z");
    REQUIRE(added.ok());
    return *added;
  }
};

}  // namespace

TEST_CASE("text that a spreadsheet would work out gets an apostrophe; quoting follows RFC 4180") {
  CHECK(sheet_text("plain") == "plain");
  CHECK(sheet_text("") == "");
  CHECK(sheet_text("=1+1") == "'=1+1");
  CHECK(sheet_text("+1") == "'+1");
  CHECK(sheet_text("-1") == "'-1");
  CHECK(sheet_text("@SUM(A1)") == "'@SUM(A1)");
  CHECK(sheet_text("\t=1") == "\"'\t=1\"");
  CHECK(sheet_text("\r=1") == "\"'\r=1\"");
  CHECK(sheet_text("=\"a\",b") == "\"'=\"\"a\"\",b\"");
  CHECK(sheet_text("a=1") == "a=1");
  CHECK(sheet_text("two\nlines") == "\"two\nlines\"");
  CHECK(sheet_text("a;b") == "\"a;b\"");  // for those that take semicolons for separators
  CHECK(sheet_text(" blank") == "\" blank\"");
  CHECK(sheet_text("größe 寸法") == "größe 寸法");
  CHECK(sheet_number(-0.05) == "-0.05");  // a number is one
  CHECK(sheet_number({}).empty());
}

TEST_CASE("readings stand with all that they belong to, steel last") {
  Bench bench;
  const auto first = bench.read("X40", 39.9, "");
  bench.read("D1", 50.02, "-0.1 at the corner");
  bench.read("X99", 1, "no such feature");
  kept(
      bench.record,
      SteelReading{
          .caliper = {}, .session = bench.session, .kind = "zero", .feature_id = "Z0", .reading_mm = 0.01, .note = {}});
  StoredReading again = first.value;
  again.reading_mm = 40.05;
  REQUIRE(amend(bench.record, first, again, "misread", "2026-11-20T19:20:00.000Z").ok());

  const auto sheet = readings_csv(bench.record);
  REQUIRE(sheet.ok());
  CHECK(sheet->rows == 4);
  const Cells table = cells(sheet->csv);
  REQUIRE(table.size() == 5);
  CHECK(cell(table, 1, "feature_id") == "X40");
  CHECK(cell(table, 1, "kind") == "outer");
  CHECK(cell(table, 1, "nominal_mm") == "40");
  CHECK(cell(table, 1, "reading_mm") == "40.05");
  CHECK(cell(table, 1, "copy") == "2");
  CHECK(cell(table, 1, "turned_deg") == "90");
  CHECK(cell(table, 1, "edge_b") == "x2");
  CHECK(cell(table, 1, "setup") == "'=fine");
  CHECK(cell(table, 1, "printer") == "Heron");
  CHECK(cell(table, 1, "material") == "PLA");
  CHECK(cell(table, 1, "spool") == "PLA slate, batch 14");
  CHECK(cell(table, 1, "session") == "2026-11-20T19:00:00.000Z");
  CHECK(cell(table, 1, "caliper") == "the long one");
  CHECK(cell(table, 1, "printed_on") == "2026-11-19");
  CHECK(cell(table, 1, "standing") == "read");
  CHECK(cell(table, 1, "holds") == "yes");
  CHECK(cell(table, 1, "why") == "misread");
  CHECK(cell(table, 2, "side_b_mm") == "40");
  CHECK(cell(table, 2, "note") == "'-0.1 at the corner");
  CHECK(cell(table, 3, "kind").empty());
  CHECK(cell(table, 4, "kind") == "zero");
  CHECK(cell(table, 4, "caliper") == "the long one");

  const auto all_rows = readings_csv(bench.record, {.setup = bench.setup, .superseded = true});
  REQUIRE(all_rows.ok());
  const Cells full = cells(all_rows->csv);
  REQUIRE(full.size() == 6);
  CHECK(cell(full, 1, "reading_mm") == "39.9");
  CHECK(cell(full, 1, "holds") == "superseded");
  CHECK(cell(full, 2, "reading_mm") == "40.05");
  CHECK(cell(full, 2, "holds") == "yes");

  SECTION("a copy that ended takes its readings along, unless all rows are wanted") {
    const auto copy = one<Copy>(bench.record, bench.copy);
    REQUIRE(end(bench.record, *copy, "warped").ok());
    CHECK(readings_csv(bench.record)->rows == 1);
    const Cells rest = cells(readings_csv(bench.record, {.setup = {}, .superseded = true})->csv);
    REQUIRE(rest.size() == 6);
    CHECK(cell(rest, 1, "holds") == "superseded");
    CHECK(cell(rest, 2, "holds") == "ended");
  }
  SECTION("a setup that is not there is told") {
    CHECK(readings_csv(bench.record, {.setup = bench.copy, .superseded = false}).problems()[0].what ==
          "there is no setup \"" + bench.copy.text + "\" in the record");
  }
}

TEST_CASE("corrections stand with each knob, old and new, and the dates of their life") {
  Bench bench;
  State before, after;
  after.size_factor = 1.004;
  after.steps_per_mm.x = 80.25;
  const Id correction = kept(bench.record, StoredCorrection{.setup = bench.setup,
                                                            .estimate = {},
                                                            .origin = "by hand",
                                                            .policy = "shrink",
                                                            .before = to_json(before),
                                                            .after = to_json(after),
                                                            .detail = {}});
  for (const auto& [what, at] :
       std::vector<std::pair<std::string, std::string>>{{"proposed", "2026-11-21T10:00:00.000Z"},
                                                        {"applied", "2026-11-22T10:00:00.000Z"},
                                                        {"withdrawn", "2026-11-23T10:00:00.000Z"}})
    kept(bench.record, CorrectionEvent{correction, what, what == "withdrawn" ? "=worse" : "", ""}, at);
  kept(bench.record,
       StoredCorrection{.setup = bench.setup,
                        .estimate = {},
                        .origin = "by hand",
                        .policy = "shrink",
                        .before = to_json(before),
                        .after = to_json(before),
                        .detail = {}},
       "2026-11-24T10:00:00.000Z");
  const auto sheet = corrections_csv(bench.record);
  REQUIRE(sheet.ok());
  const Cells table = cells(sheet->csv);
  REQUIRE(table.size() == 4);
  CHECK(cell(table, 1, "knob") == "size_factor");
  CHECK(cell(table, 1, "old") == "1");
  CHECK(cell(table, 1, "new") == "1.004");
  CHECK(cell(table, 2, "knob") == "steps_per_mm.x");
  CHECK(cell(table, 2, "new") == "80.25");
  CHECK(cell(table, 2, "standing") == "withdrawn");
  CHECK(cell(table, 2, "applied") == "2026-11-22T10:00:00.000Z");
  CHECK(cell(table, 2, "proved").empty());
  CHECK(cell(table, 2, "withdrawn") == "2026-11-23T10:00:00.000Z");
  CHECK(cell(table, 2, "reason") == "'=worse");
  CHECK(cell(table, 3, "standing") == "proposed");
  CHECK(cell(table, 3, "proposed") == "2026-11-24T10:00:00.000Z");
  CHECK(cell(table, 3, "knob").empty());
}

TEST_CASE("any record becomes sheets of even width without a formula in them, 20 of them") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    Record record = random_record(seed);
    const auto readings = readings_csv(record, {.setup = {}, .superseded = true}),
               corrections = corrections_csv(record);
    REQUIRE(readings.ok());
    REQUIRE(corrections.ok());
    const auto rows = record.database().number("SELECT (SELECT count(*) FROM reading) + (SELECT count(*) FROM steel)");
    CHECK(readings->rows == static_cast<std::size_t>(*rows));
    for (const std::string& csv : {readings->csv, corrections->csv}) {
      const Cells table = cells(csv);
      for (const auto& row : table) {
        REQUIRE(row.size() == table[0].size());
        for (const std::string& text : row) {
          if (text.empty() || std::string("=+-@").find(text[0]) == std::string::npos) continue;
          REQUIRE(text.find_first_not_of("+-0123456789.einf") == std::string::npos);  // a number
        }
      }
    }
    CHECK(readings_csv(record)->csv == readings_csv(record)->csv);
  }
}
