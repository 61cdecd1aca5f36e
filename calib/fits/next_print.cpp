#include "fits/next_print.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/words.hpp"
#include "fits/clearance_law.hpp"
#include "model/priors.hpp"
#include "model/terms.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Half-width over standard deviation of a 95 % interval, as is usual in such plans.
constexpr double z95 = 1.96;
/// Below this share of a new part's scatter the mean is known well enough.
constexpr double known_share = 1.0 / 3;

/// Standard deviations taken for parameters that nothing has told yet (common practice, no source; the weak priors of
/// priors.hpp where there is one).
double unread_sd(Term term) {
  switch (term) {
    case Term::zero:
      return prior::caliper_zero_mm.sd;
    case Term::inside:
      return prior::inside_bias_mm.sd;
    case Term::jaw_flat_term:
      return prior::jaw_flat_term_mm2.sd;
    case Term::scale_x:
    case Term::scale_y:
    case Term::scale_z:
      return 0.01;
    case Term::edge:
      return 0.15;
    case Term::hole_c0:
    case Term::holeh_c0:
      return 0.2;
    case Term::hole_c1:
    case Term::holeh_c1:
      return prior::hole_c1_mm2.sd;
    case Term::peg_p0:
      return prior::peg_p0_mm.sd;
    case Term::peg_p1:
      return prior::peg_p1_mm2.sd;
    default:
      return 0.2;
  }
}

/// Covariance of all terms: the estimates', and wide ones for what was not read.
MatrixXd covariance_now(const Estimates& e) {
  MatrixXd s = MatrixXd::Zero(term_count, term_count);
  for (int i = 0; i < term_count; ++i) {
    const std::string a(name_of(static_cast<Term>(i)));
    if (a.empty() || !e.find(a)) {
      s(i, i) = std::pow(unread_sd(static_cast<Term>(i)), 2);
      continue;
    }
    for (int j = 0; j < term_count; ++j) {
      const std::string b(name_of(static_cast<Term>(j)));
      if (!b.empty() && e.find(b)) s(i, j) = e.cov(a, b);
    }
  }
  return s;
}

VectorXd contrast_of(const AllowanceRequest& request) {
  // Of the printed sizes alone; the slopes hardly depend on the values, which may not be known yet.
  VectorXd a = VectorXd::Zero(term_count);
  const auto add = [&](SizeKind kind, double sign) {
    SizeQuestion q;
    q.kind = kind;
    q.axis = request.axis;
    ParameterValues none{{name::scale_x, 0}, {name::scale_y, 0}, {name::edge_growth, 0}};
    if (kind == SizeKind::hole) none.insert({{name::hole_c0, 0}, {name::hole_c1, 0}});
    if (kind == SizeKind::peg) none.insert({{name::peg_p0, 0}, {name::peg_p1, 0}});
    for (const auto& [parameter, slope] : printed_slopes(q, none, request.nominal_mm))
      for (int t = 0; t < term_count; ++t)
        if (name_of(static_cast<Term>(t)) == parameter) a[t] += sign * slope;
  };
  const double sign = is_inside(request.kind) ? 1 : -1;
  add(request.kind, sign);
  if (request.mate.kind == MateKind::printed) {
    constexpr SizeKind other[] = {SizeKind::peg, SizeKind::hole, SizeKind::tab, SizeKind::slot};
    add(other[static_cast<int>(request.kind)], -sign);
  }
  if (request.mate.kind == MateKind::measured) a[index(Term::zero)] += sign;
  return a;
}

/// Equations of a candidate's places, one copy, and the covariance of what is read there.
struct Places {
  MatrixXd x, noise;
};

