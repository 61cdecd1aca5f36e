#pragma once
// Lines around a coupon: the bed's outline with its millimetres, the machine's axes with their letters; and the colours
// of the view.

#include <string_view>
#include <vector>

#include "bench/coupon_scene.hpp"
#include "bench/palette.hpp"

namespace fitwright {

enum class MarkLine { outline, tick_1, tick_5, tick_10, figure };

struct BedLine {
  Line3 line;
  MarkLine mark = MarkLine::outline;
};

/// Outline of the bed, ticks outside it at every millimetre along front and left, figures every 50. Empty for no bed.
std::vector<BedLine> bed_lines(double bed_x_mm, double bed_y_mm);

/// Strokes of one line of capitals X Y Z and digits (others leave a gap), `height_mm` high, from `at` along `right` and
/// `up` (unit vectors).
std::vector<Line3> stroke_letters(std::string_view words, const Vec3& at, const Vec3& right, const Vec3& up,
                                  double height_mm);
double stroke_width_mm(std::string_view words, double height_mm);

/// An arrow of the machine's axis and its letter, which stands upright in the picture.
struct AxisMark {
  Ink ink = Ink::x;
  std::vector<Line3> arrow, letter;
};

/// The three axes at the machine's origin, `length_mm` long, with letters as the camera sees them upright.
std::vector<AxisMark> axis_marks(const Camera& camera, double length_mm, const Vec3& at = {});

/// Colours of the view on a ground.
struct ViewColours {
  Rgb ground, part, engraved, edge, jaw, jaw_edge, glow, glow_edge, bed, tick, x, y, z;
};
ViewColours view_colours(Rgb ground, Rgb text);

}  // namespace fitwright
