// Whether holes follow the law c0 + c1/d at all: the pattern of what the fit leaves over, against its scatter.
#include <Eigen/Core>
#include <cmath>
#include <limits>
#include <map>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"
#include "stats/intervals.hpp"
#include "stats/least_squares.hpp"

namespace fitwright {
namespace {

constexpr int fewest_diameters = 6;        // two terms, one more to test, and three degrees of freedom to test it by
constexpr double chance_limit = 0.01;      // chance of a false alarm, each of two tests
constexpr double worth_telling_mm = 0.02;  // two steps of the display: less is not worth a second law

/// Mean residual of standing holes by diameter, over copies and places.
std::map<double, double> residual_by_diameter(const Estimates& e) {
  std::map<double, std::pair<double, int>> sums;
  for (const Cell& c : e.cells) {
    if (c.kind != Kind::hole || c.readings == 0) continue;
    auto& [sum, n] = sums[c.feature.nominal_mm];
    sum += c.residual_mm;
    ++n;
  }
  std::map<double, double> means;
  for (const auto& [d, s] : sums) means[d] = s.first / s.second;
  return means;
}

struct Pattern {
  double chance = 1;       ///< of a pattern as strong by luck
  double worst_mm = 0;     ///< its largest share of a residual
  double worst_at_mm = 0;  ///< and at which diameter
};

/// F test of what `larger` explains of y beyond `smaller` (columns of the larger design first `fewer`).
Pattern pattern(const Eigen::MatrixXd& larger, Eigen::Index fewer, const Eigen::VectorXd& y, const Eigen::VectorXd& d) {
  Pattern out;
  const auto full = least_squares(larger, y);
  if (!full.ok() || full->df < 1) return out;
  Eigen::VectorXd explained = full->fitted;
  double rss = y.squaredNorm();
  if (fewer > 0) {
    const auto reduced = least_squares(Eigen::MatrixXd(larger.leftCols(fewer)), y);
    if (!reduced.ok()) return out;
    explained -= reduced->fitted;
    rss = reduced->residual_sum_of_squares;
  }
  const double gained = rss - full->residual_sum_of_squares;
  const double terms = static_cast<double>(larger.cols() - fewer);
  if (!(gained > 0)) return out;
  const double residual_ms = full->residual_sum_of_squares / full->df;
  out.chance = residual_ms > 0 ? f_upper_p(gained / terms / residual_ms, terms, full->df) : 0.0;
  Eigen::Index at = 0;
  explained.cwiseAbs().maxCoeff(&at);
  out.worst_mm = explained[at];
  out.worst_at_mm = d[at];
  return out;
}

/// A growth towards small holes far outside what was assumed beforehand: the assumption holds the estimate back.
void unusual_growth(const FindingInput& in, const std::map<double, double>& residuals, Findings& out) {
  constexpr double far = 3;  // standard deviations of the prior
  const Evidence c1 = in.of(name::hole_c1);
  for (const PriorUsed& p : in.estimates.priors) {
    if (p.parameter != name::hole_c1 || !c1.known || std::abs(c1.value - p.mean) <= far * p.sd) continue;
    out.push_back(
        {"hole-law", Severity::know,
         filled(c1.value > p.mean
                    ? tr("Holes close far more steeply towards small ones than usual: by {}/d mm (± {}), where "
                         "{}/d (± {}) is usual.")
                    : tr("Holes close far less towards small ones than usual: by {}/d mm (± {}), where {}/d "
                         "(± {}) is usual."),
                said_fixed(c1.value, 2), said_fixed(c1.half_width(), 2), said_fixed(p.mean, 2),
                said_fixed(2 * p.sd, 2)),
         said("the usual value was assumed beforehand and still pulls at the estimate: at Ø {} it leaves {}",
              said_shortest(residuals.begin()->first), signed_mm(residuals.begin()->second)),
         tr("look at the estimate without priors; for a small hole that matters, print that diameter itself "
            "and draw it by its own reading")});
    return;
  }
}

bool worth_telling(const Pattern& p) { return p.chance < chance_limit && std::abs(p.worst_mm) > worth_telling_mm; }

}  // namespace

void hole_law_findings(const FindingInput& in, Findings& out) {
  const auto residuals = residual_by_diameter(in.estimates);
  const auto n = static_cast<Eigen::Index>(residuals.size());
  if (n < fewest_diameters) return;
  Eigen::VectorXd d(n), y(n);
  Eigen::Index i = 0;
  for (const auto& [diameter, residual] : residuals) {
    d[i] = diameter;
    y[i++] = residual;
  }
  Eigen::MatrixXd design(n, 3);
  design.col(0).setOnes();
  design.col(1) = d.cwiseInverse();
  design.col(2) = d.cwiseInverse().cwiseAbs2();

  // First: a share of the law itself is left in the residuals, so the constants that were fitted are held back (by a
  // prior, or by pegs). Then: a bend that the law has no term for.
  const Pattern held = pattern(design.leftCols(2), 0, y, d);
  const Pattern bent = pattern(design, 2, y, d);
  if (!worth_telling(held) && !worth_telling(bent)) return unusual_growth(in, residuals, out);
  const bool is_held =
      worth_telling(held) && (!worth_telling(bent) || std::abs(held.worst_mm) >= std::abs(bent.worst_mm));
  const Pattern& p = is_held ? held : bent;
  out.push_back(
      {"hole-law", Severity::know,
       filled(p.worst_mm < 0
                  ? tr("These holes do not follow the usual law of closing: at Ø {} they come out {} smaller than it "
                       "says.")
                  : tr("These holes do not follow the usual law of closing: at Ø {} they come out {} larger than it "
                       "says."),
              said_shortest(p.worst_at_mm), mm(p.worst_mm)),
       said("{}; {} diameters of {} to {}",
            is_held ? tr("what the fit leaves over still rises and falls with 1/d: small holes close more than is "
                         "usual for this kind of printer")
                    : tr("what the fit leaves over bends with 1/d, more than its scatter explains"),
            n, length(d[0]), length(d[n - 1])),
       tr("for a hole that matters, print that diameter itself and draw it by its own reading; do not trust sizes "
          "between or beyond the measured ones")});
}

}  // namespace fitwright
