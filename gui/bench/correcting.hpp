#pragma once
// Applying, proving and withdrawing corrections of the setup on the bench, and what the window shows of their lives.

#include <string>
#include <vector>

#include "bench/bench.hpp"
#include "bench/scene.hpp"
#include "correct/correction.hpp"
#include "record/life.hpp"
#include "record/proof.hpp"

namespace fitwright {

/// A correction of the record in a line.
struct LifeRow {
  record::Id correction;
  std::string when;      ///< date of its last step
  std::string what;      ///< in short: "Size factor 1 → 1.0045 and 2 more"
  std::string standing;  ///< "proposed", "applied", "proved", "withdrawn"
  std::string why;       ///< reason of the last step
  bool can_apply = false, can_prove = false, can_withdraw = false;

  // All of it, for the one that is chosen.
  std::vector<std::string> knobs;  ///< "Size factor: 1 → 1.0045"
  std::vector<std::string> steps;  ///< its life: "2026-10-21 applied: ..."
  PlotScene proof;                 ///< foretold against measured; `empty` says why there is none
};

/// Lengths as foretold, with the interval they have to lie in, as measured, and as they would be without the
/// correction.
PlotScene proof_plot(const record::Proof& proof);
/// The same for a correction that was not held against a print yet: what is foretold.
PlotScene foretold_plot(const Correction& correction);

/// A verdict with its figures.
struct ProofTold {
  std::vector<std::string> lines;
  PlotScene plot;
};

/// The corrections of the setup on the bench, newest first; empty without a setup. Errors: the record's.
Result<std::vector<LifeRow>> life_rows(Bench& bench);

/// A correction that is to be applied, with all that is to be seen before.
struct Applying {
  record::Id correction;
  std::vector<std::string> knobs;     ///< "Size factor: 1 → 1.0045"
  std::vector<std::string> cautions;  ///< to be shown above the rest
  std::vector<std::string> commands;  ///< what to type where
  std::vector<std::string> others;    ///< other setups of the printer that the steps reach, in sentences
};

/// Estimates the setup from the record, keeps the estimate, proposes the correction of a policy and shows what applying
/// it would do. Errors: Code::usage without a setup; Code::unanswerable when there is nothing to change, and those of
/// estimating, correcting and applying. `program`: its version, kept with the estimate.
Result<Applying> prepare_applying(Bench& bench, Policy policy, const std::string& program);
/// The same for one that stands as proposed already.
Result<Applying> prepare_applying(Bench& bench, const record::Id& proposed);

/// Puts it in force. Undo withdraws it; redo proposes and applies it again. Errors: the record's.
Result<Done> apply_now(Bench& bench, const record::Id& proposed);
/// Takes it back with a reason. Errors: Code::usage without a reason, and the record's.
Result<Done> withdraw_now(Bench& bench, const record::Id& correction, const std::string& reason);
/// Holds the readings of copies printed since against what was foretold; the verdict in sentences. Errors: the
/// record's.
Result<ProofTold> prove_now(Bench& bench, const record::Id& correction);

}  // namespace fitwright
