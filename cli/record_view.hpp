#pragma once
// What the record holds of a setup, gathered once for text and for JSON.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "outcome.hpp"
#include "record/cost.hpp"
#include "record/life.hpp"
#include "record_open.hpp"

namespace fitw {

struct CopyView {
  fitwright::record::Kept<fitwright::record::Copy> copy;
  std::string design;
  int readings = 0;
  std::string other_state;  ///< how its settings differ from those in force; empty when they do not
};

struct SetupView {
  fitwright::record::Kept<fitwright::record::Setup> setup;
  std::string printer, spool, material;
  fitwright::record::StateInForce state;
  std::vector<CopyView> copies;
  std::vector<fitwright::record::CorrectionLife> corrections;
  fitwright::record::CalibrationCost cost;
};

/// `at`: the state in force then (UTC; empty: now). Problems go to `outcome`.
std::optional<SetupView> view_of(fitwright::record::Record& record,
                                 const fitwright::record::Kept<fitwright::record::Setup>& setup, const std::string& at,
                                 Outcome& outcome);

/// "size factor 1.00344, outline offset -0.078 mm ...": what stands otherwise than in a state without any correction,
/// and the steps.
std::string state_in_words(const fitwright::State& state);
/// "size factor 1.00000 -> 1.00344, ..."
std::string change_in_words(const fitwright::record::StoredCorrection& correction);
/// "31.2 g, 0.69 EUR", or empty when nothing was printed.
std::string cost_in_words(const fitwright::record::CalibrationCost& cost);
/// A knob's value at the decimals in which it is typed.
std::string knob_value(const std::string& knob, double value);
/// "outline offset 0.000 -> -0.072 mm", "steps per mm of X 80.0000 -> 79.9318".
std::string turn_in_words(const std::string& knob, double old_value, double new_value);
/// When a correction was last touched.
std::string last_step(const fitwright::record::CorrectionLife& life);

}  // namespace fitw
