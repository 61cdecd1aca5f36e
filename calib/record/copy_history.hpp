#pragma once
// How much copies differed on a printer so far, from all its prints in the record.

#include <string>
#include <vector>

#include "learn/copy_scatter.hpp"
#include "record/record.hpp"

namespace fitwright::record {

struct CopyHistory {
  CopyScatter scatter;
  CopyPrior prior;                 ///< to assume for the next one or two copies: this history, or the typical values
  std::vector<std::string> notes;  ///< prints that could not be used, and why
};

/// Pools the copies of a printer: of each setup those printed in one state, from one coupon. Those of `but_not` are
/// left out (an estimate must not be its own prior). Never fails for lack of copies: then the typical values hold.
Result<CopyHistory> copy_history(Record& record, const Id& printer, const std::vector<Id>& but_not = {});

}  // namespace fitwright::record
