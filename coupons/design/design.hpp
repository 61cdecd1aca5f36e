#pragma once
// A coupon design: one set of parameters in, its solid and its features out.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/feature.hpp"
#include "solid/solid.hpp"

namespace fitwright {

/// A parameter of a design. Values are numbers in `unit` ("mm", "1" for counts and ratios).
struct DesignParameter {
  std::string name;
  double default_value = 0;
  double min = 0;
  double max = 0;
  std::string unit;
  std::string meaning;  ///< a few words
  bool whole = false;   ///< must be a whole number
};

using DesignValues = std::map<std::string, double>;

/// Where the jaws go on a feature, for drawings: the two points touched, in the coupon's plan (mm), and the height.
struct JawPlace {
  int number = 0;  ///< as printed in the plan
  std::string feature_id;
  double ax = 0, ay = 0;           ///< first face
  double bx = 0, by = 0;           ///< second face
  double z_mm = 0;                 ///< height of the jaws above the bed
  bool inside = false;             ///< inside jaws
  double compliance_mm_per_n = 0;  ///< closing of the place per newton of jaw force (estimate, see the design)
};

/// A region of a layer's label, for drawings.
struct Label {
  std::string text;
  double x = 0, y = 0;  ///< start of the baseline, mm
  double capital_height_mm = 3;
  double turn_deg = 0;
};

/// A place where a part is put in by hand and the fit is graded, 0 to 4.
struct Trial {
  std::string id;           ///< as engraved; the id of the place's feature where it has one
  double clearance_mm = 0;  ///< drawn: what the place is larger than the part
};

/// Graded places and what is tried in them.
struct FitTrials {
  std::vector<Trial> places;       ///< from the tightest to the loosest
  std::vector<std::string> mates;  ///< ids of the printed parts to be put in; empty: a bought part, or one's own
  double size_mm = 0;              ///< drawn size of the part
  std::string part;                ///< what is put in, in a few words: "peg", "disc magnet 6 x 3"
  bool magnets = false;            ///< the part may be a magnet: the caution for magnets goes with it
};

/// A pair of arms with hooks that snaps into a window.
struct LatchTrial {
  std::string id;  ///< as engraved
  double thickness_mm = 0, undercut_mm = 0, length_mm = 0;
  double strain = 0;  ///< largest bending strain when the hooks pass, as a ratio
};

/// A coupon made from parameters.
struct Coupon {
  std::string design;
  DesignValues values;  ///< every parameter, defaults filled in
  Solid solid;          ///< first corner at (0, 0, 0); X to the right, Y away from the front
  std::vector<Feature> features;
  std::vector<JawPlace> places;  ///< in the order to measure, sparing jaw changes
  std::vector<Label> labels;
  Region engraved;                           ///< labels and marks as they are cut into the top of a layer, for drawings
  std::vector<std::string> printing_notes;   ///< before printing, of this design only (advice.hpp has the rest)
  std::vector<std::string> measuring_notes;  ///< before measuring, of this design only
  FitTrials trials;                          ///< no places on designs that are measured only
  std::vector<LatchTrial> latches;           ///< of the design latch
  std::vector<std::string> trying_notes;     ///< before the first trial
  double size_x_mm = 0, size_y_mm = 0, size_z_mm = 0;
  int layers = 0;
  double volume_mm3 = 0;
  double grams = 0;  ///< solid, at density_g_cm3 (1.24 by default)
};

/// What is known of a design without making it.
struct DesignInfo {
  std::string name;
  std::string question;  ///< the user's question it answers
  std::vector<DesignParameter> parameters;
};

/// All designs, in the order to use them: frame, bores, walls, stair; then those to be tried: rail, tongue, pockets,
/// latch.
const std::vector<DesignInfo>& designs();

/// Makes a coupon. `overrides` holds NAME=VALUE texts as typed. Errors, all at once: Code::usage for an unknown design
/// or parameter or a value that is not a number; Code::bad_input for a value out of range or a coupon that does not
/// fit bed or caliper (says which parameter to change and to what).
Result<Coupon> make_coupon(const std::string& design,
                           const std::vector<std::pair<std::string, std::string>>& overrides = {});

/// features.csv text of the contract.
std::string features_csv(const Coupon& coupon);

/// Plan view with numbered jaw places, SVG text; byte-stable.
std::string plan_svg(const Coupon& coupon);

}  // namespace fitwright
