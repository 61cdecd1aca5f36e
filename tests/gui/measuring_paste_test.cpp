// Spreadsheets and readings files: what would be taken, what is wrong with each cell, nothing in silence.

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/number.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "bench/measuring/measure_paste.hpp"
#include "gui/measuring_helpers.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
using namespace evening;

namespace {

Measuring on_frame() { return begin_measuring(plan({part("frame")}, {})); }

PastePreview pasted(const Measuring& m, const std::string& text) {
  const auto preview = preview_paste(m, text);
  INFO(text);
  REQUIRE(preview);
  return *preview;
}

double value_at(const Measuring& m, const std::string& id, int repeat = 1, int copy = 1) {
  const Taken* t = taken_at(m, {copy, id, repeat});
  INFO(id << " " << repeat);
  REQUIRE(t);
  return t->reading.reading_mm;
}

std::string notes_of(const PastePreview& p) {
  std::string all;
  for (const std::string& note : p.notes) all += note + "\n";
  return all;
}

}  // namespace

TEST_CASE("a column goes down the list from the present place") {
  const Measuring m = at(on_frame(), "X40");
  const PastePreview p = pasted(m, "40,10\r\n99.95\r\n\r\n10.08\r\n");
  CHECK(p.good == 3);
  CHECK(p.wrong == 0);
  CHECK(p.summary == "3 readings");
  const Measuring next = take_paste(p, false).value().next;
  CHECK(value_at(next, "X40") == 40.10);
  CHECK(value_at(next, "X100a") == 99.95);
  CHECK(taken_at(next, {1, "X100b", 1}) == nullptr);  // the empty cell left it out
  CHECK(value_at(next, "Y10a") == 10.08);
  CHECK(next.here == ReadingKey{1, "Y10b", 1});
  CHECK(m.taken.empty());  // a preview changes nothing
}

TEST_CASE("every cell that cannot be taken is named, and keeps its place") {
  const Measuring m = on_frame();
  const PastePreview p = pasted(m, "Reading\n10.1\nx\n40.1\n100.1 100.2\n\n10.2\n");
  CHECK(notes_of(p).find("\"Reading\", is a heading") != std::string::npos);
  CHECK(p.good == 3);
  CHECK(p.wrong == 2);
  CHECK(p.summary == "3 readings, 2 cells cannot be taken");
  const auto refused = take_paste(p, false);
  REQUIRE_FALSE(refused);
  REQUIRE(refused.problems().size() == 2);
  CHECK(refused.problems()[0].where.line == 3);
  CHECK(refused.problems()[0].what.find("\"x\" is not a reading") != std::string::npos);
  const Measuring next = take_paste(p, true).value().next;
  CHECK(value_at(next, "X10a") == 10.1);
  CHECK(value_at(next, "X40") == 40.1);
  CHECK(value_at(next, "Y10a") == 10.2);
  CHECK(next.taken.size() == 3);
}

TEST_CASE("a column longer than the list says which cells have no place") {
  const auto p = plan({}, {jaws(2)});
  const PastePreview preview = pasted(begin_measuring(p), "0.01\n0.00\n0.02\n");
  CHECK(preview.good == 2);
  REQUIRE(preview.wrong == 1);
  CHECK(preview.cells[2].row == 3);
  CHECK(preview.cells[2].wrong.find("no place is left") != std::string::npos);
}

TEST_CASE("a block goes by the names of its features") {
  const Measuring m = read_on(on_frame(), 1);
  const std::string block =
      "feature\twhat\tdrawn\t1st\t2nd\n"
      "X40\tover both blocks\t40\t40,12\t40,11\n"
      "sx20\tslot\t20\t19,85\t\n"
      "D1\tflats\t135,76\t135,9\t135,8\n"
      "Y4O\tover both blocks\t40\t40,1\t\n";
  const PastePreview p = pasted(m, block);
  INFO(notes_of(p));
  CHECK(notes_of(p).find("row 1 is a heading") != std::string::npos);
  CHECK(notes_of(p).find("column 2 holds no readings") != std::string::npos);
  CHECK(notes_of(p).find("column 3 repeats the drawn sizes") != std::string::npos);
  CHECK(p.good == 5);
  REQUIRE(p.wrong == 1);
  const auto wrong = std::find_if(p.cells.begin(), p.cells.end(), [](const PastedCell& c) { return !c.wrong.empty(); });
  CHECK(wrong->wrong == "\"Y4O\" is not on this plan; did you mean \"Y40\"?");
  const Measuring next = take_paste(p, true).value().next;
  CHECK(value_at(next, "X40", 1) == 40.12);
  CHECK(value_at(next, "X40", 2) == 40.11);
  CHECK(value_at(next, "SX20", 1) == 19.85);
  CHECK(value_at(next, "D1", 2) == 135.8);
}

TEST_CASE("a block is understood however its cells are separated") {
  for (const char* text :
       {"X40\t40.12\t40.11", "X40;40,12;40,11", "X40,40.12,40.11", "X40 40.12 40.11", "\"X40\";\"40,12\";\"40,11\""}) {
    const PastePreview p = pasted(on_frame(), text);
    INFO(text);
    CHECK(p.good == 2);
    CHECK(value_at(p.next, "X40", 2) == 40.11);
  }
}

