#pragma once
// Text typed into one cell, read into one reading.

#include <optional>
#include <string>

#include "base/result.hpp"
#include "bench/columns.hpp"

namespace fitwright {

/// A length in mm from "40.12", "40,12", "1.575 in" or "1.575\"". Empty when it is none.
std::optional<double> length_from_entry(const std::string& text);

/// `reading` with the cell set, or what is expected there.
Result<Reading> with_cell(const Reading& reading, Column column, const std::string& text);

/// Whether a column describes the feature (all rows of a feature share it).
bool belongs_to_feature(Column column);

}  // namespace fitwright
