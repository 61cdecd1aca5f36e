// Every defect of a readings file: its line, its column, its words.
#include <catch2/catch.hpp>
#include <string>

#include "reading/csv.hpp"

using namespace fitwright;

namespace {

std::string messages(const std::string& csv) {
  const auto set = parse_readings(csv, "r.csv");
  if (set) return "";
  std::string out;
  for (const Problem& p : set.problems()) {
    CHECK(p.code == Code::bad_input);
    out += p.text() + "\n";
  }
  return out;
}

const std::string header = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n";
const std::string kinds =
    "outer, inner, foot, pitch, peg, hole, hole_h, pin, wall, diag+, diag-, flats+, flats-, zero, gauge or ring";

/// A file with further columns after the required ones.
std::string with(const std::string& columns, const std::string& rows) {
  return header.substr(0, header.size() - 1) + "," + columns + "\n" + rows;
}

struct Case {
  std::string csv, expected;
};

void check(std::initializer_list<Case> cases) {
  for (const Case& c : cases) {
    INFO(c.csv);
    CHECK(messages(c.csv) == c.expected);
  }
}

}  // namespace

TEST_CASE("Defects of the file as a whole") {
  check({
      {"", "r.csv:1:1: the file holds no text; begin it with the header row (docs/formats.md)\n"},
      {"\xEF\xBB\xBF\n \n", "r.csv:1:1: the file holds no text; begin it with the header row (docs/formats.md)\n"},
      {header, "r.csv:1:1: there is no reading below the header row; add one row for each reading\n"},
      {header + "X1,outer,x,10,1,1,10\n" + std::string("a\0b\0", 4),
       "r.csv:3:2: the file holds 2 NUL bytes, this is the first: it is not text; save it as UTF-8 text (CSV)\n"},
      {"\xFF\xFE"
       "f",
       "r.csv:1:1: the file is UTF-16 text; save it as UTF-8\n"},
      {"X1,outer,x,10,1,1,10\n",
       "r.csv:1:1: the first row names none of the columns; begin the file with the header row "
       "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"},
  });
}

TEST_CASE("Defects of the header row") {
  check({
      {"feature_id,kind,axis,nominal_mm,copy,reading_mm\nX1,outer,x,10,1,10\n",
       "r.csv:1:1: column \"repeat\" is missing; add it to the header row and fill it\n"},
      {"feature_id,kind,axis,nominal_mm,copy,repeat,readin_mm\nX1,outer,x,10,1,1,10\n",
       "r.csv:1:1: column \"reading_mm\" is missing; add it to the header row and fill it\n"
       "r.csv:1:45: column \"readin_mm\" is not known; did you mean \"reading_mm\"?\n"},
      {with("Note", "X1,outer,x,10,1,1,10,a\n"), "r.csv:1:56: column \"Note\" is not known; did you mean \"note\"?\n"},
      {with("operator", "X1,outer,x,10,1,1,10,a\n"),
       "r.csv:1:56: column \"operator\" is not known; take it out, or put its content into the column note\n"},
      {with("copy", "X1,outer,x,10,1,1,10,1\n"), "r.csv:1:56: column \"copy\" is given twice; keep one of the two\n"},
      {with(",note", "X1,outer,x,10,1,1,10,,a\n"), "r.csv:1:56: this column has no name; name it, or take it out\n"},
  });
}

