#pragma once
// The table of readings: a row a place, in the order to measure, boxes for each copy.

#include "sheet/page.hpp"
#include "sheet/sheet.hpp"

namespace fitwright {

/// Draws the table from where the page stands, on as many pages as it needs, its head on each.
void readings_table(Page& page, const Coupon& coupon, const SheetOptions& options);

}  // namespace fitwright
