// The table of all readings and the preview: what a person and a screen reader are told of each.

#include "bench/measuring/measure_table.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "bench/keeping.hpp"
#include "bench/measuring/preview_rows.hpp"
#include "gui/measuring_helpers.hpp"

using namespace fitwright;
using namespace evening;

TEST_CASE("the table has every reading of the evening, due ones empty") {
  const Measuring m = read_on(begin_measuring(first_evening()), 5);
  const auto rows = measure_table(m);
  CHECK(rows.size() == due_lines(m).size());
  CHECK(std::count_if(rows.begin(), rows.end(), [](const TableRow& r) { return !r.reading.empty(); }) == 5);
  CHECK(rows[0].place == "jaws");
  CHECK(rows[0].copy.empty());
  CHECK(rows[0].reading == "0.00");
  const auto here = std::find_if(rows.begin(), rows.end(), [&](const TableRow& r) { return r.key == m.here; });
  REQUIRE(here != rows.end());
  CHECK(here->remark == "in hand");
  CHECK(here->copy == "1");
  CHECK(measure_table(Measuring{}).empty());
}

TEST_CASE("the table says what is doubtful, skipped and damaged") {
  Measuring m = read_on(begin_measuring(first_evening()), 3);
  const ReadingKey slip = *m.here;
  m = typed(m, drawn_here(m, 1.1));
  const ReadingKey skipped = *m.here;
  m = skip_here(m).value().next;
  const ReadingKey damaged = *m.here;
  m = part_damaged(m).value().next;
  const auto rows = measure_table(m, {{skipped, "the fit doubts it"}});
  const auto at = [&](const ReadingKey& key) {
    return *std::find_if(rows.begin(), rows.end(), [&](const TableRow& r) { return r.key == key; });
  };
  CHECK(at(slip).doubtful);
  CHECK(at(slip).remark.find("from drawn") != std::string::npos);
  CHECK(at(skipped).remark == "the fit doubts it");
  CHECK(at(damaged).remark == "damaged");
}

TEST_CASE("a preview of a pasted column has what is wrong first and says how much it would take") {
  const Measuring m = read_on(begin_measuring(first_evening()), 3);
  const auto preview = preview_paste(m, "10.1\nforty\n10.2\n");
  REQUIRE(preview);
  const PreviewRows rows = preview_rows(*preview);
  REQUIRE(rows.rows.size() == 3);
  CHECK(rows.rows[0].wrong);
  CHECK(rows.rows[0].from == "row 2");
  CHECK(rows.rows[0].told.find("\"forty\" is not a reading") != std::string::npos);
  CHECK(rows.rows[1].from == "row 1");
  CHECK(rows.take == "Take 2 readings, leave the rest out");
}

TEST_CASE("a preview of a file that is wrong offers nothing to take; one that differs asks") {
  const Content demo = demo_document().content();
  const PreviewRows bad =
      preview_rows(preview_import(demo.measuring, "feature_id,kind\nX40,outer\n", "bad.csv"), "bad.csv");
  CHECK(bad.take.empty());
  CHECK_FALSE(bad.rows.empty());
  CHECK(bad.rows.front().wrong);
  const PreviewRows differs =
      preview_rows(preview_import(demo.measuring,
                                  "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm,turned_deg,edge_a,edge_b\n"
                                  "X40,outer,x,40,1,1,40.2,0,x2,x5\n",
                                  "other.csv"),
                   "other.csv");
  CHECK(differs.replace == "Replace 1 reading that differs");
  REQUIRE(differs.rows.size() == 1);
  CHECK(differs.rows[0].told == "here it is 40.06");
}