TEST_CASE("Defects of the shape of a row") {
  check({
      {header + "X1,outer,x,10,1,1\n", "r.csv:2:17: this row has 6 fields, the header has 7; add what is missing\n"},
      {header + "X1,outer,x,10,1,1,10,05\n",
       "r.csv:2:22: this row has 8 fields, the header has 7; write decimals with a point, and quote a text that holds "
       "a comma\n"},
      {"feature_id;kind;axis;nominal_mm;copy;repeat;reading_mm\nX1;outer;x;10;1;1;10,05;a\n",
       "r.csv:2:25: this row has 8 fields, the header has 7; take out what is too much, or quote a text that holds a "
       "separator\n"},
      {header + "# first evening\nX1,outer,x,10,1,1,10\n",
       "r.csv:2:1: this row has 1 field, the header has 7; take it out: a readings file has no comment lines\n"},
      {header + "\"X1,outer,x,10,1,1,10\nX2,outer,x,ten,1,1,10\n",
       "r.csv:2:1: this quote is never closed; close it, or take it out\n"
       "r.csv:3:12: nominal_mm \"ten\" is not a number; give the drawn size in mm\n"},
      {header + "\"X\"1,outer,x,10,1,1,10\n",
       "r.csv:2:4: text follows the closing quote; double a quote that belongs to the text (\"\")\n"},
      {with("note", "X1,outer,x,10,1,1,10,\xC3(\n"),
       "r.csv:2:22: \"?(\" is not valid UTF-8; save the file as UTF-8 text\n"},
  });
}

TEST_CASE("Defects of numbers") {
  check({
      {header + "X1,outer,x,ten,1,1,10\n",
       "r.csv:2:12: nominal_mm \"ten\" is not a number; give the drawn size in mm\n"},
      {header + "X1,outer,x,,1,1,10\n", "r.csv:2:12: nominal_mm is empty; give the drawn size in mm\n"},
      {header + "X1,outer,x,10,1,1,10.05 mm\n",
       "r.csv:2:19: reading_mm \"10.05 mm\" is not a number; give only the number that the caliper shows\n"},
      {header + "X1,outer,x,10,1,1,\n",
       "r.csv:2:19: reading_mm is empty; give only the number that the caliper shows, or leave the row out\n"},
      {header + "X1,outer,x,10,1,1,NaN\nX1,outer,x,10,1,2,-inf\n",
       "r.csv:2:19: reading_mm \"NaN\" is not a finite number; leave the row out when there is no reading\n"
       "r.csv:3:19: reading_mm \"-inf\" is not a finite number; leave the row out when there is no reading\n"},
      {header + "X1,outer,x,10,1,1,1e999\n",
       "r.csv:2:19: reading_mm \"1e999\" is not a number; give only the number that the caliper shows\n"},
      {header + "X1,outer,x,10,1,1,\"10,05\"\n",
       "r.csv:2:19: reading_mm \"10,05\" has a decimal comma in a file separated by commas; write a point, or separate "
       "the "
       "columns by ;\n"},
      {"feature_id;kind;axis;nominal_mm;copy;repeat;reading_mm\nX1;outer;x;10;1;1;1.010,05\n",
       "r.csv:2:19: reading_mm \"1.010,05\" is not a number; give only the number that the caliper shows\n"},
      {header + "X1,outer,x,0,1,1,10\n",
       "r.csv:2:12: nominal_mm of kind \"outer\" is 0; give the drawn size in mm, above 0\n"},
      {header + "X1,outer,x,-10,1,1,10\n",
       "r.csv:2:12: nominal_mm of kind \"outer\" is -10; give the drawn size in mm, above 0\n"},
      {header + "Z0,zero,n,5,1,1,0\n",
       "r.csv:2:11: nominal_mm of kind \"zero\" is 5; closed jaws are 0 apart: write 0\n"},
      {header + "X1,outer,x,20000,1,1,10\n",
       "r.csv:2:12: nominal_mm \"20000\" is more than 10000 mm; check the decimal point and the unit\n"},
      {header + "X1,outer,x,40,1,1,40050\n",
       "r.csv:2:19: reading_mm \"40050\" is more than 10000 mm; check the decimal point and the unit\n"},
      {header + "X1,outer,x,40,1,1,-40\n",
       "r.csv:2:19: reading_mm is -40, but a feature of kind \"outer\" has a size above 0; check the sign, and that "
       "the "
       "caliper was set to zero with its jaws closed\n"},
      {header + "G,gauge,n,10,1,1,0\n",
       "r.csv:2:18: reading_mm is 0, but a feature of kind \"gauge\" has a size above 0; check the sign, and that the "
       "caliper was set to zero with its jaws closed\n"},
      {header + "X1,outer,x,10,0,1,10\n",
       "r.csv:2:15: copy \"0\" is not a positive whole number; number the printed copies 1, 2, 3, ...\n"},
      {header + "X1,outer,x,10,1,1.5,10\n",
       "r.csv:2:17: repeat \"1.5\" is not a positive whole number; number the readings of one place 1, 2, 3, ...\n"},
  });
}

