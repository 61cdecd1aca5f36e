#pragma once
// An allowance in sentences.

#include "fits/clearance_law.hpp"

namespace fitwright {

/// What limits a chance, and what to do about it.
std::string words_for(ChanceLimit::What what, const AllowanceBasis& basis);

/// Fills reasons and cautions.
void tell(Allowance& allowance, const AllowanceBasis& basis, const ClearanceLaw& law);

}  // namespace fitwright
