// The chances of an allowance by simulation, part by part.

#include <Eigen/Eigenvalues>
#include <cmath>
#include <numbers>
#include <random>

#include "fits/clearance_law.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Numbers from a 64-bit Mersenne twister, the same on every machine (the library's distributions are not).
class Numbers {
 public:
  explicit Numbers(std::uint64_t seed) : engine_(seed) {}
  double uniform() { return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1p-53; }
  double normal() { return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform()); }

 private:
  std::mt19937_64 engine_;
};

/// Parameters that take part, and a factor of their covariance.
struct Spread {
  std::vector<std::string> names;
  Eigen::MatrixXd factor;
};

Spread spread_of(const Estimates& estimates, const ClearanceLaw& law) {
  Spread out;
  for (const auto& [parameter, weight] : law.slopes)
    if (!law.parameters.prior_sd.contains(parameter)) out.names.push_back(parameter);
  const auto n = static_cast<Eigen::Index>(out.names.size());
  Eigen::MatrixXd covariance(n, n);
  for (Eigen::Index i = 0; i < n; ++i)
    for (Eigen::Index j = 0; j < n; ++j)
      covariance(i, j) = estimates.cov(out.names[static_cast<std::size_t>(i)], out.names[static_cast<std::size_t>(j)]);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(covariance);
  out.factor = eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0).cwiseSqrt().asDiagonal();
  return out;
}

}  // namespace

Result<std::array<double, grade_count>> chances_simulated(const AllowanceBasis& basis, const AllowanceRequest& request,
                                                          double clearance_mm, int runs, std::uint64_t seed) {
  const auto law = clearance_law(basis, request);
  if (!law) return law.problems();
  const auto sizes = sizes_for(*law, request, clearance_mm);
  if (!sizes)
    return Problem{Code::unanswerable, {}, "no drawn size gives this clearance", "draw it smaller and drill it"};
  const Spread spread = spread_of(basis.estimates, *law);
  const bool both = request.mate.kind == MateKind::printed;
  // What the parameters do to the margin beyond the sizes themselves (caliper, thresholds brought to real clearance).
  Contrast beyond = law->slopes;
  for (const auto& [parameter, slope] : printed_slopes(law->part, law->parameters.values, sizes->part_mm))
    beyond[parameter] -= law->sign * slope;
  if (both)
    for (const auto& [parameter, slope] : printed_slopes(law->other, law->parameters.values, *sizes->mate_mm))
      beyond[parameter] += law->sign * slope;
  // Variance of estimates that comes from weak priors and from what was not read.
  Contrast read;
  for (const std::string& parameter : spread.names) read[parameter] = law->slopes.at(parameter);
  const double read_u = contrast(basis.estimates, read)->u;
  const double rest_sd = std::sqrt(std::max(0.0, law->estimates_variance - read_u * read_u));
  const double half_limits =
      request.mate.kind == MateKind::limits ? (request.mate.high_mm - request.mate.low_mm) / 2 : 0;

  Numbers numbers(seed);
  std::array<double, grade_count> out{};
  Eigen::VectorXd z(spread.factor.cols());
  const auto& draws = basis.thresholds.draws;
  const double df = std::max(law->df, 3.0);
  for (int run = 0; run < runs; ++run) {
    // One scale for all of the variance, known with df degrees of freedom.
    const double inflate = df < 1e6 ? std::sqrt(df / chi_squared_quantile(numbers.uniform(), df)) : 1.0;
    for (double& each : z) each = numbers.normal() * inflate;
    const Eigen::VectorXd off = spread.factor * z;
    ParameterValues values = law->parameters.values;
    double margin = rest_sd * inflate * numbers.normal();
    for (std::size_t i = 0; i < spread.names.size(); ++i) {
      values[spread.names[i]] += off[static_cast<Eigen::Index>(i)];
      margin += beyond[spread.names[i]] * off[static_cast<Eigen::Index>(i)];
    }
    const double printed = printed_mm(law->part, values, sizes->part_mm);
    const double mate = both ? printed_mm(law->other, values, *sizes->mate_mm)
                             : law->mate_mm + half_limits * (2 * numbers.uniform() - 1) * inflate;
    margin += law->sign * (printed - mate);
    double scatter = law->place_variance + law->copy_variance;
    if (request.mate.kind == MateKind::measured) scatter += law->mate_variance;
    margin += std::sqrt(scatter) * inflate * numbers.normal();
    const auto& draw = draws[static_cast<std::size_t>(numbers.uniform() * static_cast<double>(draws.size()))];
    const LadderScatter ladder = ladder_scatter(draw.s_mm, *law);
    const double felt_at = margin - law->threshold_shift_mm + std::sqrt(ladder.place_variance) * numbers.normal() +
                           std::sqrt(ladder.feel_variance) * numbers.normal();
    std::size_t grade = 0;
    while (grade < draw.t_mm.size() && felt_at > draw.t_mm[grade]) ++grade;
    out[grade] += 1.0 / runs;
  }
  return out;
}

}  // namespace fitwright
