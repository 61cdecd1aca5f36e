#pragma once
// What is on the bench: one value, copied on every change so that undo is a matter of keeping the old one.

#include <map>
#include <memory>
#include <vector>

#include "bench/measuring/measuring.hpp"
#include "correct/correction.hpp"
#include "correct/state.hpp"
#include "correct/theory.hpp"
#include "model/copy_prior.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// What the user wants to know of the readings.
struct Wishes {
  Policy policy = Policy::shrink;
  double length_mm = 100;          ///< length of the user's part
  double tolerance_mm = 0.1;       ///< what matters on it
  bool set_suspects_aside = true;  ///< false: suspicious readings are told but kept
  bool use_priors = true;
  /// Readings to be tried: estimated once more without them (those set aside: with them), side by side with the
  /// estimate that holds. Nothing else follows from it.
  std::vector<ReadingKey> tried;
};

struct Content {
  Measuring measuring;  ///< the evening: what is due, what was read, where the hand is
  /// readings_of(measuring), for all who only look at readings.
  std::shared_ptr<const ReadingSet> readings = std::make_shared<const ReadingSet>();
  State state;  ///< settings the coupon was printed with
  Wishes wishes;
  CopyPrior copy_prior;           ///< scatter between copies to assume: the printer's own history, or the typical one
  std::map<char, Drive> drive;    ///< how the printer's axes are driven, where the record says
  std::map<char, Travel> travel;  ///< how far they went, measured since the settings last changed
};

/// The same with another evening, whose readings it takes.
Content with_measuring(Content content, Measuring measuring);

/// Whether a row holds a reading.
bool has_reading(const Reading& reading);

/// The rows that hold a reading, as they go to file and estimator.
ReadingSet only_read(const ReadingSet& readings);

}  // namespace fitwright
