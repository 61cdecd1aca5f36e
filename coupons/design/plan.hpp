#pragma once
// The plan of a coupon as a scene: outlines, lines and words in millimetres on the page, in the order to paint them.
// The SVG and the measuring sheet paint the same scene.

#include <string>
#include <variant>
#include <vector>

#include "design/design.hpp"
#include "design/plan_places.hpp"

namespace fitwright {

/// Red, green and blue, 0 to 255.
struct Colour {
  unsigned char red = 0, green = 0, blue = 0;
};

namespace plan_colour {
inline constexpr Colour ink{0x33, 0x33, 0x33};
inline constexpr Colour white{0xff, 0xff, 0xff};
// Okabe and Ito (2008), colours that most eyes tell apart.
inline constexpr Colour blue{0x00, 0x72, 0xb2};
inline constexpr Colour vermilion{0xd5, 0x5e, 0x00};
inline constexpr Colour bluish_green{0x00, 0x9e, 0x73};
}  // namespace plan_colour

/// X blue, Y vermilion, Z bluish green, all else ink.
Colour axis_colour(Axis axis);

/// A straight line; `strength` from 0 (nothing) to 1.
struct PlanLine {
  Spot2 a, b;
  Colour colour = plan_colour::ink;
  double width_mm = 0.25;
  double strength = 1;
};

/// Closed outlines, filled by the even-odd rule, with an edge.
struct PlanOutline {
  std::vector<std::vector<Spot2>> rings;
  Colour fill = plan_colour::white;
  Colour edge = plan_colour::ink;
  double edge_mm = 0;  ///< 0: no edge
};

struct PlanDisc {
  Spot2 centre;
  double radius_mm = 1;
  Colour fill = plan_colour::white;
  Colour edge = plan_colour::ink;
  double edge_mm = 0;
};

enum class Anchor { start, middle, end };

/// One line of words, `at` on its baseline.
struct PlanWords {
  Spot2 at;
  std::string words;
  double size_mm = 3;  ///< of the font
  Colour colour = plan_colour::ink;
  Anchor anchor = Anchor::start;
  bool bold = false;
};

using PlanItem = std::variant<PlanLine, PlanOutline, PlanDisc, PlanWords>;

/// Items within (0, 0) to (width_mm, height_mm), Y downward.
struct PlanScene {
  double width_mm = 0, height_mm = 0;
  std::vector<PlanItem> items;
};

/// The coupon from above at `scale` (page mm per mm): part, engraved names, jaw marks with their numbers, axes, front.
PlanScene plan_scene(const Coupon& coupon, double scale);
/// Of that, what lies on the part: outlines, names and jaw marks, placed as `scale` says. With `only`, jaw marks of the
/// feature with that id alone.
std::vector<PlanItem> plan_items(const Coupon& coupon, const PlanScale& scale, const std::string& only = {});

/// What stands on the place: the number's outline tells it, in print without colour too.
enum class Tool {
  outside_jaws,  ///< round
  inside_jaws,   ///< square
  shank,         ///< standing on a corner
};
/// `feature` may be null.
Tool tool_of(const JawPlace& place, const Feature* feature);
/// "outside jaws", "inside jaws", "drill shank".
std::string tool_words(Tool tool);

/// A number in the outline of its tool, about 2 `radius_mm` wide; `number` <= 0 draws the outline alone.
void add_number(std::vector<PlanItem>& items, Spot2 centre, double radius_mm, int number, Tool tool, Colour colour);

/// The feature with that id, or null.
const Feature* find_feature(const Coupon& coupon, const std::string& id);

}  // namespace fitwright
