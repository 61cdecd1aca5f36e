#include "report/layout.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "base/text.hpp"
using namespace fitwright;

TEST_CASE("paragraphs break at blanks and hang their later lines") {
  CHECK(paragraph("one two three", "- ", "  ", 9) == "- one two\n  three\n");
  CHECK(paragraph("", "  ", "  ") == "\n");
  CHECK(paragraph("  spaced   out ", "", "") == "spaced out\n");
  CHECK(paragraph("averyverylongword b", "", "", 5) == "averyverylongword\nb\n");
  CHECK(paragraph("a\nb", "", "") == "a b\n");
}

TEST_CASE("a line is as wide as its letters, not its bytes") {
  CHECK(paragraph("µ µ µ µ", "", "", 7) == "µ µ µ µ\n");
  CHECK(columns({{"±", "a"}, {"mm", "b"}}, {Align::left, Align::left}, "") == "±   a\nmm  b\n");
}

TEST_CASE("a number stays with its unit") {
  CHECK(paragraph("off by 0.08 mm (± 0.02 mm) here", "", "", 12) == "off by\n0.08 mm\n(± 0.02 mm)\nhere\n");
  CHECK(paragraph("is 3 ± 1 %: so", "", "", 4) == "is\n3 ± 1 %:\nso\n");
  CHECK(paragraph("the mm scale", "", "", 6) == "the mm\nscale\n");
}

TEST_CASE("columns align, and lines end without blanks") {
  const std::string text = columns({{"edge growth", "0.081", "mm"}, {"z", "-10.5", ""}, {"short"}},
                                   {Align::left, Align::right, Align::left});
  CHECK(text ==
        "  edge growth  0.081  mm\n"
        "  z            -10.5\n"
        "  short\n");
}

TEST_CASE("no line of a paragraph is wider than the page, for any text of short words") {
  std::string words;
  for (int i = 0; i < 400; ++i) words += std::string(static_cast<std::size_t>(1 + i % 11), 'x') + ' ';
  std::istringstream lines(paragraph(words, "  ", "    "));
  for (std::string line; std::getline(lines, line);) {
    CHECK(characters(line) <= page_width);
    CHECK_FALSE(line.ends_with(' '));
  }
}
