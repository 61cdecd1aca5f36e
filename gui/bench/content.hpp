#pragma once
// What is on the bench: one value, copied on every change so that undo is a matter of keeping the old one.

#include <memory>

#include "correct/correction.hpp"
#include "correct/state.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// What the user wants to know of the readings.
struct Wishes {
  Policy policy = Policy::shrink;
  double length_mm = 100;          ///< length of the user's part
  double tolerance_mm = 0.1;       ///< what matters on it
  bool set_suspects_aside = true;  ///< false: suspicious readings are told but kept
  bool use_priors = true;
};

/// A row whose reading_mm is not a number is a place not read yet: it is shown, but neither used nor saved.
struct Content {
  std::shared_ptr<const ReadingSet> readings = std::make_shared<const ReadingSet>();
  State state;  ///< settings the coupon was printed with
  Wishes wishes;
};

/// Whether a row holds a reading.
bool has_reading(const Reading& reading);

/// The rows that hold a reading, as they go to file and estimator.
ReadingSet only_read(const ReadingSet& readings);

}  // namespace fitwright
