#pragma once
// The page of trials: what to do before, the plain scale of the grades, and a row for each place to be tried.

#include "sheet/page.hpp"
#include "sheet/sheet.hpp"

namespace fitwright {

/// Draws it on pages of its own; nothing for coupons that are measured only.
void trial_pages(Page& page, const Coupon& coupon, const SheetOptions& options);

}  // namespace fitwright
