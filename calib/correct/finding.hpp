#pragma once
// What the tool says: one finding = one sentence with its value, why, and one thing to do. Shown the same everywhere.

#include <optional>
#include <string>
#include <vector>

#include "correct/state.hpp"
#include "model/estimates.hpp"

namespace fitwright {

enum class Severity { act, know, fine };
std::string_view word(Severity severity);

struct Finding {
  std::string id;  ///< stable: "scale-axis", "edge-growth", "holes", ...
  Severity severity = Severity::know;
  std::string text;     ///< one sentence: value +- uncertainty and what it means in mm
  std::string because;  ///< what it rests on: measured against expected, features, copies, prior or not
  std::string action;   ///< one thing to do
};

struct FindingOptions {
  double length_mm = 100;      ///< length of the user's part
  double tolerance_mm = 0.1;   ///< what matters on it
  std::optional<State> state;  ///< settings the coupon was printed with, if known
};

/// The findings, most important first.
std::vector<Finding> findings(const Estimates& estimates, const ReadingSet& readings,
                              const FindingOptions& options = {});

}  // namespace fitwright