TEST_CASE("Defects of names") {
  check({
      {header + ",outer,x,10,1,1,10\n", "r.csv:2:1: feature_id is empty; write the name engraved beside the feature\n"},
      {header + "\"X\n1\",outer,x,10,1,1,10\n",
       "r.csv:2:1: feature_id \"X?1\" holds a line break or another control character; write it on one line\n"},
      {header + "X1,outter,x,10,1,1,10\n", "r.csv:2:4: kind \"outter\" is not known; did you mean \"outer\"?\n"},
      {header + "X1,Hole,z,10,1,1,10\n", "r.csv:2:4: kind \"Hole\" is not known; did you mean \"hole\"?\n"},
      {header + "X1,bore,z,10,1,1,10\n", "r.csv:2:4: kind \"bore\" is not known; use one of " + kinds + "\n"},
      {header + "X1,outer,w,10,1,1,10\n", "r.csv:2:10: axis \"w\" is not known; use x, y or z\n"},
      {header + "H1,hole,x,10,1,1,10\n", "r.csv:2:9: the axis of a feature of kind \"hole\" cannot be \"x\"; use z\n"},
      {header + "D,diag+,x,10,1,1,10\n",
       "r.csv:2:9: the axis of a feature of kind \"diag+\" cannot be \"x\"; use xy\n"},
      {header + "X1,outer,,10,1,1,10\n", "r.csv:2:10: axis is empty; use x, y or z\n"},
  });
}

TEST_CASE("Defects of the optional columns") {
  check({
      {with("turned_deg", "X1,outer,x,10,1,1,10,45\n"),
       "r.csv:2:22: turned_deg \"45\" is not 0, 90, 180 or 270; say how the copy lay on the bed, in quarter turns\n"},
      {with("unit", "X1,outer,x,10,1,1,10,cm\n"), "r.csv:2:22: unit \"cm\" is not known; use mm or in\n"},
      {with("unit", "X1,outer,x,40,1,1,400,in\n"),
       "r.csv:2:19: reading_mm \"400\" is more than 10000 mm; check the decimal point and the unit\n"},
      {with("facets", "H,hole,z,10,1,1,10,2\n"),
       "r.csv:2:20: facets \"2\" is not a number of sides; give 3 or more, or 0 for a true circle\n"},
      {with("facets", "H,hole,z,10,1,1,10,-6\n"),
       "r.csv:2:20: facets \"-6\" is not a number of sides; give 3 or more, or 0 for a true circle\n"},
      {with("facets", "X,outer,x,10,1,1,10,6\n"),
       "r.csv:2:21: facets is \"6\" for kind \"outer\", which is not round; leave it empty or 0\n"},
      {with("side_a_mm,side_b_mm", "D,diag+,xy,100,1,1,100,80,\n"),
       "r.csv:2:24: only one side of the rectangle is given; give side_a_mm and side_b_mm, or neither for a square\n"},
      {with("side_a_mm,side_b_mm", "D,diag+,xy,100,1,1,100,80,-60\n"),
       "r.csv:2:27: side_b_mm is -60; give the side of the rectangle in mm, above 0\n"},
      {with("side_a_mm,side_b_mm", "X,outer,x,100,1,1,100,80,60\n"),
       "r.csv:2:23: side_a_mm is given for kind \"outer\"; leave it empty: only diagonals have a rectangle\n"
       "r.csv:2:26: side_b_mm is given for kind \"outer\"; leave it empty: only diagonals have a rectangle\n"},
      {with("edge_a,edge_b", "X,outer,x,100,1,1,100,l,\n"),
       "r.csv:2:23: only one of the two faces is named; name both in edge_a and edge_b, or neither\n"},
      {with("edge_a,edge_b", "X,outer,x,100,1,1,100,l,l\n"),
       "r.csv:2:25: both faces are called \"l\"; name two different faces\n"},
      {with("step_mm", "H,pin,z,3,1,1,2.9,0\n"),
       "r.csv:2:19: step_mm is 0; give the step between the graded shanks in mm, like 0.1\n"},
      {with("part_c", "X,outer,x,10,1,1,10,400\n"),
       "r.csv:2:21: part_c is 400; give the temperature of the part in degrees Celsius, from -40 to 120\n"},
  });
}

