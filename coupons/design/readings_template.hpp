#pragma once
// A readings file to be filled in: a row for each time the jaws are put on, its reading empty.

#include <string>

#include "design/design.hpp"

namespace fitwright {

struct TemplateOptions {
  int copies = 1;
  int repeats = 2;  ///< of each place: the third is for where two differ
};

/// CSV text of docs/formats.md (readings): closed jaws first, then copy by copy the places in their order on the plan,
/// whose number stands in the note. Every second copy lies turned by 90 degrees. Throws std::logic_error for less than
/// one copy or repeat.
std::string readings_template(const Coupon& coupon, const TemplateOptions& options = {});

}  // namespace fitwright
