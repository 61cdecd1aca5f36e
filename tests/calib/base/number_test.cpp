#include "base/number.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <limits>
#include <string>

using namespace fitwright;

TEST_CASE("A number fills its whole text, or there is none") {
  CHECK(parse_number("10.05") == 10.05);
  CHECK(parse_number(" +10.05\r") == 10.05);
  CHECK(parse_number("-1e-3") == -0.001);
  CHECK(parse_number("1.") == 1.0);
  CHECK(parse_number(".5") == 0.5);
  for (const char* text : {"", " ", "+", "-", "+-1", "++1", "1 0", "1.2.3", "10,05", "0x10", "nan", "inf", "-inf",
                           "1e999", "1e", "10mm", "١"})
    CHECK_FALSE(parse_number(text).has_value());
}

TEST_CASE("A decimal comma stands for the point, not beside it") {
  CHECK(parse_number("10,05", true) == 10.05);
  CHECK(parse_number("10", true) == 10.0);
  for (const char* text : {"10.05", "1.010,05", "1,0,5", ","}) CHECK_FALSE(parse_number(text, true).has_value());
}

TEST_CASE("Whole numbers") {
  CHECK(parse_whole(" 12 ") == 12);
  CHECK(parse_whole("+3") == 3);
  CHECK(parse_whole("-3") == -3);
  for (const char* text : {"", "1.0", "1e3", "99999999999", "1x", "x"}) CHECK_FALSE(parse_whole(text).has_value());
}

TEST_CASE("The shortest text reads back to the same number") {
  for (const double value : {0.1, 1.0 / 3, 0.1 + 0.2, 1e300, 5e-324, -40.05, 1e22, std::numeric_limits<double>::max()})
    CHECK(parse_number(shortest(value)) == value);
  CHECK(shortest(40.05) == "40.05");
  CHECK(shortest(10) == "10");
}

TEST_CASE("Fixed decimals round the exact value and never give a negative zero") {
  CHECK(fixed(40.05, 2) == "40.05");
  CHECK(fixed(0.125, 2) == "0.12");  // exact halves go to the even digit
  CHECK(fixed(2.675, 2) == "2.67");  // is below the half in binary
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(fixed(-0.0, 0) == "0");
  CHECK(fixed(-0.006, 2) == "-0.01");
  CHECK(fixed(1e6, 1) == "1000000.0");
}

TEST_CASE("Numbers do not depend on the locale") {
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE"}) std::setlocale(LC_ALL, name);  // those that exist
  CHECK(parse_number("1.5") == 1.5);
  CHECK(shortest(1.5) == "1.5");
  CHECK(fixed(1.5, 2) == "1.50");
  std::setlocale(LC_ALL, before.c_str());
}

TEST_CASE("Two significant digits of an uncertainty are kept") {
  CHECK(decimals_for(0.0123) == 3);
  CHECK(decimals_for(0.123) == 2);
  CHECK(decimals_for(1.2) == 1);
  CHECK(decimals_for(12) == 0);
  CHECK(decimals_for(1234) == 0);
  CHECK(decimals_for(1e-9) == 6);
  CHECK(decimals_for(0) == 6);
  CHECK(decimals_for(std::nan(""), 4) == 4);
}
