// Colours and ticks.

#include "bench/palette.hpp"

#include <catch2/catch.hpp>

#include "bench/scene.hpp"

using namespace fitwright;

TEST_CASE("contrast ratios are those of the published definition") {
  // W3C, WCAG 2.1, "contrast ratio": black on white is 21:1; #767676 on white is the usual example of just over 4.5:1.
  CHECK(contrast_ratio({0, 0, 0}, {255, 255, 255}) == Approx(21.0).epsilon(1e-9));
  CHECK(contrast_ratio({255, 255, 255}, {0, 0, 0}) == Approx(21.0).epsilon(1e-9));
  CHECK(contrast_ratio({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.005));
  CHECK(contrast_ratio({10, 20, 30}, {10, 20, 30}) == 1.0);
}

TEST_CASE("every ink reads on light and dark grounds") {
  struct Ground {
    Rgb ground, text;
  };
  for (const Ground& g : {Ground{{255, 255, 255}, {0, 0, 0}}, Ground{{246, 245, 244}, {46, 52, 54}},
                          Ground{{45, 45, 45}, {255, 255, 255}}, Ground{{0, 0, 0}, {238, 238, 236}}}) {
    for (const Ink ink : {Ink::x, Ink::y, Ink::z, Ink::hole, Ink::text, Ink::quiet, Ink::warn})
      CHECK(contrast_ratio(colour_of(ink, g.ground, g.text), g.ground) >= 4.5);
    for (const Ink ink : {Ink::peg, Ink::zero})
      CHECK(contrast_ratio(colour_of(ink, g.ground, g.text), g.ground) >= 3.0);
  }
}

TEST_CASE("on white the axes keep the hues of Okabe and Ito") {
  // Okabe and Ito 2008: blue (0, 114, 178) has enough contrast as it is; the others are darkened along their hue.
  CHECK(colour_of(Ink::x, {255, 255, 255}, {0, 0, 0}) == Rgb{0, 114, 178});
  const Rgb y = colour_of(Ink::y, {255, 255, 255}, {0, 0, 0});
  CHECK(static_cast<double>(y.g) / y.r == Approx(94.0 / 213.0).margin(0.01));
  CHECK(y.b == 0);
}

TEST_CASE("ticks stand at 1, 2 or 5 times a power of ten and share their decimals") {
  const auto ticks = nice_ticks(-0.31, 0.24, 6, true);
  REQUIRE(ticks.size() == 6);
  CHECK(ticks.front().text == "\u22120.3");
  CHECK(ticks[3].text == "0.0");
  CHECK(ticks.back().text == "+0.2");
  const auto large = nice_ticks(0, 106, 6, false);
  CHECK(large.back().text == "100");
  CHECK(large[1].at == 20);
  CHECK(nice_ticks(1, 1, 5, false).empty());
  CHECK(nice_ticks(0, 1, 5, false).size() == 6);
}
