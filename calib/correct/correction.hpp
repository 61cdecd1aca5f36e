#pragma once
// From estimates and the state they were made in to what to change, and what to leave alone.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "correct/beyond.hpp"
#include "correct/flow.hpp"
#include "correct/state.hpp"
#include "correct/theory.hpp"
#include "model/estimates.hpp"

namespace fitwright {

enum class Policy { shrink, steps, machine, shrink_only };
std::string_view word(Policy policy);
std::optional<Policy> policy_from(std::string_view text);

/// A commanded move and how far the machine really went, measured on the machine itself (not on a print).
struct Travel {
  double commanded_mm = 0;
  double travelled_mm = 0;
  std::optional<double> u_mm;  ///< standard uncertainty of travelled_mm; absent: default_travel_u_mm
};

/// Standard uncertainty of a travel read with a caliper or a rule against a fixed stop: two positions of about 0.035 mm
/// each (common practice, no source).
inline constexpr double default_travel_u_mm = 0.05;

struct CorrectOptions {
  Policy policy = Policy::shrink;
  std::map<char, Travel> travel;      ///< by axis 'x', 'y', 'z'
  std::map<char, Drive> drive;        ///< by axis, where known: to hold new steps against theory
  double length_mm = 100;             ///< length of the user's part
  double tolerance_mm = 0.1;          ///< what matters on it
  std::optional<WeighedBlock> block;  ///< printed in the same state, where one was weighed
  double longest_mm = 0;              ///< longest length measured along each axis (0: taken from the estimates' cells)
  /// What no reading shows, for `remains_mm`: beyond_readings() of the readings. Absent: temperatures were not read.
  std::optional<std::vector<BeyondReadings>> beyond;
};

/// One knob to turn.
struct Change {
  std::string knob;  ///< "size_factor", "outline_offset_mm", "steps_per_mm.x", "flow", ...
  double old_value = 0;
  double new_value = 0;
  double u = 0;  ///< standard uncertainty of new_value
  bool established = false;
  std::string because;
  std::map<int, double> effect_mm;  ///< change of an outside length by this knob alone, at 20, 100, 200 mm
};

struct LeftAlone {
  std::string knob;
  std::string because;
};

/// Error of a length after the change, mm.
struct Remains {
  double value = 0;  ///< expected
  double u = 0;      ///< standard uncertainty, as far as readings show it
  double df = 0;     ///< effective degrees of freedom of u
  double lower = 0;  ///< 95 % interval
  double upper = 0;
  double u_with_surroundings = 0;        ///< u with what no reading shows (correct/beyond.hpp)
  double half_with_surroundings_mm = 0;  ///< half-width of the 95 % interval that goes with it
};

struct Correction {
  Policy policy = Policy::shrink;
  State before;
  State after;
  std::vector<Change> changes;
  std::vector<LeftAlone> left_alone;
  std::map<std::string, Remains> remains_mm;  ///< "x100", "y100", "slot_x20", "slot_y20"
  double invariant_x = 1;                     ///< (mu'/mu)(C'/C) q: printed per drawn mm afterwards
  double invariant_y = 1;
  std::vector<std::string> cautions;
  std::vector<std::string> commands;  ///< machine code lines and what to type where, in words
};

/// The correction of `estimates` under a policy. `state` is the one the coupon was printed with.
///
/// A knob is turned only for an error that is established (95 %) and more than a tenth of the tolerance on the user's
/// length; steps besides only with a length of 100 mm or a measured travel on the axis. Scale is taken apart into what
/// X and Y share and what they differ by, and each part is judged by itself: the difference is known better. What is
/// not turned is listed with its reason, and what is left over is in `remains_mm`.
/// Errors: Code::unanswerable when nothing that the policy acts on can be estimated, or the machine policy has no
/// measured travel (says what would answer it); Code::usage for a travel that cannot be true.
/// Throws std::logic_error when a correction would act on an error twice (a defect of ours).
Result<Correction> correct(const Estimates& estimates, const State& state, const CorrectOptions& options = {});

}  // namespace fitwright
