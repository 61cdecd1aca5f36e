#pragma once
// estimate and correct on a setup of the record instead of a readings file.

#include <optional>
#include <string>

#include "outcome.hpp"
#include "readings.hpp"
#include "record/kept_estimate.hpp"
#include "record_open.hpp"
#include "words.hpp"

namespace fitw {

/// --setup, --record, --no-history.
void declare_setup(Words& words);

/// What was asked of the record; empty when a file is to be read.
struct SetupRequest {
  std::string setup, path;
  bool use_history = true;
};
std::optional<SetupRequest> take_setup_request(Words& words, Outcome& outcome);

/// The setup's estimate, not kept yet.
struct SetupEvening {
  fitwright::record::Record record;
  fitwright::record::Kept<fitwright::record::Setup> setup;
  fitwright::record::SetupEstimate estimate;
  bool may_keep = true;  ///< false: the record can only be read, which was told
};

/// Problems, and notes on copies left out and suspect readings, go to `outcome`.
std::optional<SetupEvening> estimate_from_record(const SetupRequest& request, const fitwright::EstimateOptions& options,
                                                 Outcome& outcome);

/// Which scatter between copies was assumed, and why, as a paragraph.
std::string rests_on(const SetupEvening& evening);

/// Keeps the estimate. Its id, or empty when it could not be kept.
fitwright::record::Id keep(SetupEvening& evening, const std::string& result_json, Outcome& outcome);

}  // namespace fitw
