#pragma once
// Estimates made by hand, so that corrections and findings are tested without an estimator.

#include <Eigen/Core>
#include <string>
#include <vector>

#include "model/estimates.hpp"
#include "stats/intervals.hpp"

namespace fitwright::testing {

struct Given {
  std::string name;
  double value = 0;
  double u = 0;
  double df = 10;
};

inline std::string unit_of(const std::string& name) {
  if (name.ends_with("_mm")) return "mm";
  if (name.ends_with("_mm2")) return "mm2";
  return name.ends_with("_rad") ? "rad" : "1";
}

/// Independent estimates, two copies; `established` as the contract has it.
inline Estimates hand_made(const std::vector<Given>& given) {
  Estimates e;
  e.method = "by hand";
  e.counts = {20, 2, 120, 0};
  e.covariance =
      Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(given.size()), static_cast<Eigen::Index>(given.size()));
  for (const Given& g : given) {
    const double half = g.u > 0 ? coverage_factor(0.95, g.df) * g.u : 0;
    const auto i = static_cast<Eigen::Index>(e.parameters.size());
    e.covariance(i, i) = g.u * g.u;
    e.parameters.push_back(
        {g.name, g.value, g.u, g.df, g.value - half, g.value + half, unit_of(g.name), std::abs(g.value) > half, false});
  }
  return e;
}

/// Sets the covariance of two of the parameters by their correlation.
inline void correlate(Estimates& e, const std::string& a, const std::string& b, double correlation) {
  Eigen::Index ia = 0, ib = 0;
  for (std::size_t i = 0; i < e.parameters.size(); ++i) {
    if (e.parameters[i].name == a) ia = static_cast<Eigen::Index>(i);
    if (e.parameters[i].name == b) ib = static_cast<Eigen::Index>(i);
  }
  e.covariance(ia, ib) = e.covariance(ib, ia) = correlation * std::sqrt(e.covariance(ia, ia) * e.covariance(ib, ib));
}

/// Adds one measured place. `residual_mm` also sets the fitted value.
inline Cell& add_cell(Estimates& e, const std::string& id, Kind kind, Axis axis, double nominal_mm, double mean_mm,
                      int copy = 1, double residual_mm = 0) {
  Cell c;
  c.feature.id = id;
  c.feature.kind = c.kind = kind;
  c.feature.axis = c.axis = axis;
  c.feature.nominal_mm = nominal_mm;
  c.copy = copy;
  c.readings = 3;
  c.mean_mm = mean_mm;
  c.residual_mm = residual_mm;
  c.fitted_mm = mean_mm - residual_mm;
  e.cells.push_back(c);
  return e.cells.back();
}

/// Outsides of 10 to `longest` on both axes, as the frame has them.
inline void add_lengths(Estimates& e, double longest_mm) {
  for (const double l : {10.0, 40.0, longest_mm}) {
    add_cell(e, "X" + std::to_string(static_cast<int>(l)), Kind::outer, Axis::x, l, l);
    add_cell(e, "Y" + std::to_string(static_cast<int>(l)), Kind::outer, Axis::y, l, l);
  }
}

/// Scale of X and Y and edge growth, with lengths up to `longest_mm`.
inline Estimates lengths_of(double scale_x, double scale_y, double edge_mm, double u_scale = 0.0003,
                            double u_edge_mm = 0.01, double longest_mm = 100) {
  Estimates e = hand_made({{name::scale_x, scale_x, u_scale, 10},
                           {name::scale_y, scale_y, u_scale, 10},
                           {name::edge_growth, edge_mm, u_edge_mm, 10}});
  add_lengths(e, longest_mm);
  return e;
}

}  // namespace fitwright::testing
