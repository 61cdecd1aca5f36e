#pragma once
// An evening to measure in: coupons as the program makes them, and somebody who types what a caliper would show.

#include <memory>
#include <string>
#include <vector>

#include "bench/measuring/measure_plan.hpp"
#include "bench/measuring/measure_steps.hpp"

namespace evening {

using namespace fitwright;

/// A copy of a design with its defaults, on a bed where all of them fit.
PartCopy part(const std::string& design, int copy = 1, int turned_deg = 0);
SteelPiece jaws(int times = 3);
SteelPiece steel(const std::string& id, Kind kind, double mm, int times = 1);
std::shared_ptr<const MeasurePlan> plan(const std::vector<PartCopy>& parts, const std::vector<SteelPiece>& steel,
                                        const MeasureOptions& options = {});
/// Three times zero, then one frame coupon twice round: the first evening.
std::shared_ptr<const MeasurePlan> first_evening();

/// What is drawn at the present place plus `off_mm`, as typed.
std::string drawn_here(const Measuring& m, double off_mm = 0.1);
/// `text` typed; the step must be taken.
Measuring typed(const Measuring& m, const std::string& text);
/// So many readings, each `off_mm` from drawn.
Measuring read_on(Measuring m, std::size_t readings, double off_mm = 0.1);
/// The present place is moved to the feature's reading.
Measuring at(const Measuring& m, const std::string& id, int repeat = 1, int copy = 1);

}  // namespace evening