Places places_of(const std::vector<Feature>& features, const Estimates& e) {
  std::vector<Equation> rows;
  std::vector<double> variance;
  for (const Feature& f : features) {
    if (is_steel(f.kind) || is_diagonal(f.kind) || f.kind == Kind::wall || !(f.nominal_mm > 0)) continue;
    MachinePlace place;
    place.kind = f.kind;
    place.axis = f.axis;
    place.nominal_mm = f.nominal_mm;
    place.facets = f.facets;
    rows.push_back(equation(place, f.nominal_mm, Values::Zero()));
    const bool round = f.kind == Kind::hole || f.kind == Kind::peg || f.kind == Kind::pin || f.kind == Kind::hole_h;
    variance.push_back(std::pow(new_part_scatter(e, round).place_sd_mm, 2) + rows.back().extra_variance_mm2);
  }
  const auto n = static_cast<Index>(rows.size());
  Places out{MatrixXd::Zero(n, term_count), MatrixXd::Zero(n, n)};
  const NewPartScatter s = new_part_scatter(e, false);
  for (Index i = 0; i < n; ++i) {
    const Equation& a = rows[static_cast<std::size_t>(i)];
    out.x.row(i) = a.coefficients.transpose();
    out.noise(i, i) = variance[static_cast<std::size_t>(i)];
    for (Index j = 0; j < n; ++j) {
      const Equation& b = rows[static_cast<std::size_t>(j)];
      out.noise(i, j) += a.copy_edge * b.copy_edge * std::pow(s.copy_edge_sd_mm, 2) +
                         a.copy_scale * b.copy_scale * std::pow(s.copy_scale_sd, 2);
    }
  }
  return out;
}

}  // namespace

double variance_after(const MatrixXd& covariance, const VectorXd& contrast, const MatrixXd& x, const MatrixXd& noise) {
  const VectorXd along = x * (covariance * contrast);
  const MatrixXd seen = noise + x * covariance * x.transpose();
  const double now = contrast.dot(covariance * contrast);
  return std::max(0.0, now - along.dot(seen.ldlt().solve(along)));
}

double gain_per_gram(double variance_now, double variance_then, double grams) {
  return z95 * (std::sqrt(variance_now) - std::sqrt(variance_then)) / grams;
}

Result<NextPrint> next_print(const Estimates& estimates, const AllowanceRequest& request,
                             const std::vector<PrintCandidate>& candidates) {
  if (!(request.nominal_mm > 0 && request.nominal_mm <= 1000))
    return Problem{Code::usage,
                   {},
                   said("{} mm is no size of a part", said_shortest(request.nominal_mm)),
                   tr("give a size above 0 up to 1000 mm")};
  const MatrixXd s = covariance_now(estimates);
  const VectorXd a = contrast_of(request);
  NextPrint out;
  const double now = a.dot(s * a);
  out.sd_now_mm = std::sqrt(now);
  out.half_width_now_mm = z95 * out.sd_now_mm;
  const bool round = request.kind == SizeKind::hole || request.kind == SizeKind::peg;
  const NewPartScatter scatter = new_part_scatter(estimates, round);
  const int printed = request.mate.kind == MateKind::printed ? 2 : 1;
  out.new_part_sd_mm =
      std::sqrt(printed * std::pow(scatter.place_sd_mm, 2) + std::pow(2 * printed * scatter.copy_edge_sd_mm, 2));
  const double enough = known_share * out.new_part_sd_mm;
  for (const PrintCandidate& c : candidates) {
    if (!(c.grams > 0)) continue;
    const Places places = places_of(c.features, estimates);
    if (places.x.rows() == 0) continue;
    const double then = variance_after(s, a, places.x, places.noise);
    PrintGain gain{c.name, c.grams, std::sqrt(then), z95 * std::sqrt(then), gain_per_gram(now, then, c.grams), false};
    gain.floor_reached = gain.sd_after_mm < enough;
    out.gains.push_back(gain);
  }
  std::stable_sort(out.gains.begin(), out.gains.end(),
                   [](const PrintGain& x, const PrintGain& y) { return x.gain_mm_per_g > y.gain_mm_per_g; });
  out.stop = out.sd_now_mm < enough;
  if (out.stop)
    out.text = said(
        "Stop: printing more coupons will not help. The mean clearance is known within {} mm (95 %), and new parts "
        "differ by {} mm in any case.",
        said_fixed(out.half_width_now_mm, 3), said_fixed(z95 * out.new_part_sd_mm, 2));
  else if (out.gains.empty() || out.gains.front().gain_mm_per_g < 1e-6)
    out.text = tr("Nothing among these coupons tells more about this clearance.");
  else
    out.text = said("Print {} next ({} g): the mean clearance is then known within {} mm instead of {} mm (95 %).",
                    out.gains.front().name, said_fixed(out.gains.front().grams, 1),
                    said_fixed(out.gains.front().half_width_after_mm, 3), said_fixed(out.half_width_now_mm, 3));
  return out;
}

}  // namespace fitwright
