// Edits of cells and blocks: what is understood, what follows, and what is refused with words.

#include "bench/edit.hpp"

#include <catch2/catch.hpp>

#include "bench/cell_entry.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

constexpr const char* csv =
    "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm,turned_deg\n"
    "X40,outer,x,40,1,1,40.12,0\n"
    "X40,outer,x,40,2,1,40.10,90\n"
    "SX20,inner,x,20,1,1,19.85,0\n"
    "SX20,inner,x,20,2,1,19.83,90\n";

Content content_of(const char* text) {
  Content content;
  content.readings = std::make_shared<const ReadingSet>(parse_readings(text, "test").value());
  return content;
}

const Reading& row(const Edit& edit, std::size_t i) { return edit.next.readings->rows.at(i); }

}  // namespace

TEST_CASE("lengths are read as people type them") {
  // One inch is 25.4 mm by definition.
  CHECK(length_from_entry("40.12") == 40.12);
  CHECK(length_from_entry(" 40,12 ") == 40.12);
  CHECK(length_from_entry("40.12 mm") == 40.12);
  CHECK(*length_from_entry("1.5 in") == Approx(38.1).epsilon(1e-12));
  CHECK(*length_from_entry("1.5\"") == Approx(38.1).epsilon(1e-12));
  for (const char* bad : {"", "mm", "4 0", "1.2.3", "40.12 cm", "1,234.5", "nan", "1e999"}) {
    INFO(bad);
    CHECK_FALSE(length_from_entry(bad));
  }
}

TEST_CASE("a cell takes its value and nothing else changes") {
  const Content before = content_of(csv);
  const auto edit = set_cell(before, 0, Column::reading, "40,15");
  REQUIRE(edit);
  CHECK(row(*edit, 0).reading_mm == 40.15);
  CHECK(edit->label == "reading of X40");
  CHECK(before.readings->rows[0].reading_mm == 40.12);
  for (std::size_t i = 1; i < 4; ++i) CHECK(row(*edit, i).reading_mm == before.readings->rows[i].reading_mm);
}

TEST_CASE("what belongs to the feature or the copy follows in all its rows") {
  const Content before = content_of(csv);
  const auto drawn = set_cell(before, 2, Column::drawn, "21");
  REQUIRE(drawn);
  CHECK(row(*drawn, 3).feature.nominal_mm == 21);
  CHECK(row(*drawn, 0).feature.nominal_mm == 40);
  CHECK(drawn->said == "SX20: changed in 2 rows");

  const auto turned = set_cell(before, 1, Column::turned, "270");
  REQUIRE(turned);
  CHECK(row(*turned, 3).turned_deg == 270);
  CHECK(row(*turned, 0).turned_deg == 0);

  const auto named = set_cell(before, 0, Column::feature, "SX20");
  REQUIRE(named);
  CHECK(row(*named, 0).feature.kind == Kind::inner);
  CHECK(row(*named, 0).feature.nominal_mm == 20);

  const auto moved = set_cell(before, 0, Column::copy, "2");
  REQUIRE(moved);
  CHECK(row(*moved, 0).turned_deg == 90);
}

TEST_CASE("a kind is understood with and without its axis, in our words and the file's") {
  const Content before = content_of(csv);
  const auto slot = set_cell(before, 0, Column::kind, "slot Y");
  REQUIRE(slot);
  CHECK(row(*slot, 0).feature.kind == Kind::inner);
  CHECK(row(*slot, 1).feature.axis == Axis::y);
  const auto hole = set_cell(before, 0, Column::kind, "hole");
  REQUIRE(hole);
  CHECK(row(*hole, 0).feature.axis == Axis::z);
  const auto diagonal = set_cell(before, 0, Column::kind, "flats+");
  REQUIRE(diagonal);
  CHECK(row(*diagonal, 0).feature.kind == Kind::flats_plus);
  CHECK_FALSE(set_cell(before, 0, Column::kind, "hole X"));
}

