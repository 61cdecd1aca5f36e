#pragma once
// The tables of the report, one function each.

#include <string>

#include "accuracy/criteria.hpp"
#include "accuracy/study.hpp"

namespace fitwright::accuracy {

/// A figure and its verdict: "95.1", "97.6~" (outside within the margin), "91.0!" (missed), "(99.8)" (not judged).
std::string marked(const std::string& figure, Verdict verdict);

/// Criteria, how many figures were held against each, how many met it; then each that was missed.
std::string summary(const Study& study);
/// Coverage and error over all scenarios with drawn truths at once: what chance hides in one shows here.
std::string pooled_tables(const Study& study);
/// Half-widths to expect with the coupons: parameters by lays.
std::string expected_half_widths(const Study& study);
/// Coverage, width and error: one table for each kind of places, truths and steel.
std::string coverage_tables(const Study& study);
/// What the rule costs that later readings do not move scale and edge growth.
std::string cost_of_rule(const Study& study);
std::string loop_tables(const Study& study);
std::string slip_tables(const Study& study);
/// Digits of agreement with the NIST StRD linear sets, computed now.
std::string strd_table();

}  // namespace fitwright::accuracy