TEST_CASE("Rows that contradict earlier ones") {
  const std::string first = header + "X1,outer,x,10,1,1,10\n";
  check({
      {first + "X1,outer,x,10,1,1,10.02\n",
       "r.csv:3:17: copy 1, repeat 1 of \"X1\" is already on line 2; take one out, or give each reading of a place its "
       "own repeat\n"},
      {first + "X1,inner,y,12,1,2,10.02\n",
       "r.csv:3:4: kind of \"X1\" is \"inner\", but \"outer\" on line 2; correct one of the two, or give two features "
       "two names\n"
       "r.csv:3:10: axis of \"X1\" is \"y\", but \"x\" on line 2; correct one of the two, or give two features two "
       "names\n"
       "r.csv:3:12: nominal_mm of \"X1\" is \"12\", but \"10\" on line 2; correct one of the two, or give two features "
       "two names\n"},
      {with("facets", "H,hole,z,10,1,1,10,32\nH,hole,z,10,1,2,10,64\n"),
       "r.csv:3:20: facets of \"H\" is \"64\", but \"32\" on line 2; correct one of the two, or give two features two "
       "names\n"},
      {with("edge_a,edge_b", "X,outer,x,100,1,1,100,l,r\nX,outer,x,100,1,2,100,,\n"),
       "r.csv:3:23: edge_a of \"X\" is \"\", but \"l\" on line 2; correct one of the two, or give two features two "
       "names\n"
       "r.csv:3:24: edge_b of \"X\" is \"\", but \"r\" on line 2; correct one of the two, or give two features two "
       "names\n"},
      {with("turned_deg", "X,outer,x,100,1,1,100,0\nX,outer,x,100,1,2,100,90\n"),
       "r.csv:3:23: copy 1 of \"X\" lay at 90, but at 0 on line 2; a copy lies one way: correct turned_deg, or number "
       "it as another copy\n"},
  });
}

TEST_CASE("All defects of a file come at once, in the order of the file") {
  CHECK(messages(header + "X1,outter,x,ten,0,1,10\n\nX2,outer,x,10,1,1,abc\n") ==
        "r.csv:2:4: kind \"outter\" is not known; did you mean \"outer\"?\n"
        "r.csv:2:13: nominal_mm \"ten\" is not a number; give the drawn size in mm\n"
        "r.csv:2:17: copy \"0\" is not a positive whole number; number the printed copies 1, 2, 3, ...\n"
        "r.csv:4:19: reading_mm \"abc\" is not a number; give only the number that the caliper shows\n");
}

TEST_CASE("Columns count characters, lines count physical lines") {
  CHECK(messages(with("note", "Öse,outer,x,10,1,1,10,\"größer,\nzwei Zeilen\"\nÖse,outer,x,zehn,1,2,10,\n")) ==
        "r.csv:4:13: nominal_mm \"zehn\" is not a number; give the drawn size in mm\n");
  CHECK(messages(header.substr(0, header.size() - 1) + "\rX1,outer,x,10,1,1,10\rX1,outer,x,zehn,1,2,10\r") ==
        "r.csv:3:12: nominal_mm \"zehn\" is not a number; give the drawn size in mm\n");
}

TEST_CASE("More than a hundred defects are counted, not listed") {
  std::string csv = header;
  for (int i = 0; i < 130; ++i) csv += "X" + std::to_string(i) + ",outer,x,10,1,1,abc\n";
  const auto set = parse_readings(csv, "r.csv");
  REQUIRE_FALSE(set.ok());
  REQUIRE(set.problems().size() == 101);
  CHECK(set.problems().back().text() ==
        "r.csv: there are 30 more defects that are not listed; mend these first and read the file again");
}
