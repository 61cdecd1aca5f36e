#pragma once
// What the tool says: one finding = one sentence with its value, why, and one thing to do. Shown the same everywhere.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "correct/flow.hpp"
#include "correct/state.hpp"
#include "correct/theory.hpp"
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
  double length_mm = 100;                            ///< length of the user's part
  double tolerance_mm = 0.1;                         ///< what matters on it
  std::optional<State> state;                        ///< settings the coupon was printed with, if known
  std::map<char, Drive> drive = {};                  ///< by axis, where known: to hold steps against theory
  std::optional<WeighedBlock> block = std::nullopt;  ///< printed in that state, where one was weighed
};

/// The findings, most important first. Intervals in the texts ("± 0.02 mm") are half-widths at 95 %. An error "matters"
/// when its effect on the user's length is above the user's tolerance. Never fails: what is not there is not told.
std::vector<Finding> findings(const Estimates& estimates, const ReadingSet& readings,
                              const FindingOptions& options = {});

}  // namespace fitwright
