// What blocks, slots, holes and one cube can tell apart.

#include "stats/rank.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace fitwright;

namespace {

Eigen::MatrixXd rows(std::initializer_list<std::initializer_list<double>> values) {
  Eigen::MatrixXd m(static_cast<Eigen::Index>(values.size()), static_cast<Eigen::Index>(values.begin()->size()));
  Eigen::Index i = 0;
  for (const auto& row : values) {
    Eigen::Index j = 0;
    for (const double v : row) m(i, j++) = v;
    ++i;
  }
  return m;
}

std::vector<std::vector<double>> combinations_of(const Separability& s, std::size_t group) {
  std::vector<std::vector<double>> out;
  for (const Eigen::VectorXd& c : estimable_combinations(s, group)) out.emplace_back(c.data(), c.data() + c.size());
  return out;
}

using Groups = std::vector<std::vector<int>>;
using Combinations = std::vector<std::vector<double>>;

void check_consistent(const Eigen::MatrixXd& design, const Separability& s) {
  CHECK(s.null_space.cols() == design.cols() - s.rank);
  if (s.null_space.cols() > 0) CHECK((design * s.null_space).norm() <= 1e-9 * design.norm() * s.null_space.norm());
  Eigen::Index named = 0;
  for (std::size_t g = 0; g < s.groups.size(); ++g) {
    const auto combinations = estimable_combinations(s, g);
    Eigen::MatrixXd stacked(static_cast<Eigen::Index>(combinations.size()), design.cols());
    for (std::size_t k = 0; k < combinations.size(); ++k) {
      CHECK(is_estimable(s, combinations[k]));
      stacked.row(static_cast<Eigen::Index>(k)) = combinations[k].transpose();
    }
    if (!combinations.empty()) CHECK(separability(stacked).rank == stacked.rows());
    named += static_cast<Eigen::Index>(s.groups[g].size()) - stacked.rows();
  }
  CHECK(named == s.null_space.cols());
}

}  // namespace

TEST_CASE("outer lengths alone: scale is seen, edge growth and zero only as 2 e + o") {
  const Eigen::MatrixXd design = rows({{10, 2, 1}, {20, 2, 1}, {40, 2, 1}, {80, 2, 1}});
  const Separability s = separability(design);
  CHECK(s.rank == 2);
  CHECK(s.estimable == std::vector<bool>{true, false, false});
  CHECK(s.groups == Groups{{1, 2}});
  CHECK(combinations_of(s, 0) == Combinations{{0, 2, 1}});
  CHECK(s.null_space.col(0) == Eigen::Vector3d(0, 1, -2));
  check_consistent(design, s);
}

TEST_CASE("blocks and slots: all three are seen") {
  const Eigen::MatrixXd design = rows({{10, 2, 1}, {80, 2, 1}, {10, -2, 1}, {40, -2, 1}});
  const Separability s = separability(design);
  CHECK(s.rank == 3);
  CHECK(s.groups.empty());
  CHECK(s.estimable == std::vector<bool>{true, true, true});
  CHECK(s.null_space.cols() == 0);
  CHECK(s.condition > 1);
}

TEST_CASE("one block and one slot of equal length: edge growth alone") {
  const Eigen::MatrixXd design = rows({{40, 2, 1}, {40, -2, 1}});
  const Separability s = separability(design);
  CHECK(s.rank == 2);
  CHECK(s.estimable == std::vector<bool>{false, true, false});
  CHECK(s.groups == Groups{{0, 2}});
  CHECK(combinations_of(s, 0) == Combinations{{40, 0, 1}});
}

TEST_CASE("inside jaws with their own bias: two intercepts for three unknowns") {
  // scale, edge growth, zero, inside bias
  const Eigen::MatrixXd design = rows({{10, 2, 1, 0}, {80, 2, 1, 0}, {10, -2, 1, 1}, {40, -2, 1, 1}});
  const Separability s = separability(design);
  CHECK(s.rank == 3);
  CHECK(s.estimable == std::vector<bool>{true, false, false, false});
  CHECK(s.groups == Groups{{1, 2, 3}});
  CHECK(combinations_of(s, 0) == Combinations{{0, 2, 1, 0}, {0, 0, 2, 1}});
  check_consistent(design, s);
}

TEST_CASE("a 20 mm cube: five unknowns, three readings, nothing alone") {
  // scale x, y, z, edge growth, zero
  const Eigen::MatrixXd design = rows({{20, 0, 0, 2, 1}, {0, 20, 0, 2, 1}, {0, 0, 20, 0, 1}});
  const Separability s = separability(design);
  CHECK(s.rank == 3);
  CHECK(s.estimable == std::vector<bool>(5, false));
  CHECK(s.groups == Groups{{0, 1, 2, 3, 4}});
  const auto combinations = combinations_of(s, 0);
  CHECK(combinations.size() == 3);
  CHECK(std::find(combinations.begin(), combinations.end(), std::vector<double>{0, 0, 20, 0, 1}) != combinations.end());
  CHECK(std::find(combinations.begin(), combinations.end(), std::vector<double>{1, -1, 0, 0, 0}) != combinations.end());
  check_consistent(design, s);
}

