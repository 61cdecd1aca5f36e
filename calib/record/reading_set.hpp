#pragma once
// From the record's readings to what the estimator takes, and from a readings file into the record.

#include <map>
#include <string>
#include <vector>

#include "correct/state.hpp"
#include "reading/reading.hpp"
#include "record/record.hpp"
#include "record/store.hpp"

namespace fitwright::record {

/// Where a row of a reading set is kept.
struct RowOrigin {
  Id thing;    ///< of the reading, or of the steel reading
  Id copy;     ///< empty for steel
  Id session;  ///< may be empty
  bool steel = false;
};

struct CopyLeftOut {
  Kept<Copy> copy;
  std::string because;
};

struct GatheredReadings {
  ReadingSet readings;             ///< `copy` is the setup's print number; steel of the sessions involved stands last
  std::vector<RowOrigin> origins;  ///< one a row
  std::map<std::string, double> true_size_mm;  ///< for EstimateOptions: gauges and rings
  std::vector<Kept<Copy>> copies;              ///< that take part, in the order of their prints
  std::vector<CopyLeftOut> left_out;
  State printed_with;              ///< the state they have in common
  std::vector<std::string> notes;  ///< in sentences
};

/// The readings of a setup. `copies`: those to take; empty: all that were printed in the same state as the newest one
/// with readings, and what was left out is told. Readings skipped or of damaged features are not in it. Where coupons
/// share a feature id, the design's name stands in front ("frame X40"). Errors: Code::unanswerable when there is
/// nothing to take, or the copies asked for were printed in different states; Code::bad_input for what cannot be read.
Result<GatheredReadings> readings_for(Record& record, const Id& setup, const std::vector<Id>& copies = {});

/// Where readings of a file go.
struct KeepOptions {
  Id setup;
  Id coupon;   ///< what was printed; empty: one of design "from file" is made of the file's own features
  Id copy;     ///< of this copy, which is there already; empty: copies are found again or made, by their numbers
  Id session;  ///< empty: a new one with `caliper`
  Id caliper;  ///< may be empty
  State printed_with;
  std::string printed_on;                      ///< date of new copies; empty: not known
  std::map<std::string, double> true_size_mm;  ///< of gauges and rings, where not the nominal
  std::string at;                              ///< UTC; empty: now
};

struct KeptReadings {
  Id coupon, session;
  std::vector<Id> copies;  ///< in the order of their numbers in the file
  int added = 0;           ///< readings and steel readings new in the record
  int known = 0;           ///< that were there already
  int amended = 0;         ///< that were there with another value: the old value is kept
  std::vector<std::string> notes;
};

/// Keeps the readings of a file, all or none. Taken a second time the same file adds nothing; with rows added to it, it
/// adds those. A copy is found again by its coupon, how it lay and what was read on it. Errors: Code::bad_input for
/// features that the coupon does not have (all of them) and references that are not there.
Result<KeptReadings> keep_readings(Record& record, const ReadingSet& readings, const KeepOptions& options);

}  // namespace fitwright::record
