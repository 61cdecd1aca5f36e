#include "base/text.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <string>

using namespace fitwright;

TEST_CASE("What is quoted can be shown") {
  CHECK(quote("X40") == "\"X40\"");
  CHECK(quote("") == "\"\"");
  CHECK(quote("a\nb\x01\x7F") == "\"a?b??\"");
  CHECK(quote("\xC3(\xFF") == "\"?(?\"");
  CHECK(quote("größe") == "\"größe\"");
  CHECK(quote("ööööö", 3) == "\"ööö...\"");
  CHECK(quote("abc", 3) == "\"abc\"");
}

TEST_CASE("The nearest word is found when it is near enough") {
  const std::array<std::string_view, 5> words{"outer", "inner", "hole", "hole_h", "x"};
  CHECK(nearest("outter", words) == "outer");
  CHECK(nearest("OUTER", words) == "outer");
  CHECK(nearest("huole", words) == "hole");
  CHECK(nearest("ohle", words) == "hole");
  CHECK(nearest("hole-h", words) == "hole_h");
  CHECK(nearest("X", words) == "x");
  CHECK(nearest("z", words).empty());
  CHECK(nearest("diameter", words).empty());
  CHECK(nearest("", words).empty());
  CHECK(nearest(std::string(100000, 'a'), words).empty());
}

TEST_CASE("Alternatives are listed as one says them") {
  CHECK(alternatives(std::array<std::string_view, 1>{"x"}) == "x");
  CHECK(alternatives(std::array<std::string_view, 2>{"x", "y"}) == "x or y");
  CHECK(alternatives(std::array<std::string_view, 3>{"x", "y", "z"}) == "x, y or z");
  CHECK(alternatives({}).empty());
}

// Sequences of RFC 3629, sections 3 and 10, and what they exclude.
TEST_CASE("UTF-8 is told from what is not") {
  for (const char* sound : {"", "A", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE2\x89\xA2", "\xED\x9F\xBF",
                            "\xEF\xBF\xBF", "\xF0\xA3\x8E\xB4", "\xF4\x8F\xBF\xBF"})
    CHECK(invalid_utf8_at(sound) == std::string::npos);
  for (const char* broken : {"\x80", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                             "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC3", "\xE2\x89", "\xFF"})
    CHECK(invalid_utf8_at(std::string("ab") + broken) == 2);
}

TEST_CASE("Characters are counted, not bytes") {
  CHECK(characters("abc") == 3);
  CHECK(characters("größe") == 5);
  CHECK(characters("\xF0\xA3\x8E\xB4") == 1);
  CHECK(characters("\xFF\xFF") == 2);
}

TEST_CASE("Blanks at the ends are taken off") {
  CHECK(without_blanks(" \ta b\t ") == "a b");
  CHECK(without_blanks(" ").empty());
  CHECK(without_blanks("\na") == "\na");
}
