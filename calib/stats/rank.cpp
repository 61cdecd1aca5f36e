#include "stats/rank.hpp"

#include <Eigen/LU>
#include <Eigen/QR>
#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace fitwright {
namespace {

using Index = Eigen::Index;

/// Entries of a null vector (scaled units, length about 1) below this are rounding: the vectors are good to about
/// 1e-16 over the tolerance of the rank.
constexpr double null_entry_zero = 1e-7;

/// Relative closeness at which a ratio of coefficients counts as a whole number.
constexpr double whole_number_closeness = 1e-8;

/// "Small" whole numbers: largest multiplier tried, and largest coefficient accepted. A shared length of 12.5 mm
/// becomes 25 : 4 : 2 with these, a length of 20.16 stays as it is.
constexpr int largest_multiplier = 24;
constexpr double largest_whole_number = 1000;

/// Choices of pivots looked at for the simplest combinations; a group that has more gets those of the echelon form.
constexpr double most_choices = 5000;

/// Scales a vector so that its entries are small whole numbers if they can be (else the smallest is 1), the first
/// that is not zero positive. True when they are whole.
bool simplify(Eigen::VectorXd& v) {
  const double largest = v.cwiseAbs().maxCoeff();
  if (!(largest > 0)) return true;
  double smallest = largest;
  double sign = 0;
  for (double& entry : v) {
    if (std::fabs(entry) <= null_entry_zero * null_entry_zero * largest) entry = 0;
    if (entry == 0) continue;
    smallest = std::min(smallest, std::fabs(entry));
    if (sign == 0) sign = entry > 0 ? 1 : -1;
  }
  v *= sign / smallest;
  for (int m = 1; m <= largest_multiplier; ++m) {
    const Eigen::VectorXd whole = (v * m).array().round();
    const bool close =
        ((v * m - whole).cwiseAbs().array() <= whole_number_closeness * (v * m).cwiseAbs().array()).all();
    if (close && whole.cwiseAbs().maxCoeff() <= largest_whole_number) {
      v = whole;
      return true;
    }
  }
  return false;
}

/// Brings the rows of `m` to reduced echelon form from the right: every pivot is the last entry of its row, so that
/// parameters named first are kept as the ones that explain.
void reduce_from_the_right(Eigen::MatrixXd& m) {
  Index done = 0;
  for (Index column = m.cols() - 1; column >= 0 && done < m.rows(); --column) {
    auto rest = m.bottomRows(m.rows() - done);
    Index at = 0;
    const double pivot = rest.col(column).cwiseAbs().maxCoeff(&at);
    if (pivot <= null_entry_zero * rest.cwiseAbs().maxCoeff()) {
      rest.col(column).setZero();
      continue;
    }
    m.row(done).swap(m.row(done + at));
    m.row(done) /= m(done, column);
    for (Index i = 0; i < m.rows(); ++i) {
      if (i == done) continue;
      m.row(i) -= m(i, column) * m.row(done);
      m(i, column) = 0;
    }
    ++done;
  }
  for (Index i = 0; i < m.rows(); ++i) {
    const double largest = m.row(i).cwiseAbs().maxCoeff();
    for (Index j = 0; j < m.cols(); ++j)
      if (std::fabs(m(i, j)) <= null_entry_zero * largest) m(i, j) = 0;
  }
}

/// Connected groups of parameters that share null vectors.
std::vector<std::vector<int>> groups_of(const Eigen::MatrixXd& null_space) {
  const Index p = null_space.rows();
  std::vector<int> leader(static_cast<std::size_t>(p));
  std::iota(leader.begin(), leader.end(), 0);
  const auto find = [&](int i) {
    while (leader[static_cast<std::size_t>(i)] != i) i = leader[static_cast<std::size_t>(i)];
    return i;
  };
  for (Index k = 0; k < null_space.cols(); ++k) {
    int first = -1;
    for (int i = 0; i < p; ++i) {
      if (null_space(i, k) == 0) continue;
      const int mine = find(i);
      if (first < 0) first = mine;
      const auto [low, high] = std::minmax(first, mine);
      leader[static_cast<std::size_t>(high)] = low;
      first = low;
    }
  }
  std::vector<std::vector<int>> by_leader(static_cast<std::size_t>(p));
  for (int i = 0; i < p; ++i)
    if (null_space.row(i).any()) by_leader[static_cast<std::size_t>(find(i))].push_back(i);
  std::erase_if(by_leader, [](const auto& group) { return group.empty(); });
  return by_leader;
}

/// The combinations of a group for one choice of pivots: each other member with just as much of the pivots as makes
/// it blind to every null direction. `null` is members x k. Empty when the pivots do not determine the directions.
struct Basis {
  std::vector<Eigen::VectorXd> combinations;  // over the members
  double cost = std::numeric_limits<double>::infinity();
};

Basis basis_for(const Eigen::MatrixXd& null, const std::vector<int>& pivots) {
  Basis basis;
  const Eigen::VectorXd scale = null.rowwise().lpNorm<Eigen::Infinity>();
  const Eigen::MatrixXd scaled = scale.cwiseInverse().asDiagonal() * null;
  Eigen::FullPivLU<Eigen::MatrixXd> lu(Eigen::MatrixXd(scaled(pivots, Eigen::all)));
  lu.setThreshold(null_entry_zero);
  if (!lu.isInvertible()) return basis;
  const Eigen::MatrixXd inverse = lu.inverse();
  // Fewest parameters first, whole numbers next, small ones last.
  constexpr double per_parameter = 1e7;
  constexpr double not_whole = 1e5;
  basis.cost = 0;
  for (int j = 0; j < null.rows(); ++j) {
    if (std::find(pivots.begin(), pivots.end(), j) != pivots.end()) continue;
    Eigen::VectorXd c = Eigen::VectorXd::Zero(null.rows());
    const Eigen::RowVectorXd of_pivots = -scaled.row(j) * inverse;
    c(j) = 1;
    for (std::size_t k = 0; k < pivots.size(); ++k) {
      const double entry = of_pivots(static_cast<Index>(k));
      c(pivots[k]) = std::fabs(entry) <= null_entry_zero ? 0 : entry;
    }
    c = c.cwiseQuotient(scale);
    const bool whole = simplify(c);
    basis.cost += per_parameter * static_cast<double>((c.array() != 0).count()) + (whole ? c.lpNorm<1>() : not_whole);
    basis.combinations.push_back(std::move(c));
  }
  return basis;
}

double choices(std::size_t n, std::size_t k) {
  double c = 1;
  for (std::size_t i = 0; i < k; ++i) c *= static_cast<double>(n - i) / static_cast<double>(i + 1);
  return c;
}

/// The next k-subset of 0..n-1 in lexicographic order; false after the last.
bool next_subset(std::vector<int>& subset, int n) {
  const int k = static_cast<int>(subset.size());
  int i = k - 1;
  while (i >= 0 && subset[static_cast<std::size_t>(i)] == n - k + i) --i;
  if (i < 0) return false;
  ++subset[static_cast<std::size_t>(i)];
  for (int j = i + 1; j < k; ++j) subset[static_cast<std::size_t>(j)] = subset[static_cast<std::size_t>(j - 1)] + 1;
  return true;
}

}  // namespace

