#pragma once
// What the record knows of a printer's axes: how they are driven, and how far they went.

#include <map>
#include <string>
#include <vector>

#include "correct/correction.hpp"
#include "record/drive.hpp"
#include "record/state_in_force.hpp"
#include "record/store.hpp"

namespace fitwright::record {

struct AxesKnown {
  Drives drive;                    ///< by axis, to hold steps against theory
  std::map<char, Travel> travel;   ///< by axis, the newest of each measured since the settings last changed
  std::vector<std::string> notes;  ///< which travels these are, and which are too old to be used, in sentences
};

/// What is known of `printer` for correcting a setup whose settings in force are `in_force`. A travel that was measured
/// before the settings last changed tells nothing of the machine as it moves now. Errors: the record's; Code::bad_input
/// when the drive kept with the printer cannot be read.
Result<AxesKnown> axes_known(Record& record, const Id& printer, const StateInForce& in_force);

}  // namespace fitwright::record
