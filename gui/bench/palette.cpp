#include "bench/palette.hpp"

#include <algorithm>
#include <cmath>

namespace fitwright {
namespace {

constexpr Rgb black{0, 0, 0};
constexpr Rgb white{255, 255, 255};
constexpr Rgb blue{0, 114, 178};
constexpr Rgb vermilion{213, 94, 0};
constexpr Rgb bluish_green{0, 158, 115};
constexpr Rgb reddish_purple{204, 121, 167};
constexpr Rgb orange{230, 159, 0};

constexpr double mark_contrast = 3.0;  // WCAG 2.1, 1.4.11 non-text contrast
constexpr double text_contrast = 4.5;  // WCAG 2.1, 1.4.3 contrast (minimum)

/// Linear light of one channel (IEC 61966-2-1, as quoted by WCAG 2.1 "relative luminance").
double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Rgb c) { return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b); }

std::uint8_t mixed_channel(std::uint8_t a, std::uint8_t b, double share) {
  return static_cast<std::uint8_t>(std::lround(share * a + (1 - share) * b));
}

}  // namespace

double contrast_ratio(Rgb a, Rgb b) {
  const double la = luminance(a);
  const double lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

bool is_dark(Rgb ground) { return contrast_ratio(ground, white) > contrast_ratio(ground, black); }

Rgb mixed(Rgb a, Rgb b, double share) {
  return {mixed_channel(a.r, b.r, share), mixed_channel(a.g, b.g, share), mixed_channel(a.b, b.b, share)};
}

Rgb with_contrast(Rgb colour, Rgb ground, double least) {
  const Rgb toward = is_dark(ground) ? white : black;
  constexpr int steps = 50;
  for (int i = 0; i <= steps; ++i) {
    const Rgb moved = mixed(toward, colour, static_cast<double>(i) / steps);
    if (contrast_ratio(moved, ground) >= least) return moved;
  }
  return toward;
}

Rgb colour_of(Ink ink, Rgb ground, Rgb text) {
  switch (ink) {
    case Ink::x:
      return with_contrast(blue, ground, text_contrast);  // also letters the axis: text
    case Ink::y:
      return with_contrast(vermilion, ground, text_contrast);
    case Ink::z:
      return with_contrast(bluish_green, ground, text_contrast);
    case Ink::hole:
      return with_contrast(reddish_purple, ground, text_contrast);
    case Ink::peg:
      return with_contrast(orange, ground, mark_contrast);
    case Ink::text:
      return with_contrast(text, ground, text_contrast);
    case Ink::quiet:
      return with_contrast(mixed(text, ground, 0.6), ground, text_contrast);
    case Ink::grid:
      return mixed(text, ground, 0.12);
    case Ink::zero:
      return with_contrast(mixed(text, ground, 0.45), ground, mark_contrast);
    case Ink::warn:
      return with_contrast(vermilion, ground, text_contrast);
  }
  return text;
}

}  // namespace fitwright
