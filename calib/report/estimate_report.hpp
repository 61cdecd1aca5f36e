#pragma once
// Estimates as a document for programs (JSON) and for people (text).

#include <string>
#include <vector>

#include "correct/finding.hpp"
#include "model/estimates.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// JSON of docs/formats.md, "estimate": keys in that order, numbers in full precision (a number that is not finite,
/// such as unlimited degrees of freedom, is null). `readings` are those the estimates were made from: suspects are
/// told by the line they stand on. Ends with a line feed.
std::string estimate_json(const Estimates& estimates, const ReadingSet& readings, const std::vector<Finding>& findings);

/// The same for a person: what was read, the findings, the table, what cannot be told apart, what was assumed, the
/// suspect readings, the scatter. Ends with a line feed.
std::string estimate_text(const Estimates& estimates, const ReadingSet& readings, const std::vector<Finding>& findings);

/// One suspect reading in a sentence: "X40, copy 1, repeat 2: 4.01 is far from the drawn 40; 40.1 with the decimal
/// point shifted?; set aside".
std::string suspect_text(const SuspectReading& suspect, const ReadingSet& readings);

}  // namespace fitwright
