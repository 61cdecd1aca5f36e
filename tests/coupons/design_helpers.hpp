#pragma once
// What the tests of designs share.

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "design/design.hpp"
#include "mesh/measure.hpp"
#include "mesh/mesh.hpp"

namespace fitwright::design_test {

using Overrides = std::vector<std::pair<std::string, std::string>>;

/// The coupon; throws with the problems' text when it cannot be made.
Coupon made(const std::string& design, const Overrides& overrides = {});

/// A coupon with the parameters it was made from, for messages.
struct Case {
  std::string design;
  Overrides overrides;
  [[nodiscard]] std::string text() const;
};
/// Every design at its defaults and at parameters near the ends of what is used.
const std::vector<Case>& cases();

const Feature& feature(const Coupon& coupon, const std::string& id);
const JawPlace& place(const Coupon& coupon, const std::string& id);
/// The outlines at a height.
const Region& region_at(const Solid& solid, double z_mm);
double area_mm2(const Region& region);

}  // namespace fitwright::design_test
