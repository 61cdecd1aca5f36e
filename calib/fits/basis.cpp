#include "fits/basis.hpp"

#include "record/kept_estimate.hpp"
#include "record/state_in_force.hpp"

namespace fitwright {

Result<RecordBasis> allowance_basis_of(record::Record& record, const record::Id& setup) {
  const auto estimate = record::estimate_setup(record, setup);
  if (!estimate) return estimate.problems();
  const auto now = record::state_in_force(record, setup);
  if (!now) return now.problems();
  RecordBasis out;
  out.basis.estimates = estimate->estimates;
  out.basis.printed_with = estimate->from.printed_with;
  out.basis.now = now->state;
  out.notes = estimate->from.notes;
  for (const auto& left : estimate->from.left_out) out.notes.push_back(left.because);
  out.notes.insert(out.notes.end(), now->notes.begin(), now->notes.end());
  const auto trials = record::all_of<record::Trial>(record, "setup", setup);
  if (!trials) return trials.problems();
  if (trials->empty()) {
    out.basis.thresholds = assumed_thresholds();
    return out;
  }
  const auto set = trials_of(record, setup);
  if (!set) return set.problems();
  out.trials = *set;
  const auto thresholds = thresholds_from(*set, clearance_to_use(*set));
  if (!thresholds) return thresholds.problems();
  out.basis.thresholds = *thresholds;
  return out;
}

}  // namespace fitwright
