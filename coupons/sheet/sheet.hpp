#pragma once
// The measuring sheet to print: drawing with numbered jaw places, a box per reading, what to do before, cautions.

#include <string>

#include "base/result.hpp"
#include "design/design.hpp"

namespace fitwright {

struct SheetOptions {
  int copies = 1;       ///< 1 to most_copies
  int repeats = 2;      ///< boxes per place, 1 to most_repeats; one more stands beside them for places that differ
  bool letter = false;  ///< US letter instead of ISO A4

  static constexpr int most_copies = 8;
  static constexpr int most_repeats = 5;
};

/// PDF bytes, the same for the same coupon and options. Errors: Code::usage for copies or repeats out of range;
/// Code::io when the font (DejaVu Sans) is not installed or the PDF library fails.
Result<std::string> sheet_pdf(const Coupon& coupon, const SheetOptions& options = {});

}  // namespace fitwright
