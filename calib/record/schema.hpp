#pragma once
// The tables of the record and the steps from one version of them to the next.
//
// Every table is append-only: a row is a fact that is never changed or deleted (triggers see to it). A thing (a
// printer, a reading, ...) is the chain of its rows: the first, whose id is also the thing's, and its amendments, each
// naming the row it amends, when and why. The newest row of a thing is what holds now; `gone` ends it. So nothing
// measured is lost, and two records are merged by taking the rows of both.

#include <string>
#include <vector>

#include "record/database.hpp"

namespace fitwright::record {

/// Version of the tables that this program writes (PRAGMA user_version).
inline constexpr int schema_version = 1;
/// "FwRc" in ASCII: tells a record from other databases (PRAGMA application_id).
inline constexpr int application_id = 0x46775263;

/// One step from version `to` - 1 to `to`.
struct Migration {
  int to = 1;
  std::string sql;
};
const std::vector<Migration>& migrations();

/// Tables of things, those that others refer to first; the order of export and merge.
const std::vector<std::string>& thing_tables();

/// Columns of a table in their order, as the database has them.
std::vector<std::string> columns_of(Database& database, const std::string& table);

/// Brings the tables to the version of the last step, each step in a transaction of its own. Nothing is written when
/// they are there already. Throws DatabaseError.
void migrate(Database& database, const std::vector<Migration>& steps = migrations());

}  // namespace fitwright::record
