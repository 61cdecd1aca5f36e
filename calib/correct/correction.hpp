#pragma once
// From estimates and the state they were made in to what to change, and what to leave alone.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "correct/state.hpp"
#include "model/estimates.hpp"

namespace fitwright {

enum class Policy { shrink, steps, machine, shrink_only };
std::string_view word(Policy policy);
std::optional<Policy> policy_from(std::string_view text);

/// A commanded move and how far the machine really went, measured on the machine itself (not on a print).
struct Travel {
  double commanded_mm = 0;
  double travelled_mm = 0;
  std::optional<double> u_mm;  ///< standard uncertainty of travelled_mm; default see correct.cpp
};

struct CorrectOptions {
  Policy policy = Policy::shrink;
  std::map<char, Travel> travel;   ///< by axis 'x', 'y'
  double length_mm = 100;          ///< length of the user's part
  double tolerance_mm = 0.1;       ///< what matters on it
  double longest_mm = 0;           ///< longest in-plane length measured (0: taken from the estimates' cells)
};

/// One knob to turn.
struct Change {
  std::string knob;                ///< "size_factor", "outline_offset_mm", "steps_per_mm.x", "flow", ...
  double old_value = 0;
  double new_value = 0;
  double u = 0;                    ///< standard uncertainty of new_value
  bool established = false;
  std::string because;
  std::map<int, double> effect_mm; ///< change of an outside length by this knob alone, at 20, 100, 200 mm
};

struct LeftAlone {
  std::string knob;
  std::string because;
};

struct Remains {
  double value = 0;  ///< expected error of the length after the change, mm
  double u = 0;
};

struct Correction {
  Policy policy = Policy::shrink;
  State before;
  State after;
  std::vector<Change> changes;
  std::vector<LeftAlone> left_alone;
  std::map<std::string, Remains> remains_mm;  ///< "x100", "y100", "slot_x20", "slot_y20"
  double invariant_x = 1;                     ///< (mu'/mu)(C'/C) q
  double invariant_y = 1;
  std::vector<std::string> cautions;
  std::vector<std::string> commands;          ///< machine code lines and what to type where, in words
};

/// The correction of `estimates` under a policy. `state` is the one the coupon was printed with.
/// Errors: Code::unanswerable when what the policy needs is missing (says what), or is not established enough.
Result<Correction> correct(const Estimates& estimates, const State& state, const CorrectOptions& options = {});

}  // namespace fitwright
