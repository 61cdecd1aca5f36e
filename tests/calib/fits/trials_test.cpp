// TRIALS.csv in and out, and everything wrong with it at once.

#include "fits/trials.hpp"

#include <catch2/catch.hpp>

namespace {

std::vector<std::string> told(const std::string& csv) {
  std::vector<std::string> out;
  const auto parsed = fitwright::parse_trials(csv, "t.csv");
  if (parsed.ok()) return out;
  for (const auto& p : parsed.problems()) out.push_back(p.text());
  return out;
}

}  // namespace

TEST_CASE("trials read and written again") {
  const std::string csv =
      "clearance_mm,grade,copy,measured_clearance_mm,diameter_mm\n-0.1,0,1,-0.12,8\n0.05,1,1,,8\n0.3,4,2,0.31,\n";
  const auto parsed = fitwright::parse_trials(csv, "t.csv");
  REQUIRE(parsed.ok());
  CHECK(parsed->rows.size() == 3);
  CHECK(parsed->rows[0].clearance_mm == -0.1);
  CHECK(parsed->rows[0].measured_clearance_mm == -0.12);
  CHECK_FALSE(parsed->rows[1].measured_clearance_mm);
  CHECK(parsed->rows[2].grade == fitwright::Grade::rattles);
  CHECK(parsed->rows[2].copy == 2);
  CHECK(parsed->rows[2].row == 4);
  CHECK(fitwright::to_trials_csv(*parsed) == csv);
}

TEST_CASE("trials from a spreadsheet: semicolons, decimal commas, columns in another order, blank lines") {
  const auto parsed = fitwright::parse_trials("copy;grade;clearance_mm;\r\n1;2;0,15;\r\n\r\n2;3;0,2;\r\n", "t.csv");
  REQUIRE(parsed.ok());
  REQUIRE(parsed->rows.size() == 2);
  CHECK(parsed->rows[0].clearance_mm == 0.15);
  CHECK(parsed->rows[1].row == 4);
}

TEST_CASE("everything wrong with a file of trials is told at once, with its place") {
  const auto problems = told(
      "clearance_mm,grade,copy,diameter_mm\nwide,2,1,8\n0.1,5,1,8\n0.1,2,0,8\n8.1,2,1,8\n0.1,,1,-3\n0.2,2\n,1,1,8\n");
  REQUIRE(problems.size() == 8);
  CHECK(problems[0] ==
        "t.csv:2:1: clearance_mm \"wide\" is not a number; write the clearance in mm, like 0.15 or -0.1");
  CHECK(problems[1].find("t.csv:3:5: grade \"5\" is none of 0 to 4; write 0 will not enter") == 0);
  CHECK(problems[2].find("t.csv:4:7: copy \"0\" is no number of a copy") == 0);
  CHECK(problems[3].find("t.csv:5:1: clearance_mm \"8.1\" is no clearance of a fit") == 0);
  CHECK(problems[4].find("t.csv:6:5: grade is empty") == 0);
  CHECK(problems[5].find("t.csv:6:8: diameter_mm \"-3\" is not above zero") == 0);
  CHECK(problems[6].find("t.csv:7:5: this row has 2 fields, the header has 4") == 0);
  CHECK(problems[7].find("t.csv:8:1: clearance_mm is empty") == 0);
}

TEST_CASE("headers and empty files of trials") {
  CHECK(told("").at(0).find("t.csv:1:1: the file holds no text") == 0);
  CHECK(told("clearance_mm,grade,copy\n").at(0).find("there is no trial below the header row") != std::string::npos);
  const auto wrong = told("clearence_mm,grade\n0.1,2\n");
  REQUIRE(wrong.size() == 3);
  CHECK(wrong[0].find("perhaps clearance_mm is meant") != std::string::npos);
  CHECK(told("clearance_mm,grade,copy,grade\n0.1,2,1,2\n").at(0).find("is there twice") != std::string::npos);
}
