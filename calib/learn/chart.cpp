#include "learn/chart.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/text.hpp"
#include "learn/words.hpp"
#include "stats/summary.hpp"

namespace fitwright {
namespace {

std::string in_unit(double value, const ChartOptions& o) {
  return o.unit == ChartUnit::ratio ? learn::percent_text(value) : learn::mm_text(value);
}

std::string points_text(std::size_t n) { return learn::count_text(static_cast<int>(n), "point", "points"); }

std::string sentence_of(const Chart& c, const ChartOptions& o) {
  const std::string first = "the first " + std::to_string(c.baseline);
  if (c.steps.empty())
    return "The first " + std::to_string(c.baseline) + " points are the baseline of " + o.what +
           "; the next one is the first to be judged.";
  if (!c.first_signal)
    return "No drift to be seen: over " + points_text(c.steps.size()) + " since the baseline " + o.what +
           " stays where " + first + " put it, within " + in_unit(c.steps.back().limit * c.sd, o) + ".";
  const ChartStep& signal = c.steps[*c.first_signal];
  const double then = signal.z * c.sd;
  const double now = c.moved;
  const bool came_back = !c.steps.back().beyond;
  std::string out = "Drift: " + o.what + " is " + in_unit(came_back ? then : now, o) +
                    ((came_back ? then : now) > 0 ? " above " : " below ") + first + ", smoothed, first seen at " +
                    signal.label;
  if (came_back) out += "; since then it has come back within the limits";
  out += '.';
  if (!o.after_signal.empty()) out += ' ' + o.after_signal;
  return out;
}

}  // namespace

ChartOptions shrink_chart() {
  ChartOptions o;
  o.after_signal =
      "Read the steel reference first: if that has moved too, it is the caliper; else look at spool, temperature and "
      "belts, and calibrate again.";
  return o;
}

ChartOptions edge_chart() {
  ChartOptions o = shrink_chart();
  o.what = "edge growth";
  o.unit = ChartUnit::mm;
  o.usual_sd = 0.0105;
  o.after_signal =
      "Read the steel reference first: if that has moved too, it is the caliper; else look at flow, nozzle and "
      "filament diameter.";
  return o;
}

ChartOptions caliper_chart() {
  ChartOptions o;
  o.what = "the caliper on steel";
  o.unit = ChartUnit::mm;
  o.usual_sd = 0.005;
  o.after_signal = "Wipe the jaws, set the zero and read again; readings since then carry that error.";
  return o;
}

Result<Chart> ewma_chart(const std::vector<ChartPoint>& baseline, const std::vector<ChartPoint>& later,
                         const ChartOptions& o) {
  if (!(o.lambda > 0) || o.lambda > 1 || !(o.limit > 0) || !(o.usual_sd > 0) || !(o.usual_df > 0))
    throw std::invalid_argument("ewma_chart: lambda, limit and usual scatter must be above zero");
  Problems faults;
  for (const auto* points : {&baseline, &later})
    for (const ChartPoint& p : *points)
      if (!std::isfinite(p.value))
        faults.push_back(
            {Code::bad_input, {}, "point " + quote(p.label) + " of the chart is not a number", "leave it out"});
  if (!faults.empty()) return faults;
  if (baseline.size() < fewest_baseline)
    return Problem{Code::unanswerable,
                   {},
                   "a control chart of " + o.what + " needs a baseline of " + std::to_string(fewest_baseline) +
                       " points, there " +
                       (baseline.size() == 1 ? "is one"
                        : baseline.empty()   ? "are none"
                                             : "are " + std::to_string(baseline.size())),
                   "print and read the same coupon again, with nothing changed"};
  Chart out;
  std::vector<double> values;
  for (const ChartPoint& p : baseline) values.push_back(p.value);
  const auto n0 = static_cast<double>(values.size());
  const std::span<const double> all(values);
  out.baseline = values.size();
  out.mean = mean(all);
  const double squares = static_cast<double>(sum_of_squares(all));
  out.sd = std::sqrt((o.usual_df * o.usual_sd * o.usual_sd + squares) / (o.usual_df + n0 - 1));
  const double keep = 1 - o.lambda;
  double z = 0, kept = 1;
  for (const ChartPoint& p : later) {
    z = keep * z + o.lambda * (p.value - out.mean) / out.sd;
    kept *= keep;
    ChartStep step{p.label, p.value, z, 0, false};
    step.limit = o.limit * std::sqrt(o.lambda / (2 - o.lambda) * (1 - kept * kept) + (1 - kept) * (1 - kept) / n0);
    step.beyond = std::abs(z) > step.limit;
    if (step.beyond && !out.first_signal) out.first_signal = out.steps.size();
    out.steps.push_back(std::move(step));
  }
  out.moved = z * out.sd;
  out.sentence = sentence_of(out, o);
  return out;
}

Result<Chart> ewma_chart_of(const std::vector<ChartPoint>& points, const ChartOptions& options) {
  const auto split = points.begin() + static_cast<std::ptrdiff_t>(std::min(points.size(), usual_baseline));
  return ewma_chart({points.begin(), split}, {split, points.end()}, options);
}

}  // namespace fitwright
