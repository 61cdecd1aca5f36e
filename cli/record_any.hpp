#pragma once
// A thing of any kind by what it is called.

#include <string>

#include "record_open.hpp"

namespace fitw {

struct Thing {
  std::string kind;  ///< "printer", "spool", "caliper", "setup", "coupon", "correction"
  std::string name;
  fitwright::record::Id id;
};

/// Errors: Code::bad_input when nothing or more than one thing is called so, listing them.
fitwright::Result<Thing> find_any(fitwright::record::Record& record, const std::string& typed);

}  // namespace fitw
