#include "model/separation.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "stats/rank.hpp"

namespace fitwright {
namespace {

bool holds(const std::vector<Term>& terms, Term wanted) {
  return std::find(terms.begin(), terms.end(), wanted) != terms.end();
}

void join(std::string& text, const std::string& more) {
  if (!text.empty()) text += "; ";
  text += more;
}

/// Why the members of a group cannot be told apart, and what would do it.
void explain(const OpenGroup& group, NotSeparable& out) {
  const auto& t = group.terms;
  const bool zero = holds(t, Term::zero), edge = holds(t, Term::edge), inside = holds(t, Term::inside);
  const bool scale = holds(t, Term::scale_x) || holds(t, Term::scale_y);
  if (scale && edge) {
    join(out.because,
         tr("with one length an axis, an error in proportion to length and one at the edges look the same"));
    join(out.would_need, tr("a second, much longer length on each axis"));
  } else if (scale && group.block != Block::lengths) {
    join(out.because, tr("no length was read along an axis whose scale these sizes share"));
    join(out.would_need, tr("outer lengths along X and Y of the same copies"));
  } else if (scale) {
    join(out.because, tr("the readings hold too few lengths along an axis"));
    join(out.would_need, tr("a short and a long outer length on each axis"));
  }
  if (zero && edge && !inside) {
    join(out.because, tr("an outside length shows only twice the edge growth plus what the caliper reads when closed"));
    join(out.would_need, tr("the caliper's reading with its jaws closed, a steel gauge, or slots beside the outsides"));
  } else if (inside) {
    join(out.because, edge && zero
                          ? tr("outsides and slots give two offsets for three unknowns: edge growth, caliper zero "
                               "and the extra of the inside jaws")
                          : tr("slots and holes show the extra of the inside jaws only together with the rest"));
    join(out.would_need, zero ? tr("the caliper's reading with its jaws closed or a steel gauge")
                              : tr("a steel ring read with the inside jaws"));
  } else if (zero && !edge) {
    join(out.because, tr("the caliper's zero adds to every one of these readings alike"));
    join(out.would_need, tr("the caliper's reading with its jaws closed, or a steel gauge"));
  } else if (edge && !zero && !scale) {
    join(out.because,
         tr("edge growth was not seen on flat faces, and it moves these sizes just as their own term does"));
    join(out.would_need, tr("outer lengths and slots of the same copies"));
  }
  if (holds(t, Term::jaw_flat_term)) {
    join(out.because, tr("the flats of the inside jaws make small holes read low in the same way as holes close"));
    join(out.would_need, tr("a steel ring of 4 mm or less, or graded shanks tried in holes"));
  } else if (holds(t, Term::hole_c1) && holds(t, Term::hole_c0) && !edge && !scale) {
    join(out.because, tr("with one hole diameter its two closing terms look the same"));
    join(out.would_need, tr("holes of several diameters"));
  } else if (holds(t, Term::holeh_c1) && holds(t, Term::holeh_c0) && !scale) {
    join(out.because, tr("with one lying hole diameter its two closing terms look the same"));
    join(out.would_need, tr("lying holes of several diameters"));
  }
  if (holds(t, Term::peg_p0) && holds(t, Term::peg_p1) && !edge && !scale) {
    join(out.because, tr("with one peg diameter its two terms look the same"));
    join(out.would_need, tr("pegs of several diameters"));
  }
  if (holds(t, Term::skew)) {
    join(out.because, tr("one diagonal alone shows its shear only together with scale and corners"));
    join(out.would_need, tr("the other diagonal, + or -, of the same rectangle"));
  }
  if (holds(t, Term::scale_z)) {
    join(out.because, tr("with one height, scale and first layer look the same"));
    join(out.would_need, tr("a low and a high height"));
  }
  if (out.because.empty()) {
    out.because = tr("no reading tells one from the other");
    out.would_need = tr("readings of other kinds or sizes of features");
  }
}

/// Name of half the squared jaw flat in sums and priors.
constexpr const char* flat_name = "jaw_flat_squared_half_mm2";

/// "2*edge_growth_mm + caliper_zero_mm": positive terms first, each in reporting order.
std::string expression(const Eigen::VectorXd& c) {
  std::string text;
  for (const double sign : {1.0, -1.0})
    for (Term t : reported_terms()) {
      const double k = c[index(t)] * sign;
      if (k <= 0) continue;
      text += sign < 0 ? " - " : text.empty() ? "" : " + ";
      if (k != 1) text += shortest(k) + "*";
      text += name_of(t);
    }
  const double flat = c[index(Term::jaw_flat_term)];  // only ever beside a hole's own 1/d term, in the same measure
  if (flat != 0)
    text +=
        std::string(flat < 0 ? " - " : " + ") + (std::abs(flat) == 1 ? "" : shortest(std::abs(flat)) + "*") + flat_name;
  return text;
}

/// Whether `row` adds a dimension to the rows of `known`.
bool is_independent(const Eigen::MatrixXd& known, const Eigen::VectorXd& row) {
  Eigen::MatrixXd all(known.rows() + 1, known.cols());
  all << known, row.transpose();
  return separability(all).rank > known.rows();
}

}  // namespace

const std::vector<Term>& reported_terms() {
  static const std::vector<Term> order{Term::scale_x, Term::scale_y, Term::scale_z,  Term::edge,
                                       Term::z0,      Term::flare,   Term::zero,     Term::inside,
                                       Term::hole_c0, Term::hole_c1, Term::holeh_c0, Term::holeh_c1,
                                       Term::peg_p0,  Term::peg_p1,  Term::skew,     Term::wall};
  return order;
}

std::vector<NotSeparable> not_separable(const Structure& structure) {
  std::vector<NotSeparable> out;
  for (const OpenGroup& group : structure.groups) {
    NotSeparable entry;
    for (Term t : reported_terms())
      if (holds(group.terms, t)) entry.parameters.emplace_back(name_of(t));
    if (entry.parameters.empty()) continue;
    explain(group, entry);
    out.push_back(std::move(entry));
  }
  return out;
}

std::vector<Combination> combinations(const Structure& structure, const Rows& read, const Values& values,
                                      const Eigen::MatrixXd& covariance) {
  const Rows rows = structural(read);
  std::vector<Combination> out;
  for (const OpenGroup& group : structure.groups) {
    Eigen::MatrixXd found(0, term_count);
    for (Eigen::Index i : rows.of(group.block)) {
      Eigen::VectorXd c = Eigen::VectorXd::Zero(term_count);
      for (Term t : group.terms) c[index(t)] = rows.design(i, index(t));
      // An equation that also depends on a doubtful term outside the group shows no sum of the group alone.
      const Eigen::VectorXd across = structure.unresolved.directions.transpose() * c;
      if (c[index(Term::diagonal_common)] != 0) continue;  // a nuisance without a name
      if ((c.array() != 0).count() < 2 || across.cwiseAbs().maxCoeff() > 1e-6 * c.cwiseAbs().maxCoeff()) continue;
      if (!is_independent(found, c)) continue;
      found.conservativeResize(found.rows() + 1, Eigen::NoChange);
      found.row(found.rows() - 1) = c.transpose();
      if ((c.array() <= 0).all()) c = -c;
      const double largest = c.cwiseAbs().maxCoeff();
      if ((c.array() == 0 || c.array().abs() == largest).all()) c /= largest;  // all alike: a plain sum
      Combination sum{expression(c), c.dot(values), std::sqrt(std::max(0.0, c.dot(covariance * c)))};
      const bool told = std::any_of(out.begin(), out.end(), [&](const Combination& o) { return o.expr == sum.expr; });
      if (!told) out.push_back(std::move(sum));
    }
  }
  return out;
}

}  // namespace fitwright
