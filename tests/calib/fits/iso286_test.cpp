// Limits and fits against the tables of the standard, published fits, and values that are published and wrong.

#include "fits/iso286.hpp"

#include <catch2/catch.hpp>

#include "calib/fits/tables.hpp"

using fitwright::class_limits;

TEST_CASE("all standard tolerances up to 500 mm") {
  const auto table = engineering_table("iso286_grades.csv");
  REQUIRE(table.rows.size() == 260);
  for (const auto& row : table.rows) {
    const double over = std::stod(row[0]), up_to = std::stod(row[1]), wanted = std::stod(row[3]);
    const int grade = row[2] == "IT01" ? -1 : std::stoi(row[2].substr(2));
    CHECK(fitwright::grade_name(grade) == row[2]);
    for (const double size : {up_to, over + 1.001, (over + up_to) / 2 + 0.5})
      CHECK(fitwright::standard_tolerance_um(size, grade) == wanted);
    if (over > 0) CHECK(fitwright::standard_tolerance_um(over, grade) <= wanted);  // "over" belongs to the row before
  }
}

TEST_CASE("all limit deviations of 42 classes in 25 ranges") {
  const auto table = engineering_table("iso286_limits.csv");
  REQUIRE(table.rows.size() == 1050);
  for (const auto& row : table.rows) {
    const double over = std::stod(row[1]), up_to = std::stod(row[2]);
    for (const double size : {up_to, over + 1.001, (over + up_to) / 2}) {
      const auto limits = class_limits(size, row[0]);
      REQUIRE(limits.ok());
      INFO(row[0] << " at " << size);
      CHECK(limits->upper_um == std::stod(row[3]));
      CHECK(limits->lower_um == std::stod(row[4]));
    }
  }
}

TEST_CASE("published fits") {
  const auto table = engineering_table("iso286_fits.csv");
  REQUIRE(table.rows.size() == 23);
  for (const auto& row : table.rows) {
    const auto fit = fitwright::tolerance_of(row[0]);
    REQUIRE(fit.ok());
    INFO(row[0]);
    CHECK(fit->nominal_mm + fit->hole->lower_um / 1000 == Approx(std::stod(row[1])).margin(1e-9));
    CHECK(fit->nominal_mm + fit->hole->upper_um / 1000 == Approx(std::stod(row[2])).margin(1e-9));
    CHECK(fit->nominal_mm + fit->shaft->lower_um / 1000 == Approx(std::stod(row[3])).margin(1e-9));
    CHECK(fit->nominal_mm + fit->shaft->upper_um / 1000 == Approx(std::stod(row[4])).margin(1e-9));
    CHECK(fit->clearance_min_um == std::stod(row[5]));
    CHECK(fit->clearance_max_um == std::stod(row[6]));
    CHECK(word(*fit->fit) == row[7]);
  }
}

TEST_CASE("published values that are wrong do not come out") {
  struct Wrong {
    double size;
    const char* name;
    double published_lower, published_upper, lower, upper;
  };
  // From public calculators and lists: rows looked up on the wrong side of a bound, formulas not rounded to the table,
  // typing slips.
  const Wrong list[] = {
      {30, "H7", 0, 25, 0, 21},        {30, "g6", -25, -9, -20, -7},   {10, "k6", 2, 11, 1, 10},
      {10, "p6", 20, 29, 15, 24},      {20, "k6", 3, 16, 2, 15},       {20, "p6", 24, 37, 22, 35},
      {10, "H7", 0, 14, 0, 15},        {10, "d9", -75, -39, -76, -40}, {25, "d9", -116, -64, -117, -65},
      {50, "k6", -18, 2, 2, 18},       {50, "H8", 0, 33, 0, 39},       {50, "f7", -46, -25, -50, -25},
      {170, "n6", 35, 60, 27, 52},     {460, "n6", 0, 0, 40, 80},      {5, "H9", 0, 20, 0, 30},
      {280, "P7", -85, -33, -88, -36}, {40, "H15", 0, 100, 0, 1000}};
  for (const Wrong& w : list) {
    const auto limits = class_limits(w.size, w.name);
    REQUIRE(limits.ok());
    INFO(w.size << ' ' << w.name);
    CHECK(limits->lower_um == w.lower);
    CHECK(limits->upper_um == w.upper);
    CHECK((limits->lower_um != w.published_lower || limits->upper_um != w.published_upper));
  }
  // 25 H7/g6: 7 to 41 (not the shaft's limits), H7/h6: 0 to 34 (not the hole's alone), H7/k6: -15 to 19.
  CHECK(fitwright::tolerance_of("25 H7/g6")->clearance_max_um == 41);
  CHECK(fitwright::tolerance_of("25 H7/h6")->clearance_max_um == 34);
  CHECK(fitwright::tolerance_of("25 H7/k6")->clearance_min_um == -15);
  CHECK(fitwright::standard_tolerance_um(400, -1) == 3);
  CHECK(fitwright::standard_tolerance_um(500, 0) == 6);
}

