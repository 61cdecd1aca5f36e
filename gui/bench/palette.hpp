#pragma once
// Colours of the data: safe for colour-blind eyes, and dark or light enough for the theme they stand on.
// Hues: M. Okabe and K. Ito, "Color Universal Design (CUD)", J*FLY, 2008.

#include <cstdint>

namespace fitwright {

struct Rgb {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Rgb&, const Rgb&) = default;
};

/// What a colour stands for in a plot. X, Y and Z are the same three everywhere.
enum class Ink { x, y, z, hole, peg, text, quiet, grid, zero, warn };

/// Contrast ratio of two colours, 1..21 (W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio").
double contrast_ratio(Rgb a, Rgb b);

/// `colour` moved toward black or white, away from `ground`, just until the contrast reaches `least`.
Rgb with_contrast(Rgb colour, Rgb ground, double least);

/// Whether a ground counts as dark (white text reads better on it than black).
bool is_dark(Rgb ground);

/// The colour of `ink` on `ground` with `text` as the theme's text colour. Text inks have contrast >= 4.5:1, marks
/// >= 3:1 (the same guidelines, 1.4.3 and 1.4.11); the grid is meant to be faint.
Rgb colour_of(Ink ink, Rgb ground, Rgb text);

/// Mixture: `share` of a, the rest of b.
Rgb mixed(Rgb a, Rgb b, double share);

}  // namespace fitwright
