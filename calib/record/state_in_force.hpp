#pragma once
// Which settings hold for a setup at a date: what it began with, and what was applied and withdrawn since.
//
// Steps per mm belong to the printer: a correction of any setup that turns them turns them for all setups of that
// printer. Size factor and outline offset of the others then no longer fit, and that is told: `stale` or `due`.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "correct/state.hpp"
#include "record/record.hpp"
#include "record/things.hpp"

namespace fitwright::record {

/// What happened to the settings of one printer, as values: all that replay() looks at.
struct SettingsHistory {
  struct Setup {
    Id id;
    std::string name;
    State state;          ///< when entered; its steps count for nothing, they are the printer's
    std::string entered;  ///< UTC
    bool ended = false;   ///< no longer in use; steps that its corrections set stay set
  };
  struct Correction {
    Id id, setup;
    std::string origin;  ///< "estimate", "re-expression", "by hand"
    State before, after;
  };
  struct Event {
    Id correction;
    std::string at;    ///< UTC
    std::string what;  ///< "applied" or "withdrawn"; others change nothing
  };
  StepsPerMm steps;  ///< of the printer when it was entered
  std::vector<Setup> setups;
  std::vector<Correction> corrections;
  std::vector<Event> events;  ///< in order of time
};

/// Steps were changed after a setup was calibrated: what its own numbers have to become, so that its lengths stay.
struct DueReexpression {
  double rho_x = 1, rho_y = 1;  ///< steps now to steps when calibrated
  State becomes;                ///< docs/mathematics.md, re-expression of a material
  Id because_of;                ///< the correction that turned the steps last; may be of another setup
  std::string since;            ///< UTC
};

struct StateInForce {
  State state;
  std::vector<Id> corrections;  ///< in force, in the order they were applied: of this setup, and steps of others
  std::string since;            ///< UTC of the last change; of the setup's entry when there was none
  bool calibrated = false;      ///< its size factor, or steps by a correction of its own, were set by a measurement
  bool stale = false;           ///< steps were changed, and it was never calibrated: what was read before is of no use
  std::optional<DueReexpression> due;
  std::vector<std::string> notes;  ///< in sentences: whatever did not go as it should, stale and due included
};

/// The settings of every setup of a printer after the events up to and including `at` (UTC; empty: all of them).
///
/// "applied" sets each knob that the correction changed to its new value; a knob that did not hold the old one before
/// is noted. "withdrawn" sets each back to the old value, if it still holds the new one; otherwise it is noted and
/// left.
std::map<Id, StateInForce> replay(const SettingsHistory& history, const std::string& at = {});

/// Whether two values of a knob are one setting: equal at the decimals in which it is told and typed (steps 0.0001,
/// size factor 0.00001, else 0.001). What is typed from a proposal is then what was proposed.
bool same_setting(std::string_view knob, double a, double b);

/// The knobs that differ between two states, in the order of a state file: "size_factor", "steps_per_mm.x". How much
/// edge growth follows flow (flow_edge_gain_mm) is no setting and does not count.
struct KnobDifference {
  std::string knob;
  double a = 0, b = 0;
};
std::vector<KnobDifference> differences(const State& a, const State& b);
/// The same for a sentence: "flow 1 instead of 0.96, steps per mm of X 80 instead of 80.2".
std::string in_words(const std::vector<KnobDifference>& differences);

/// The history of a printer from the record. Errors: Code::io; Code::bad_input when a stored state cannot be read.
Result<SettingsHistory> settings_history(Record& record, const Id& printer);

/// The state in force for a setup at a date (UTC; empty: now).
Result<StateInForce> state_in_force(Record& record, const Id& setup, const std::string& at = {});

}  // namespace fitwright::record
