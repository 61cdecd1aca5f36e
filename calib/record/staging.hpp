#pragma once
// What is to be merged, as a database in memory: a JSON document, or a record of an older version. Checked by itself;
// what its rows refer to may be in the record that takes them, so references are left to the merge.

#include <string>

#include "base/result.hpp"
#include "record/database.hpp"

namespace fitwright::record {

/// Reads a JSON document (docs/formats.md, "The record as one JSON file"). Errors: Code::bad_input, all defects with
/// line and column.
Result<Database> stage_json(const std::string& json, const std::string& source);

/// Where a row of a staged document stood; line 0 when the database is not one.
Place place_of(Database& database, const std::string& source, const std::string& table, const std::string& id);

/// Whether a file begins as a database does.
bool is_record_file(const std::string& path);

/// The rows of a record of an older version, brought up to date. Throws DatabaseError.
Database stage_older(Database& older);

}  // namespace fitwright::record
