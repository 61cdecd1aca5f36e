#pragma once
// All readings of an evening as a table: those taken, those due, those left out.

#include <map>
#include <string>
#include <vector>

#include "bench/measuring/measuring.hpp"

namespace fitwright {

/// One row of the table. Cells are texts for the eye.
struct TableRow {
  ReadingKey key;
  std::string place;    ///< "X40 outer"
  std::string copy;     ///< empty for steel
  std::string ordinal;  ///< "2nd"
  std::string reading;  ///< "40.12"; empty when not read
  std::string drawn;    ///< "40.00"
  std::string remark;   ///< "skipped", "41.12 is 1.12 from drawn. 40.12?"
  bool doubtful = false;
  bool placed = true;  ///< false: it belongs to no place of the plan and can only be looked at
};

/// What else is known of readings, such as what the fit says: a remark by key.
using TableRemarks = std::map<ReadingKey, std::string>;

/// In the order to read, readings without a place last. Pure; empty without a plan.
std::vector<TableRow> measure_table(const Measuring& m, const TableRemarks& remarks = {});

}  // namespace fitwright
