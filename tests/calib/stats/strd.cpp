#include "reference/stats/strd.hpp"

#include <algorithm>
#include <stdexcept>

#include "reference/stats/lre.hpp"

namespace fitwright::reference {
namespace {

std::vector<std::vector<long double>> columns_of(const StrdSet& set, const Table& data) {
  std::vector<std::vector<long double>> columns;
  if (set.intercept) columns.emplace_back(data.rows.size(), 1.0L);
  if (set.degree == 0) {
    for (std::size_t j = 1; j < data.columns.size(); ++j) columns.push_back(data.extended(data.columns[j]));
    return columns;
  }
  const auto x = data.extended("x");
  std::vector<long double> power(x.size(), 1.0L);
  for (int d = 1; d <= set.degree; ++d) {
    for (std::size_t i = 0; i < x.size(); ++i) power[i] *= x[i];
    columns.push_back(power);
  }
  return columns;
}

}  // namespace

const std::vector<StrdSet>& strd_linear_sets() {
  static const std::vector<StrdSet> sets = {
      {"Norris", 1, true}, {"Pontius", 2, true}, {"NoInt1", 1, false}, {"Filip", 10, true}, {"Longley", 0, true}};
  return sets;
}

LeastSquares fit_of(const StrdSet& set, bool rounded_to_double) {
  const Table data = read_table(set.name + ".csv");
  const auto columns = columns_of(set, data);
  const auto y = data.extended("y");
  const auto n = static_cast<Eigen::Index>(y.size());
  ExtendedMatrix design(n, static_cast<Eigen::Index>(columns.size()));
  for (Eigen::Index j = 0; j < design.cols(); ++j)
    design.col(j) = Eigen::Map<const ExtendedVector>(columns[static_cast<std::size_t>(j)].data(), n);
  const ExtendedVector response = Eigen::Map<const ExtendedVector>(y.data(), n);
  auto fit = rounded_to_double
                 ? least_squares(Eigen::MatrixXd(design.cast<double>()), Eigen::VectorXd(response.cast<double>()))
                 : least_squares(design, response);
  if (!fit) throw std::runtime_error(set.name + ": " + fit.problems()[0].text());
  return std::move(fit).value();
}

StrdDigits digits_of(const StrdSet& set, const LeastSquares& fit) {
  const Table certified = read_table(set.name + "_certified.csv");
  StrdDigits d;
  for (Eigen::Index j = 0; j < fit.coefficients.size(); ++j) {
    const std::string k = std::to_string(j);
    d.coefficients = std::min(d.coefficients, lre(fit.coefficients(j), certified.value("estimate_" + k)));
    d.standard_errors = std::min(d.standard_errors, lre(fit.standard_errors(j), certified.value("std_dev_" + k)));
  }
  d.residual_sd = lre(fit.residual_sd, certified.value("residual_sd"));
  d.r_squared = lre(fit.r_squared, certified.value("r_squared"));
  d.residual_ss = lre(fit.residual_sum_of_squares, certified.value("residual_ss"));
  return d;
}

}  // namespace fitwright::reference
