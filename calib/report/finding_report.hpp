#pragma once
// Findings as text for people: the sentence first, then why, then the one thing to do.

#include <string>
#include <vector>

#include "correct/finding.hpp"

namespace fitwright {

/// One paragraph a finding, in the given order, the severity in front; empty text for no findings.
std::string findings_text(const std::vector<Finding>& findings);

}  // namespace fitwright