TEST_CASE("a cell that cannot be taken says what is expected") {
  const Content before = content_of(csv);
  struct Case {
    Column column;
    const char* text;
    const char* says;
  };
  for (const Case& c :
       {Case{Column::reading, "forty", "\"forty\" is not a reading"}, Case{Column::reading, "-3", "not a reading"},
        Case{Column::reading, "0", "not a reading"}, Case{Column::reading, "99999", "not a reading"},
        Case{Column::drawn, "0", "not a length"}, Case{Column::copy, "0", "1 or more"},
        Case{Column::copy, "1.5", "1 or more"}, Case{Column::turned, "45", "0, 90, 180 or 270"},
        Case{Column::axis, "q", "it can have: X, Y, Z"}, Case{Column::feature, "  ", "feature name"},
        Case{Column::facets, "2", "3 and more"}, Case{Column::deviation, "1", "computed from the others"}}) {
    INFO(c.text);
    const auto edit = set_cell(before, 0, c.column, c.text);
    REQUIRE_FALSE(edit);
    CHECK(edit.problems().front().text().find(c.says) != std::string::npos);
  }
}

TEST_CASE("an emptied reading makes the place unread: shown, neither used nor saved") {
  const auto edit = set_cell(content_of(csv), 0, Column::reading, "");
  REQUIRE(edit);
  CHECK_FALSE(has_reading(row(*edit, 0)));
  CHECK(cell_shown(row(*edit, 0), Column::reading, {}) == "\u00b7");
  CHECK(only_read(*edit->next.readings).rows.size() == 3);
}

TEST_CASE("an inserted row asks for the next repeat of the feature above it") {
  const Edit edit = insert_row(content_of(csv), 1);
  CHECK(edit.next.readings->rows.size() == 5);
  CHECK(row(edit, 1).feature.id == "X40");
  CHECK(row(edit, 1).copy == 1);
  CHECK(row(edit, 1).repeat == 2);
  CHECK_FALSE(has_reading(row(edit, 1)));
}

TEST_CASE("a pasted column goes down, all of it or none of it") {
  const Content before = content_of(csv);
  const auto columns = visible_columns(false);
  const auto reading =
      static_cast<std::size_t>(std::find(columns.begin(), columns.end(), Column::reading) - columns.begin());
  const auto good = paste_block(before, 1, columns, reading, "40.2\r\n19,9\r\n19.8\r\n");
  REQUIRE(good);
  CHECK(row(*good, 1).reading_mm == 40.2);
  CHECK(row(*good, 2).reading_mm == 19.9);
  CHECK(row(*good, 3).reading_mm == 19.8);

  const auto bad = paste_block(before, 0, columns, reading, "40.2\nx\n19.9\ny\n3\n");
  REQUIRE_FALSE(bad);
  CHECK(bad.problems().size() == 3);  // one line too many, and two cells that are no readings
  CHECK(bad.problems()[1].where.line == 2);
  CHECK_FALSE(paste_block(before, 0, columns, reading, "\n\n"));
}

TEST_CASE("a copied block pastes back to itself, computed columns passed over") {
  const Content before = content_of(csv);
  const auto columns = visible_columns(false);
  std::string block;
  for (const Reading& r : before.readings->rows) {
    for (const Column c : columns) block += (c == columns.front() ? "" : "\t") + cell_editable(r, c);
    block += "\n";
  }
  const auto pasted = paste_block(before, 0, columns, 0, block);
  REQUIRE(pasted);
  CHECK(to_csv(*pasted->next.readings) == to_csv(*before.readings));
}

TEST_CASE("rows of a readings file are pasted with their header, at the end") {
  const auto pasted = paste_block(content_of(csv), 0, visible_columns(false), 0,
                                  "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\nH5,hole,z,5,1,1,4.8\n");
  REQUIRE(pasted);
  CHECK(pasted->next.readings->rows.size() == 5);
  CHECK(row(*pasted, 4).feature.id == "H5");
}
