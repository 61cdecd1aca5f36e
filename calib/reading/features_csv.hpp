#pragma once
// Features of a coupon to and from CSV: what is written beside its solid, and kept in the record.

#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/feature.hpp"

namespace fitwright {

/// Reads a list of features (docs/formats.md; columns in any order, optional ones absent). Errors: all defects of the
/// text at once as Code::bad_input with line and column.
Result<std::vector<Feature>> parse_features(const std::string& csv, const std::string& source);

/// The features as CSV text. Reads back to the same list.
std::string to_features_csv(const std::vector<Feature>& features);

}  // namespace fitwright
