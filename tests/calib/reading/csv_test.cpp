// Readings files as people and spreadsheets write them.
#include "reading/csv.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

ReadingSet read(const std::string& csv) {
  const auto set = parse_readings(csv, "r.csv");
  if (!set) FAIL(set.problems().front().text());
  return *set;
}

const std::string header = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm";

bool same(const Reading& a, const Reading& b) {
  const Feature &f = a.feature, &g = b.feature;
  return f.id == g.id && f.kind == g.kind && f.axis == g.axis && f.nominal_mm == g.nominal_mm &&
         f.side_a_mm == g.side_a_mm && f.side_b_mm == g.side_b_mm && f.facets == g.facets && f.edge_a == g.edge_a &&
         f.edge_b == g.edge_b && a.copy == b.copy && a.repeat == b.repeat && a.reading_mm == b.reading_mm &&
         a.turned_deg == b.turned_deg && a.step_mm == b.step_mm && a.part_c == b.part_c && a.note == b.note;
}

void check_round_trip(const ReadingSet& set) {
  const ReadingSet again = read(to_csv(set));
  REQUIRE(again.rows.size() == set.rows.size());
  for (std::size_t i = 0; i < set.rows.size(); ++i) {
    INFO(i);
    CHECK(same(set.rows[i], again.rows[i]));
  }
}

}  // namespace

TEST_CASE("The required columns suffice, and the others have their defaults") {
  const ReadingSet set = read(header + "\nX40,outer,x,40,2,3,40.05\n");
  REQUIRE(set.rows.size() == 1);
  const Reading& r = set.rows[0];
  CHECK(set.source == "r.csv");
  CHECK(r.feature.id == "X40");
  CHECK(r.feature.kind == Kind::outer);
  CHECK(r.feature.axis == Axis::x);
  CHECK(r.feature.nominal_mm == 40);
  CHECK(r.copy == 2);
  CHECK(r.repeat == 3);
  CHECK(r.reading_mm == 40.05);
  CHECK(r.row == 2);
  CHECK(r.turned_deg == 0);
  CHECK(r.feature.facets == 0);
  CHECK(r.step_mm == 0.1);
  CHECK_FALSE(r.part_c.has_value());
  CHECK_FALSE(r.feature.side_a_mm.has_value());
}

TEST_CASE("Separators, decimal signs, line ends and order of columns do not matter") {
  const std::string same_reading[] = {
      header + "\nX40,outer,x,40.5,1,1,40.55",
      "\xEF\xBB\xBF" + header + "\r\nX40,outer,x,40.5,1,1,40.55\r\n\r\n",
      "feature_id;kind;axis;nominal_mm;copy;repeat;reading_mm\nX40;outer;x;40,5;1;1;40,55\n",
      "feature_id;kind;axis;nominal_mm;copy;repeat;reading_mm\nX40;outer;x;40.5;1;1;40.55\n",
      "feature_id\tkind\taxis\tnominal_mm\tcopy\trepeat\treading_mm\nX40\touter\tx\t40,5\t1\t1\t40,55\n",
      "reading_mm,repeat,copy,nominal_mm,axis,kind,feature_id\n40.55,1,1,40.5,x,outer,X40\n",
      header + "\n X40 , outer , x , +40.5 , 1 , 1 , 40.55 \n",
      "\"feature_id\",\"kind\",\"axis\",\"nominal_mm\",\"copy\",\"repeat\",\"reading_mm\"\n\"X40\",\"outer\",\"x\","
      "\"40.5\",\"1\",\"1\",\"40.55\"\n",
      header + ",,\nX40,outer,x,40.5,1,1,40.55,,\n,,,,,,,,\n",
      header + "\rX40,outer,x,40.5,1,1,40.55\r",
  };
  for (const std::string& csv : same_reading) {
    INFO(csv);
    const ReadingSet set = read(csv);
    REQUIRE(set.rows.size() == 1);
    CHECK(set.rows[0].feature.id == "X40");
    CHECK(set.rows[0].feature.nominal_mm == 40.5);
    CHECK(set.rows[0].reading_mm == 40.55);
    CHECK(set.rows[0].row == 2);
  }
}

