#include "design/grading.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

constexpr double largest_mm = 1.5;  ///< clearance that is still a fit and not a gap
constexpr double per_micrometre = 1e3;
constexpr double edge_mm = 2;         ///< floor around the outermost places
constexpr double label_gap_mm = 1.2;  ///< between names
constexpr double cell_gap_mm = 0.8;
constexpr double label_strip_mm = fit_label_mm + 1.8;

bool whole_micrometres(double mm) { return std::abs(mm * per_micrometre - std::round(mm * per_micrometre)) < 1e-6; }

}  // namespace

std::vector<DesignParameter> with_grading(std::vector<DesignParameter> own, const GradingDefaults& defaults) {
  own.push_back({param::start, defaults.start_mm, -0.6, 1, "mm",
                 noted("smallest clearance; below zero the part is larger than its place")});
  own.push_back({param::step, defaults.step_mm, 0.01, 0.5, "mm", noted("from one clearance to the next")});
  own.push_back({param::count, static_cast<double>(defaults.count), 1, static_cast<double>(defaults.most), "1",
                 noted("number of clearances"), true});
  return own;
}

Problems grading_problems(const DesignValues& values) {
  Problems problems;
  for (const char* name : {param::start, param::step})
    if (const double value = values.at(name); !whole_micrometres(value))
      problems.push_back(
          {Code::bad_input,
           {},
           said("{} is finer than a thousandth of a millimetre, which no printer lays and no name shows",
                named_value(name, value)),
           said("choose {}", shortest(std::max(std::round(value * per_micrometre) / per_micrometre, -1e9)))});
  const double start = values.at(param::start), step = values.at(param::step), count = values.at(param::count);
  if (const double last = start + (count - 1) * step; last > largest_mm + 1e-9) {
    const double fits = std::max(1.0, std::floor((largest_mm - start) / step + 1e-9) + 1);
    problems.push_back(
        {Code::bad_input,
         {},
         said("{} with {} and {} ends at a clearance of {} mm, and beyond {} mm there is no fit to be tried",
              named_value(param::count, count), named_value(param::start, start), named_value(param::step, step),
              shortest(whole_nm(last)), shortest(largest_mm)),
         said("set {} to {} or less, or {} smaller", param::count, shortest(fits), param::step)});
  }
  return problems;
}

std::vector<double> clearances_mm(const DesignValues& values) {
  const auto um = [&](const char* name) { return std::round(values.at(name) * per_micrometre); };
  std::vector<double> all;
  for (int i = 0; i < static_cast<int>(values.at(param::count)); ++i)
    all.push_back((um(param::start) + i * um(param::step)) / per_micrometre);
  return all;
}

std::vector<std::string> clearance_ids(char letter, const std::vector<double>& clearances) {
  const bool fine = std::any_of(clearances.begin(), clearances.end(),
                                [](double c) { return std::abs(c * 100 - std::round(c * 100)) > 1e-6; });
  std::vector<std::string> ids;
  for (const double c : clearances) ids.push_back(letter + fixed(c, fine ? 3 : 2));
  return ids;
}

double whole_nm(double mm) { return std::round(mm * 1e6) / 1e6; }

double to_tenths(double mm) { return std::ceil(mm * 10 - 1e-6) / 10; }

double TrialGrid::x(int i) const { return edge_mm + pitch_x_mm * (i % columns + 0.5); }
double TrialGrid::label_y(int i) const { return edge_mm + pitch_y_mm * (i / columns) + fit_label_mm / 2; }
double TrialGrid::y(int i) const { return edge_mm + pitch_y_mm * (i / columns) + label_strip_mm + cell_mm / 2; }
double TrialGrid::right() const { return edge_mm + pitch_x_mm * columns; }
double TrialGrid::size_x() const { return right() + bearings_x_mm; }
double TrialGrid::size_y() const { return std::max(edge_mm + pitch_y_mm * rows, bearings_y_mm); }

TrialGrid trial_grid(const DesignValues& values, const std::vector<std::string>& ids, double cell) {
  TrialGrid g;
  double label = 0;
  for (const std::string& id : ids) label = std::max(label, text_width_mm(id, fit_label_mm));
  g.cell_mm = cell;
  g.pitch_x_mm = to_tenths(std::max(cell + cell_gap_mm, label + label_gap_mm));
  g.pitch_y_mm = to_tenths(label_strip_mm + cell + cell_gap_mm);
  constexpr double beside_mm = 4;  // what the bed keeps free
  const int count = static_cast<int>(ids.size());
  const int room = static_cast<int>((values.at(param::bed_x) - beside_mm - edge_mm - bearings_x_mm) / g.pitch_x_mm);
  g.columns = std::clamp((count + 1) / 2, 1, std::max(1, room));
  g.rows = (count + g.columns - 1) / g.columns;
  return g;
}

Region fit_bearings(Coupon& coupon, double x, double y) {
  const double middle = x + bearings_x_mm / 2, w = 0.7;
  const auto put = [&](const std::string& words, double cx, double cy) {
    coupon.labels.push_back(centred_label(words, cx, cy, fit_label_mm));
  };
  Region marks = arrow(middle, y + 7.5, middle, y + 1.5, w);
  put("FRONT", middle, y + 10);
  const double ox = x + 3, oy = y + 14;
  marks = unite(marks, unite(arrow(ox, oy, ox + 7.5, oy, w), arrow(ox, oy, ox, oy + 6, w)));
  put("X", ox + 9.8, oy);
  put("Y", ox + 3.2, oy + 5);
  put(coupon.design, middle, y + bearings_y_mm - 2.8);
  return marks;
}

}  // namespace fitwright
