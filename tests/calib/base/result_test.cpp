#include "base/result.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace fitwright;

TEST_CASE("A problem says where, what, and what to do, leaving out what does not apply") {
  CHECK(Problem{Code::bad_input, {"a.csv", 3, 7}, "is wrong", "mend it"}.text() == "a.csv:3:7: is wrong; mend it");
  CHECK(Problem{Code::bad_input, {"a.csv", 3, 0}, "is wrong", "mend it"}.text() == "a.csv:3: is wrong; mend it");
  CHECK(Problem{Code::io, {"a.csv", 0, 0}, "is wrong", ""}.text() == "a.csv: is wrong");
  CHECK(Problem{Code::usage, {}, "is wrong", "mend it"}.text() == "is wrong; mend it");
}

TEST_CASE("A result is a value or problems") {
  const Result<int> value = 3;
  CHECK(value.ok());
  CHECK(*value == 3);
  const Result<int> failed = Problem{Code::io, {}, "x", "y"};
  CHECK_FALSE(failed.ok());
  CHECK(failed.problems().size() == 1);
  CHECK_THROWS(failed.value());
}
