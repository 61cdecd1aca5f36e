#include "bench/coupon_marks.hpp"

#include <array>
#include <cmath>
#include <string>

namespace fitwright {
namespace {

/// A stroke on a field 4 wide and 6 high.
struct Stroke {
  int x0, y0, x1, y1;
};

struct Letter {
  char letter;
  std::vector<Stroke> strokes;
};

constexpr double field_high = 6, field_step = 5.4;  ///< height of a letter, and from one to the next

const std::vector<Letter>& letters() {
  static const std::vector<Letter> table{
      {'0',
       {{1, 0, 3, 0},
        {3, 0, 4, 1},
        {4, 1, 4, 5},
        {4, 5, 3, 6},
        {3, 6, 1, 6},
        {1, 6, 0, 5},
        {0, 5, 0, 1},
        {0, 1, 1, 0}}},
      {'1', {{1, 5, 2, 6}, {2, 6, 2, 0}}},
      {'2', {{0, 5, 1, 6}, {1, 6, 3, 6}, {3, 6, 4, 5}, {4, 5, 4, 4}, {4, 4, 0, 0}, {0, 0, 4, 0}}},
      {'3',
       {{0, 6, 4, 6},
        {4, 6, 2, 4},
        {2, 4, 3, 4},
        {3, 4, 4, 3},
        {4, 3, 4, 1},
        {4, 1, 3, 0},
        {3, 0, 1, 0},
        {1, 0, 0, 1}}},
      {'4', {{3, 0, 3, 6}, {3, 6, 0, 2}, {0, 2, 4, 2}}},
      {'5', {{4, 6, 0, 6}, {0, 6, 0, 3}, {0, 3, 3, 3}, {3, 3, 4, 2}, {4, 2, 4, 1}, {4, 1, 3, 0}, {3, 0, 0, 0}}},
      {'6',
       {{3, 6, 1, 6},
        {1, 6, 0, 5},
        {0, 5, 0, 1},
        {0, 1, 1, 0},
        {1, 0, 3, 0},
        {3, 0, 4, 1},
        {4, 1, 4, 2},
        {4, 2, 3, 3},
        {3, 3, 0, 3}}},
      {'7', {{0, 6, 4, 6}, {4, 6, 1, 0}}},
      {'8',
       {{1, 3, 0, 4},
        {0, 4, 0, 5},
        {0, 5, 1, 6},
        {1, 6, 3, 6},
        {3, 6, 4, 5},
        {4, 5, 4, 4},
        {4, 4, 3, 3},
        {3, 3, 1, 3},
        {1, 3, 0, 2},
        {0, 2, 0, 1},
        {0, 1, 1, 0},
        {1, 0, 3, 0},
        {3, 0, 4, 1},
        {4, 1, 4, 2},
        {4, 2, 3, 3}}},
      {'9',
       {{1, 0, 3, 0},
        {3, 0, 4, 1},
        {4, 1, 4, 5},
        {4, 5, 3, 6},
        {3, 6, 1, 6},
        {1, 6, 0, 5},
        {0, 5, 0, 4},
        {0, 4, 1, 3},
        {1, 3, 4, 3}}},
      {'X', {{0, 0, 4, 6}, {0, 6, 4, 0}}},
      {'Y', {{0, 6, 2, 3}, {4, 6, 2, 3}, {2, 3, 2, 0}}},
      {'Z', {{0, 6, 4, 6}, {4, 6, 0, 0}, {0, 0, 4, 0}}},
  };
  return table;
}

MarkLine tick_mark(int mm) {
  return mm % 10 == 0 ? MarkLine::tick_10 : mm % 5 == 0 ? MarkLine::tick_5 : MarkLine::tick_1;
}

double tick_length_mm(MarkLine mark) { return mark == MarkLine::tick_10 ? 3.2 : mark == MarkLine::tick_5 ? 2.2 : 1.3; }

}  // namespace

std::vector<Line3> stroke_letters(std::string_view words, const Vec3& at, const Vec3& right, const Vec3& up,
                                  double height_mm) {
  const double unit_mm = height_mm / field_high;
  std::vector<Line3> lines;
  Vec3 start = at;
  for (const char c : words) {
    for (const Letter& letter : letters())
      if (letter.letter == c)
        for (const Stroke& s : letter.strokes)
          lines.push_back({start + s.x0 * unit_mm * right + s.y0 * unit_mm * up,
                           start + s.x1 * unit_mm * right + s.y1 * unit_mm * up});
    start = start + field_step * unit_mm * right;
  }
  return lines;
}

double stroke_width_mm(std::string_view words, double height_mm) {
  constexpr double gap = 1.4;  // after the last letter
  return words.empty() ? 0 : height_mm / field_high * (field_step * static_cast<double>(words.size()) - gap);
}

std::vector<BedLine> bed_lines(double bed_x_mm, double bed_y_mm) {
  std::vector<BedLine> lines;
  if (bed_x_mm <= 0 || bed_y_mm <= 0) return lines;
  const std::array<Vec3, 4> corners{{{0, 0, 0}, {bed_x_mm, 0, 0}, {bed_x_mm, bed_y_mm, 0}, {0, bed_y_mm, 0}}};
  for (std::size_t i = 0; i < 4; ++i) lines.push_back({{corners[i], corners[(i + 1) % 4]}, MarkLine::outline});
  constexpr int figure_every_mm = 50;
  constexpr double figure_mm = 5, figure_away_mm = 4.6;
  for (int i = 0; i <= bed_x_mm; ++i) {
    const MarkLine mark = tick_mark(i);
    lines.push_back({{{double(i), 0, 0}, {double(i), -tick_length_mm(mark), 0}}, mark});
    if (i % figure_every_mm != 0 || i == 0) continue;
    const std::string words = std::to_string(i);
    const Vec3 at{i - stroke_width_mm(words, figure_mm) / 2, -figure_away_mm - figure_mm, 0};
    for (const Line3& l : stroke_letters(words, at, {1, 0, 0}, {0, 1, 0}, figure_mm))
      lines.push_back({l, MarkLine::figure});
  }
  for (int i = 0; i <= bed_y_mm; ++i) {
    const MarkLine mark = tick_mark(i);
    lines.push_back({{{0, double(i), 0}, {-tick_length_mm(mark), double(i), 0}}, mark});
    if (i % figure_every_mm != 0 || i == 0) continue;
    const std::string words = std::to_string(i);
    const Vec3 at{-figure_away_mm - stroke_width_mm(words, figure_mm), i - figure_mm / 2, 0};
    for (const Line3& l : stroke_letters(words, at, {1, 0, 0}, {0, 1, 0}, figure_mm))
      lines.push_back({l, MarkLine::figure});
  }
  return lines;
}

std::vector<AxisMark> axis_marks(const Camera& camera, double length_mm, const Vec3& at) {
  const CameraFrame frame = camera_frame(camera);
  const double head_mm = 0.14 * length_mm, letter_mm = 0.22 * length_mm, away_mm = 0.2 * length_mm;
  struct Along {
    Ink ink;
    const char* letter;
    Vec3 axis, beside;  ///< the letter stands beside the tip, clear of the bed's outline and ticks
  };
  std::vector<AxisMark> marks;
  for (const Along& a : {Along{Ink::x, "X", {1, 0, 0}, {0, 1, 0}}, Along{Ink::y, "Y", {0, 1, 0}, {1, 0, 0}},
                         Along{Ink::z, "Z", {0, 0, 1}, {0, 0, 1}}}) {
    AxisMark mark;
    mark.ink = a.ink;
    const Vec3 tip = at + length_mm * a.axis;
    // The head lies in the picture as far as the axis lets it.
    const Vec3 aside = unit(cross(a.axis, frame.back));
    const Vec3 neck = tip - head_mm * a.axis;
    mark.arrow = {{at, tip}, {tip, neck + 0.5 * head_mm * aside}, {tip, neck - 0.5 * head_mm * aside}};
    const double side = dot(aside, a.beside) < 0 ? -away_mm : away_mm;
    const Vec3 middle = a.beside == a.axis ? tip + away_mm * a.axis : tip + side * aside;
    const Vec3 start = middle - stroke_width_mm(a.letter, letter_mm) / 2 * frame.right - letter_mm / 2 * frame.up;
    mark.letter = stroke_letters(a.letter, start, frame.right, frame.up, letter_mm);
    marks.push_back(std::move(mark));
  }
  return marks;
}

ViewColours view_colours(Rgb ground, Rgb text) {
  constexpr Rgb slate{92, 106, 122}, steel{150, 164, 178}, lamp{230, 159, 0};  // lamp: orange of Okabe and Ito (2008)
  const bool dark = is_dark(ground);
  ViewColours c;
  c.ground = ground;
  c.part = dark ? mixed(slate, {200, 206, 212}, 0.62) : mixed(slate, {255, 255, 255}, 0.36);
  c.engraved = mixed(c.part, dark ? Rgb{20, 22, 24} : Rgb{44, 52, 60}, 0.42);
  c.edge = dark ? mixed({16, 18, 20}, c.part, 0.8) : mixed({38, 46, 54}, c.part, 0.86);
  c.jaw = dark ? mixed(steel, {255, 255, 255}, 0.4) : mixed(steel, {40, 60, 84}, 0.52);
  c.jaw_edge = dark ? Rgb{28, 32, 36} : Rgb{30, 38, 46};
  c.glow = lamp;
  c.glow_edge = mixed(lamp, {120, 60, 0}, dark ? 0.95 : 0.72);
  c.bed = mixed(text, ground, 0.03);
  c.tick = with_contrast(mixed(text, ground, 0.5), ground, 3);  // WCAG 2.1, 1.4.11 non-text contrast
  c.x = colour_of(Ink::x, ground, text);
  c.y = colour_of(Ink::y, ground, text);
  c.z = colour_of(Ink::z, ground, text);
  return c;
}

}  // namespace fitwright