TEST_CASE("Inches are those of the reading only") {
  const ReadingSet set =
      read(header + ",unit\nX40,outer,x,40,1,1,1.58,in\nX40,outer,x,40,1,2,40.1,mm\nX40,outer,x,40,1,3,40.2,\n");
  CHECK(set.rows[0].feature.nominal_mm == 40);
  CHECK(set.rows[0].reading_mm == Approx(1.58 * 25.4).epsilon(1e-15));
  CHECK(set.rows[1].reading_mm == 40.1);
  CHECK(set.rows[2].reading_mm == 40.2);
}

TEST_CASE("Quoted notes may hold separators, quotes and line ends; rows are physical lines") {
  const ReadingSet set =
      read(header + ",note\nA,outer,x,10,1,1,10,\"a \"\"b\"\", c\nd\"\n\nB,outer,x,10,1,1,10,plain 12\" mark\n");
  REQUIRE(set.rows.size() == 2);
  CHECK(set.rows[0].note == "a \"b\", c\nd");
  CHECK(set.rows[0].row == 2);
  CHECK(set.rows[1].note == "plain 12\" mark");
  CHECK(set.rows[1].row == 5);
}

TEST_CASE("Steel needs no copy, and its readings may be below zero at closed jaws") {
  const ReadingSet set =
      read(header + "\nZ0,zero,n,0,,1,-0.02\nZ0,zero,n,0,,2,0\nG10,gauge,n,10,-,1,10.01\nR3,ring,n,3,1,1,2.97\n");
  REQUIRE(set.rows.size() == 4);
  CHECK(set.rows[0].copy == 1);
  CHECK(set.rows[0].reading_mm == -0.02);
  CHECK(set.rows[2].copy == 1);
}

TEST_CASE("A slip that falls below zero is left to the entry gate") {
  CHECK(read(header + "\nW1,wall,n,0.45,1,1,-0.54\n").rows[0].reading_mm == -0.54);
}

TEST_CASE("All optional columns are taken") {
  const ReadingSet set = read(header +
                              ",turned_deg,unit,facets,side_a_mm,side_b_mm,edge_a,edge_b,step_mm,part_c,note\n"
                              "H5,hole,z,5,1,1,4.8,90,mm,64,,,,,,21.5,through\n"
                              "D,diag-,xy,100,1,1,100.1,90,,0,80,60,,,,,\n"
                              "X,outer,x,10,1,1,10.1,90,,,0,0,left,right,,,\n"
                              "P,pin,z,3,1,1,2.9,,,,,,,,0.05,,\n");
  CHECK(set.rows[0].feature.facets == 64);
  CHECK(set.rows[0].part_c == 21.5);
  CHECK(set.rows[0].note == "through");
  CHECK(set.rows[0].turned_deg == 90);
  CHECK(set.rows[1].feature.side_a_mm == 80.0);
  CHECK(set.rows[1].feature.side_b_mm == 60.0);
  CHECK(set.rows[2].feature.edge_a == "left");
  CHECK(set.rows[2].feature.edge_b == "right");
  CHECK_FALSE(set.rows[2].feature.side_a_mm.has_value());
  CHECK(set.rows[3].step_mm == 0.05);
  CHECK(set.rows[3].turned_deg == 0);
  check_round_trip(set);
}

TEST_CASE("Written readings read back the same, and take only the columns that say something") {
  const ReadingSet plain = simulate(default_truth(), 4);
  CHECK(to_csv(plain).starts_with(header + "\nX10,outer,x,10,1,1,"));
  check_round_trip(plain);

  ReadingSet awkward = read(header + ",note\nA,outer,x,10,1,1,10,x\n");
  awkward.rows[0].note = "  \"quoted\", and\r\ntwo lines ";
  awkward.rows[0].feature.id = "a,b;c d";
  awkward.rows[0].reading_mm = 0.1 + 0.2;
  check_round_trip(awkward);
  CHECK(to_csv({}) == header + "\n");
}