Separability separability(const Eigen::MatrixXd& design, double tolerance) {
  const Index p = design.cols();
  if (p == 0) throw std::invalid_argument("separability: no columns");
  if (!design.allFinite()) throw std::invalid_argument("separability: a value is not finite");
  Separability s;
  Eigen::VectorXd scale = design.rows() > 0 ? Eigen::VectorXd(design.colwise().norm()) : Eigen::VectorXd::Zero(p);
  scale = (scale.array() > 0).select(scale, 1.0);
  Eigen::MatrixXd x = design * scale.cwiseInverse().asDiagonal();
  if (x.rows() > p) {
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(x);
    x = qr.matrixQR().topRows(p).triangularView<Eigen::Upper>();
  } else if (x.rows() < p) {
    const Index n = x.rows();
    x.conservativeResize(p, p);
    x.bottomRows(p - n).setZero();
  }
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(x, Eigen::ComputeFullV | Eigen::ComputeFullU);
  const Eigen::VectorXd& values = svd.singularValues();
  while (s.rank < p && values(s.rank) > 0 && values(s.rank) > tolerance * values(0)) ++s.rank;
  if (s.rank > 0) s.condition = values(0) / values(s.rank - 1);

  Eigen::MatrixXd null = svd.matrixV().rightCols(p - s.rank).transpose();
  if (null.rows() > 0) reduce_from_the_right(null);
  s.null_space = (null * scale.cwiseInverse().asDiagonal()).transpose();
  for (Index k = 0; k < s.null_space.cols(); ++k) {
    Eigen::VectorXd column = s.null_space.col(k);
    simplify(column);
    s.null_space.col(k) = column;
  }
  s.groups = groups_of(s.null_space);
  for (Index i = 0; i < p; ++i) s.estimable.push_back(!s.null_space.row(i).any());
  return s;
}

std::vector<Eigen::VectorXd> estimable_combinations(const Separability& s, std::size_t group) {
  const std::vector<int>& members = s.groups.at(group);
  std::vector<Index> directions;
  for (Index k = 0; k < s.null_space.cols(); ++k)
    if (s.null_space.col(k)(members).any()) directions.push_back(k);
  const Eigen::MatrixXd null = s.null_space(members, directions);

  std::vector<int> pivots;  // of the echelon form: the last member of each direction
  for (Index k = 0; k < null.cols(); ++k)
    for (Index i = null.rows() - 1; i >= 0; --i)
      if (null(i, k) != 0) {
        pivots.push_back(static_cast<int>(i));
        break;
      }
  Basis best = basis_for(null, pivots);
  if (choices(members.size(), directions.size()) <= most_choices) {
    std::vector<int> subset(directions.size());
    std::iota(subset.begin(), subset.end(), 0);
    do {
      Basis basis = basis_for(null, subset);
      if (basis.cost < best.cost) best = std::move(basis);
    } while (next_subset(subset, static_cast<int>(members.size())));
  }

  std::vector<Eigen::VectorXd> out;
  for (const Eigen::VectorXd& c : best.combinations) {
    Eigen::VectorXd full = Eigen::VectorXd::Zero(s.null_space.rows());
    full(members) = c;
    out.push_back(std::move(full));
  }
  return out;
}

bool is_estimable(const Separability& s, const Eigen::VectorXd& contrast) {
  for (Index k = 0; k < s.null_space.cols(); ++k) {
    const Eigen::VectorXd product = s.null_space.col(k).cwiseProduct(contrast);
    if (std::fabs(product.sum()) > null_entry_zero * product.cwiseAbs().maxCoeff()) return false;
  }
  return true;
}

}  // namespace fitwright
