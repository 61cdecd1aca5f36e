#pragma once
// What ladder, allowance and next share: what they rest on.

#include <optional>
#include <string>

#include "fits/basis.hpp"
#include "outcome.hpp"
#include "record_open.hpp"
#include "words.hpp"

namespace fitw {

/// --setup, --record.
struct FitsSetup {
  std::string setup, path;
};
void declare_fits_setup(Words& words);
std::optional<FitsSetup> take_fits_setup(Words& words, Outcome& outcome);
std::optional<fitwright::TrialSet> trials_from_record(const FitsSetup& from, Outcome& outcome);

/// --from RECORD_OR_JSON, --setup, --record, --trials, --state, --now.
void declare_basis(Words& words);
struct BasisRequest {
  std::optional<FitsSetup> setup;
  std::string from, trials, state, now;
};
/// `needed`: with neither --from nor --setup there is a problem.
BasisRequest take_basis(Words& words, bool needed, Outcome& outcome);
/// Problems and notes go to `outcome`.
std::optional<fitwright::RecordBasis> read_basis(const BasisRequest& request, Outcome& outcome);

}  // namespace fitw