TEST_CASE("names go to the copy in hand, or to the one that is written") {
  const auto two = plan({part("frame"), part("frame", 2, 90)}, {});
  const Measuring second = at(begin_measuring(two), "X10a", 1, 2);
  CHECK(value_at(pasted(second, "X40\t40.12").next, "X40", 1, 2) == 40.12);
  const PastePreview written = pasted(second, "name\tcopy\tread\nX40\t1\t40.12\nX40\t2\t40.13\nX40\t3\t40.14\n");
  CHECK(value_at(written.next, "X40", 1, 1) == 40.12);
  CHECK(value_at(written.next, "X40", 1, 2) == 40.13);
  REQUIRE(written.wrong == 1);
  CHECK(written.cells[2].wrong == "copy 3 of X40 is not on this plan");
}

TEST_CASE("slips and readings beyond what is due are told before they are taken") {
  Measuring m = typed(typed(at(on_frame(), "X40"), "40.10"), drawn_here(on_frame()));
  const PastePreview p = pasted(m, "X40\t41.12\t40.13\t40.12\nY40\t4.012\n");
  REQUIRE(p.cells.size() == 4);
  CHECK(p.cells[0].key->repeat == 2);
  CHECK(p.cells[0].remark.find("41.12 is 1.12 from drawn") != std::string::npos);
  CHECK(p.cells[1].remark.find("beyond what is due") != std::string::npos);
  CHECK(p.cells[2].key->repeat == 4);
  CHECK(p.cells[3].remark.find("40.12?") != std::string::npos);
}

TEST_CASE("a block without names, and nothing at all, say what to copy") {
  for (const char* text : {"40.1\t40.2\n40.3\t40.4\n", "", "\n\n"}) {
    const auto preview = preview_paste(on_frame(), text);
    INFO(text);
    REQUIRE_FALSE(preview);
    CHECK_FALSE(preview.problems().front().remedy.empty());
  }
}

TEST_CASE("a column in inches is read in inches") {
  MeasureOptions options;
  options.inches = true;
  const PastePreview p = pasted(at(begin_measuring(plan({part("frame")}, {}, options)), "X40"), "1.5795\n100.02 mm\n");
  CHECK(value_at(p.next, "X40") == Approx(1.5795 * 25.4));
  CHECK(value_at(p.next, "X100a") == 100.02);
}

TEST_CASE("importing a file says line by line what it would do") {
  Measuring m = typed(at(on_frame(), "X40"), "40.10");
  m = typed(at(m, "X100a"), "99.95");
  const std::string head = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm,edge_a,edge_b\n";
  const std::string csv = head +
                          "X40,outer,x,40,1,1,40.10,x2,x5\n"     // here already
                          "X100a,outer,x,100,1,1,99.90,x7,x8\n"  // differs
                          "X40,outer,x,40,1,2,41.12,x2,x5\n"     // new, and a slip
                          "H5,hole,z,5,1,1,4.80,,\n"             // not on this plan
                          "SX40,inner,x,41,1,1,40.80,x1,x2\n";   // drawn otherwise
  const ImportPreview p = preview_import(m, csv, "heron.csv");
  CHECK(p.defects.empty());
  CHECK(p.added == 1);
  CHECK(p.same == 1);
  CHECK(p.differing == 1);
  CHECK(p.beside == 1);
  CHECK(p.contradicting == 1);
  REQUIRE(p.rows.size() == 5);
  CHECK(p.rows[1].line == 3);
  CHECK(p.rows[1].told == "here it is 99.95");
  CHECK(p.rows[2].told == "41.12 is 1.12 from drawn. 40.12?");
  CHECK(p.rows[4].told == "is drawn 40 here, but 41 there");
  CHECK(
      p.summary ==
      "1 reading to add, 1 here already, 1 differs from those here, 1 not on this plan, 1 contradicts this plan and is "
      "left out.");

  const Measuring mine = take_import(m, p, false).value().next;
  CHECK(value_at(mine, "X100a") == 99.95);
  CHECK(value_at(mine, "X40", 2) == 41.12);
  CHECK(value_at(take_import(m, p, true).value().next, "X100a") == 99.90);
  // What goes to disk reads back whole: nothing contradicts itself.
  const auto again = parse_readings(to_csv(readings_of(mine)), "again");
  REQUIRE(again);
  CHECK(again->rows.size() == 4);

  const ImportPreview twice = preview_import(mine, csv, "heron.csv");
  CHECK(twice.added == 0);
  CHECK(twice.beside == 0);
  CHECK_FALSE(take_import(mine, twice, false));
}

TEST_CASE("a file with defects shows all of them by line, and nothing is taken") {
  const ImportPreview p = preview_import(on_frame(),
                                         "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"
                                         "X40,outer,x,40,1,1,forty\n"
                                         "X40,outer,q,40,1,2,40.1\n",
                                         "heron.csv");
  REQUIRE(p.defects.size() == 2);
  CHECK(p.defects[0].find("heron.csv:2:20: ") == 0);
  CHECK(p.defects[1].find("heron.csv:3:11: ") == 0);
  CHECK(p.summary.find("2 defects") != std::string::npos);
  CHECK_FALSE(take_import(on_frame(), p, true));
  CHECK(is_readings_text("feature_id,kind\nX"));
  CHECK_FALSE(is_readings_text("40.1\nfeature_id"));
}
