#pragma once
// The proof of a correction: the same coupon printed once more, its lengths held against what was foretold.

#include <optional>
#include <string>
#include <vector>

#include "model/estimate.hpp"
#include "record/life.hpp"

namespace fitwright::record {

enum class Verdict {
  proved,       ///< all lengths as foretold, and not what they would be without the correction
  not_proved,   ///< a length is outside the interval
  cannot_tell,  ///< all as foretold, but also as they would be without the correction: the interval is too wide
};
std::string_view word(Verdict verdict);

/// One length. Errors of length in mm: printed minus drawn.
struct ProofPlace {
  std::string place;       ///< "x100", "y100", "slot_x20", "slot_y20", as in Correction::remains_mm
  double foretold_mm = 0;  ///< what should be left
  double without_mm = 0;   ///< what would be there without the correction
  double measured_mm = 0;  ///< what the proof print has
  double u_foretold_mm = 0, u_measured_mm = 0;  ///< standard uncertainties, surroundings included
  double df = 0;                                ///< effective, of the difference
  double half_mm = 0;                           ///< of the 95 % interval of measured - foretold
  bool inside = false;
  bool tells = false;  ///< measured lies outside what it would be without the correction
};

struct Proof {
  Verdict verdict = Verdict::cannot_tell;
  std::vector<ProofPlace> places;
  std::string text;     ///< one sentence: foretold, measured, verdict
  std::string because;  ///< what it rests on
  std::string action;   ///< keep, withdraw, or print once more
};

/// Holds readings of a proof print against a correction. `after`: the state it was printed in. Errors:
/// Code::unanswerable when nothing was foretold or the readings tell none of the lengths.
Result<Proof> held_against(const Correction& correction, const ReadingSet& proof, const EstimateOptions& options = {});

/// A proof as it was kept with its event (CorrectionEvent::detail): verdict and places, without sentences. Empty for
/// text that is none.
std::optional<Proof> proof_from(const std::string& detail);

/// The same for a correction of the record, and keeps the outcome: an event "proved" with the figures when it is
/// proved; nothing when not. `copies`: those of the proof print (empty: all of its setup printed in the state in force
/// after it was applied). Errors besides: Code::unanswerable when the correction is not applied, or the copies were
/// printed with other settings.
struct ProofKept {
  Proof proof;
  CorrectionLife life;
  std::vector<Id> copies;
};
Result<ProofKept> prove(Record& record, const Id& correction, const std::vector<Id>& copies = {},
                        const StepOptions& options = {});
/// The same with readings that are not in the record.
Result<ProofKept> prove(Record& record, const Id& correction, const ReadingSet& proof, const StepOptions& options = {});

}  // namespace fitwright::record