TEST_CASE("a fit of the hole basis equals its mirror of the shaft basis") {
  for (const double size : {5.0, 9.0, 16.0, 25.0, 40.0, 70.0, 110.0, 170.0, 230.0, 300.0, 380.0, 480.0})
    for (const auto& [a, b] : {std::pair{"H7/k6", "K7/h6"},
                               {"H7/n6", "N7/h6"},
                               {"H7/p6", "P7/h6"},
                               {"H7/r6", "R7/h6"},
                               {"H7/s6", "S7/h6"},
                               {"H7/g6", "G7/h6"},
                               {"H8/e8", "E8/h8"},
                               {"H7/m6", "M7/h6"}}) {
      const auto hole = fitwright::tolerance_of(std::to_string(static_cast<int>(size)) + ' ' + a);
      const auto shaft = fitwright::tolerance_of(std::to_string(static_cast<int>(size)) + ' ' + b);
      REQUIRE((hole.ok() && shaft.ok()));
      INFO(size << a);
      CHECK(hole->clearance_min_um == shaft->clearance_min_um);
      CHECK(hole->clearance_max_um == shaft->clearance_max_um);
    }
}

TEST_CASE("how a tolerance may be written, and what is wrong with others") {
  for (const char* same : {"25 H7/g6", "25H7/g6", " 25 mm H7 / g6 ", "25 g6/H7", "25,0 H7/g6"}) {
    const auto fit = fitwright::tolerance_of(same);
    REQUIRE(fit.ok());
    CHECK(fit->clearance_min_um == 7);
  }
  const auto one = fitwright::tolerance_of("25 H7");
  REQUIRE(one.ok());
  CHECK((one->hole && !one->shaft && !one->fit));
  for (const auto& [text, told] : {std::pair{"H7/g6", "does not begin with a size"},
                                   {"25", "has no tolerance class"},
                                   {"25 H7/H8", "two holes"},
                                   {"25 H19", "no tolerance class"},
                                   {"25 H7/q6", "no letter \"q\""},
                                   {"501 H7", "no size of the tables"},
                                   {"0 H7", "no size of the tables"},
                                   {"1 H14", "not used up to 1 mm"},
                                   {"25 K9", "not in the standard above 3 mm"},
                                   {"25 7H", "no tolerance class"},
                                   {"25 Js7", "no letter"},
                                   {"25 x", "no class of ISO 2768-1"},
                                   {"0.3 m", "no general tolerance"},
                                   {"2.5 v", "no class v"},
                                   {"nan H7", "does not begin"}}) {
    const auto wrong = fitwright::tolerance_of(text);
    INFO(text);
    REQUIRE_FALSE(wrong.ok());
    CHECK(wrong.problems().front().text().find(told) != std::string::npos);
    CHECK(wrong.problems().front().code == fitwright::Code::usage);
  }
  CHECK(fitwright::tolerance_of("25 q6/z7").problems().size() == 2);
}

TEST_CASE("general tolerances of ISO 2768-1, table 1") {
  struct Row {
    double size, f, m, c, v;
  };
  for (const Row& r : {Row{0.5, .05, .1, .2, 0},
                       {3, .05, .1, .2, 0},
                       {3.1, .05, .1, .3, .5},
                       {6, .05, .1, .3, .5},
                       {30, .1, .2, .5, 1},
                       {31, .15, .3, .8, 1.5},
                       {120, .15, .3, .8, 1.5},
                       {400, .2, .5, 1.2, 2.5},
                       {1000, .3, .8, 2, 4},
                       {2000, .5, 1.2, 3, 6},
                       {4000, 0, 2, 4, 8}})
    for (const auto& [name, wanted] : {std::pair{'f', r.f}, {'m', r.m}, {'c', r.c}, {'v', r.v}}) {
      const auto t = fitwright::general_tolerance(r.size, name);
      CHECK(t.ok() == (wanted > 0));
      if (t.ok()) CHECK(t->plus_minus_mm == wanted);
    }
}

TEST_CASE("the grade that a width of scatter holds") {
  CHECK(fitwright::grade_holding(330, 25) == 13);
  CHECK(fitwright::grade_holding(331, 25) == 14);
  CHECK(fitwright::grade_holding(0.1, 25) == -1);
  CHECK_FALSE(fitwright::grade_holding(1e5, 25));
}

TEST_CASE("a fit in words") {
  CHECK(
      fitwright::in_words(*fitwright::tolerance_of("25 H7/p6"))
          .find("Hole H7: 25 to 25.021 mm (0 to +21 µm).\nShaft p6: 25.022 to 25.035 mm (+22 to +35 µm).\nInterference "
                "fit: 0.001 to 0.035 mm of interference.") == 0);
}
