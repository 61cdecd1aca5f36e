#pragma once
// One row of a JSON document as cells of its table, with everything that is wrong with it told.

#include <optional>
#include <string>

#include "base/json.hpp"
#include "reading/defects.hpp"
#include "record/rows.hpp"

namespace fitwright::record {

/// The row, or nothing and at least one defect: not an object, columns missing or not known, values of another type,
/// ids and moments of another shape.
std::optional<Row> row_from(const JsonValue& item, const TableInfo& table, Defects& defects);

/// What the database says of a row that breaks a rule of its table, for a sentence that begins with the row.
std::string broken_rule(const DatabaseError& error, const Row& row, const TableInfo& table);

/// A value for a message: quoted and cut short.
std::string in_short(const JsonValue& value);

}  // namespace fitwright::record
