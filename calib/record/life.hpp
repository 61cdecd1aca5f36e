#pragma once
// The life of a correction: proposed -> applied -> proved, or withdrawn. Each step is an event with its date and
// reason.

#include <string>
#include <vector>

#include "correct/correction.hpp"
#include "record/kept_correction.hpp"
#include "record/state_in_force.hpp"
#include "record/store.hpp"

namespace fitwright::record {

enum class Standing { proposed, applied, proved, withdrawn };
std::string_view word(Standing standing);

struct CorrectionLife {
  Kept<StoredCorrection> correction;
  std::vector<Kept<CorrectionEvent>> events;  ///< oldest first
  Standing standing = Standing::proposed;
};

/// All corrections of a setup, in the order in which they were proposed.
Result<std::vector<CorrectionLife>> corrections_of(Record& record, const Id& setup);
/// One correction. Errors: Code::bad_input when there is none.
Result<CorrectionLife> life_of(Record& record, const Id& correction);
/// Keeps a correction as proposed. `estimate` may be empty. Nothing is in force by it. The same correction from the
/// same estimate is not kept twice while it stands as proposed: that one comes back.
Result<CorrectionLife> propose(Record& record, const Id& setup, const Id& estimate, const Correction& correction,
                               const std::string& reason = {}, const std::string& at = {});

struct StepOptions {
  std::string reason = {};
  std::string at = {};  ///< UTC; empty: now. Not before the last change of the printer's settings
  bool force = false;   ///< apply although the copies were printed in another state than is in force
};

/// A knob that is to be set on the machine or in its programs.
struct KnobTurned {
  std::string knob;
  double old_value = 0, new_value = 0;
};

/// What a change of steps does to another setup of the printer.
struct Reexpression {
  Id setup;
  std::string setup_name;
  bool stale = false;  ///< never calibrated: nothing to re-express
  Id correction;       ///< the proposed re-expression, to be applied in its turn; empty when stale
  State before, after;
};

/// What a step in the life of a correction did, or would do.
struct StepTaken {
  CorrectionLife life;
  StateInForce now;  ///< afterwards
  std::vector<KnobTurned> knobs;
  std::vector<Reexpression> others;   ///< setups of the same printer that the steps reach
  std::vector<std::string> commands;  ///< what to type where
  std::vector<std::string> cautions;  ///< to be shown before the commands
  std::vector<std::string> notes;     ///< what else is to be known, in sentences
};

/// Puts a proposed correction in force, with everything that follows from it, in one transaction: its event, and for
/// every other calibrated setup of the printer, when steps changed, a proposed re-expression. Errors, all with
/// Code::unanswerable unless said: already applied, proved or withdrawn; made from copies printed in another state than
/// is in force (`force` overrides); acting a second time on an error that a change since then already acts on (nothing
/// overrides that); Code::usage for a date before the last change.
Result<StepTaken> apply(Record& record, const Id& correction, const StepOptions& options = {});
/// The same without writing anything: for showing old and new values and the cautions first.
Result<StepTaken> look_at_applying(Record& record, const Id& correction, const StepOptions& options = {});

/// Takes back a correction, `options.reason` saying why. Proposed: nothing changes but its standing. Applied or proved:
/// its knobs go back to the old values (those that still hold the new ones), and other setups follow as in apply().
Result<StepTaken> withdraw(Record& record, const Id& correction, const StepOptions& options);
Result<StepTaken> look_at_withdrawing(Record& record, const Id& correction, const StepOptions& options = {});

/// Settings that were changed outside the program: kept as a correction of origin "by hand", applied at once. Equal
/// states are Code::usage. `options.reason` says why.
Result<StepTaken> by_hand(Record& record, const Id& setup, const State& after, const StepOptions& options);

}  // namespace fitwright::record
