#include "reading/features_csv.hpp"

#include "design/design.hpp"

namespace fitwright {

std::string features_csv(const Coupon& coupon) { return to_features_csv(coupon.features); }

}  // namespace fitwright