TEST_CASE("A hundred thousand rows are read") {
  std::string csv = header + "\n";
  for (int i = 0; i < 100000; ++i)
    csv += "X" + std::to_string(i % 1000) + ",outer,x,40,1," + std::to_string(i / 1000 + 1) + ",40.05\n";
  CHECK(read(csv).rows.size() == 100000);
}

TEST_CASE("A copy that lay across has its axes exchanged, steel has not") {
  const ReadingSet set =
      read(header +
           ",turned_deg\nX,outer,x,40,1,1,40,90\nD,diag+,xy,40,1,1,40,270\nF,flats-,xy,40,1,1,40,90\n"
           "Z,outer,z,40,1,1,40,90\nY,outer,y,40,1,1,40,180\nG,gauge,n,40,1,1,40,90\n");
  CHECK(machine_axis(set.rows[0]) == Axis::y);
  CHECK(machine_kind(set.rows[1]) == Kind::diag_minus);
  CHECK(machine_kind(set.rows[2]) == Kind::flats_plus);
  CHECK(machine_axis(set.rows[3]) == Axis::z);
  CHECK(machine_axis(set.rows[4]) == Axis::y);
  CHECK(machine_axis(set.rows[5]) == Axis::n);
}

TEST_CASE("Words of kinds and axes read back") {
  for (int k = 0; k <= static_cast<int>(Kind::ring); ++k) {
    const auto kind = static_cast<Kind>(k);
    CHECK(kind_from(word(kind)) == kind);
    CHECK_FALSE(axes_of(kind).empty());
  }
  for (const Axis axis : {Axis::x, Axis::y, Axis::z, Axis::n, Axis::xy}) CHECK(axis_from(word(axis)) == axis);
  CHECK_FALSE(kind_from("").has_value());
  CHECK_FALSE(axis_from("X").has_value());
}

TEST_CASE("a file that is being filled in: rows without a reading wait, and are checked all the same") {
  const auto parsed =
      parse_partly_read(header + "\nX40,outer,x,40,1,1,40.05\nX40,outer,x,40,1,2,\nZ0,zero,n,0,,1, \n", "r");
  REQUIRE(parsed);
  REQUIRE(parsed->read.rows.size() == 1);
  CHECK(parsed->read.rows[0].reading_mm == 40.05);
  REQUIRE(parsed->unread.size() == 2);
  CHECK(parsed->unread[0].feature.id == "X40");
  CHECK(parsed->unread[0].repeat == 2);
  CHECK(parsed->unread[0].row == 3);
  CHECK(std::isnan(parsed->unread[0].reading_mm));
  CHECK(parsed->unread[1].feature.kind == Kind::zero);

  const auto none = parse_partly_read(header + "\nX40,outer,x,40,1,1,\n", "r");
  REQUIRE(none);
  CHECK(none->read.rows.empty());

  const auto wrong =
      parse_partly_read(header + "\nX40,outer,x,40,1,1,\nX40,inner,x,40,1,1,\nX41,outer,q,41,1,1,abc\n", "r");
  REQUIRE_FALSE(wrong);
  CHECK(wrong.problems().size() == 4);  // another kind, the same repeat twice, no such axis, no number

  // Elsewhere an empty reading is a defect.
  CHECK_FALSE(parse_readings(header + "\nX40,outer,x,40,1,1,\n", "r"));
}

TEST_CASE("a reading that is not there is written empty, and waits again when read back") {
  auto parsed = parse_partly_read(header + "\nX40,outer,x,40,1,1,\n", "r");
  REQUIRE(parsed);
  ReadingSet set{"r", parsed->unread};
  const std::string text = to_csv(set);
  CHECK(text == header + "\nX40,outer,x,40,1,1,\n");
}
