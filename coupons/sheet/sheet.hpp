#pragma once
// The measuring sheet to print: drawing with numbered jaw places, a box per reading, what to do before, cautions.

#include <string>

#include "base/result.hpp"
#include "design/design.hpp"

namespace fitwright {

struct SheetOptions {
  int copies = 1;
  int repeats = 2;     ///< boxes per place; a third stands beside them for places that differ
  bool letter = false; ///< US letter instead of ISO A4
};

/// PDF bytes, the same for the same coupon and options. Error: Code::io when the PDF library fails.
Result<std::string> sheet_pdf(const Coupon& coupon, const SheetOptions& options = {});

}  // namespace fitwright
