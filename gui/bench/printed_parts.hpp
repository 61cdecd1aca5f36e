#pragma once
// Copies in the record as parts to be measured.

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/measuring/measure_plan.hpp"
#include "record/store.hpp"

namespace fitwright {

/// A copy in the record as a part in the hand. Where two coupons of one print have features of the same name, the
/// design's name stands in front of it here.
struct PrintedPart {
  record::Id copy, coupon;
  PartCopy part;
  std::map<std::string, std::string> stored_id;  ///< feature id as shown here -> as in the record

  /// The feature whose id in the record is `id`, or null.
  [[nodiscard]] const Feature* feature(const std::string& id) const;
};

/// The coupon of a design made again from the parameters that the record kept. Empty when this program would make
/// another one today: its features are then taken as the record has them.
std::shared_ptr<const Coupon> coupon_again(const record::MadeCoupon& made);

/// All of them in the order given. Errors: Code::bad_input for a coupon whose features cannot be read.
Result<std::vector<PrintedPart>> printed_parts(record::Record& record,
                                               const std::vector<record::Kept<record::Copy>>& copies);

}  // namespace fitwright