TEST_CASE("two groups that have nothing to do with each other stay apart") {
  // edge growth + zero; hole 1/d term + jaw flat term; scale alone
  Eigen::MatrixXd design(8, 5);
  design.setZero();
  const double diameters[] = {2, 3, 5, 10};
  for (int i = 0; i < 4; ++i) design.row(i) << 10.0 * (1 << i), 2, 1, 0, 0;
  for (int i = 0; i < 4; ++i) design.row(4 + i) << diameters[i], 2, 1, -1 / diameters[i], -1 / diameters[i];
  const Separability s = separability(design);
  CHECK(s.rank == 3);
  CHECK(s.groups == Groups{{1, 2}, {3, 4}});
  CHECK(combinations_of(s, 1) == Combinations{{0, 0, 0, 1, 1}});
  check_consistent(design, s);
}

TEST_CASE("printer against material: the level is never seen") {
  // m0 m1 k0 k1 k2, all six cells
  const Eigen::MatrixXd full = rows(
      {{1, 0, -1, 0, 0}, {1, 0, 0, -1, 0}, {1, 0, 0, 0, -1}, {0, 1, -1, 0, 0}, {0, 1, 0, -1, 0}, {0, 1, 0, 0, -1}});
  const Separability s = separability(full);
  CHECK(s.rank == 4);
  CHECK(s.groups == Groups{{0, 1, 2, 3, 4}});
  CHECK(s.null_space.col(0) == Eigen::VectorXd::Ones(5));
  CHECK(is_estimable(s, Eigen::VectorXd(full.row(0) - full.row(3))));  // m0 - m1
  CHECK_FALSE(is_estimable(s, Eigen::VectorXd::Unit(5, 0)));
  // Two printers, each with its own material: two tables that do not touch.
  const Separability diagonal = separability(rows({{1, 0, -1, 0}, {0, 1, 0, -1}}));
  CHECK(diagonal.rank == 2);
  CHECK(diagonal.groups == Groups{{0, 2}, {1, 3}});
}

TEST_CASE("a parameter that no reading depends on is a group of its own") {
  const Separability s = separability(rows({{10, 0}, {20, 0}}));
  CHECK(s.rank == 1);
  CHECK(s.estimable == std::vector<bool>{true, false});
  CHECK(s.groups == Groups{{1}});
  CHECK(estimable_combinations(s, 0).empty());
  const Separability none = separability(Eigen::MatrixXd(0, 2));
  CHECK(none.rank == 0);
  CHECK(none.groups == Groups{{0}, {1}});
  CHECK_THROWS_AS(separability(Eigen::MatrixXd(3, 0)), std::invalid_argument);
}

TEST_CASE("lengths that are not whole keep their own ratio") {
  const Separability s = separability(rows({{20.16, 2}, {20.16, 2}}));
  const auto combinations = estimable_combinations(s, 0);
  REQUIRE(combinations.size() == 1);
  CHECK(combinations[0](0) / combinations[0](1) == Approx(10.08).epsilon(1e-12));
}

TEST_CASE(
    "rank and groups do not depend on units or on the order of rows, nor need the dependence be exact in binary") {
  std::mt19937_64 bits(7);
  const auto next = [&] { return static_cast<double>(bits() >> 11) * 0x1p-53 - 0.5; };
  for (int trial = 0; trial < 20; ++trial) {
    Eigen::MatrixXd design = Eigen::MatrixXd::NullaryExpr(30, 6, next);
    design.col(3) = 0.1 * design.col(0) - 0.7 * design.col(1);
    design.col(5) = design.col(4) / 3;
    const Separability s = separability(design);
    CHECK(s.rank == 4);
    CHECK(s.groups == Groups{{0, 1, 3}, {4, 5}});
    CHECK(s.null_space.col(0).cwiseProduct(s.null_space.col(1)).isZero());
    check_consistent(design, s);
    Eigen::VectorXd units(6);
    units << 1e-6, 1, 1e3, 1e-3, 25.4, 1e6;
    const Separability rescaled = separability(Eigen::MatrixXd((design * units.asDiagonal()).colwise().reverse()));
    CHECK(rescaled.rank == s.rank);
    CHECK(rescaled.groups == s.groups);
    CHECK(rescaled.condition == Approx(s.condition).epsilon(1e-9));
  }
}
