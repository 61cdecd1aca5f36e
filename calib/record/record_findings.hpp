#pragma once
// What the record knows and one evening's readings do not: told like every other finding.

#include <vector>

#include "correct/finding.hpp"
#include "record/proof.hpp"
#include "record/reading_set.hpp"

namespace fitwright::record {

/// "state": copies printed with other settings than are in force now, or left out for that reason; "stale": steps were
/// changed after this setup was calibrated; "double": a proposed correction that would act on an error already
/// corrected; "expected": a new spool, whose shrinkage is taken from earlier ones; "proved", "not-proved": the
/// correction in force. Most important first.
Result<std::vector<Finding>> record_findings(Record& record, const Id& setup, const FindingOptions& options = {});

/// "proved", or "not-proved" with what stands in its way.
Finding proof_finding(const Proof& proof);

}  // namespace fitwright::record
