#pragma once
// Readings and definitions that the tests of mixed models share.

#include <Eigen/Dense>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "reference/stats/lre.hpp"
#include "stats/intervals.hpp"
#include "stats/reml.hpp"

namespace fitwright::reml_test {

using Eigen::MatrixXd;
using Eigen::VectorXd;

inline constexpr double exact = 1e-9;  // relative, against closed forms in exact arithmetic
inline constexpr double given = 1e-7;  // check values are given to eight significant digits
inline const double log_two_pi = std::log(2 * std::acos(-1.0));

inline std::vector<int> levels(const std::vector<std::string>& names) {
  std::map<std::string, int> seen;
  std::vector<int> out;
  for (const std::string& name : names)
    out.push_back(seen.try_emplace(name, static_cast<int>(seen.size())).first->second);
  return out;
}

inline VectorXd column(const reference::Table& data, const std::string& name) {
  const auto values = data.numbers(name);
  return Eigen::Map<const VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

inline VarianceComponent residual(Eigen::Index n) { return diagonal_component("residual", VectorXd::Ones(n)); }

inline VectorXd vec(std::initializer_list<double> values) {
  VectorXd v(static_cast<Eigen::Index>(values.size()));
  std::copy(values.begin(), values.end(), v.data());
  return v;
}

/// Deviations of eight features of four lengths, read one to four times.
struct Ladder {
  std::vector<int> feature = {0, 0, 0, 1, 1, 2, 2, 2, 2, 3, 3, 3, 4, 5, 5, 5, 6, 6, 7, 7, 7};
  MatrixXd design{21, 2};
  VectorXd y =
      vec({.10, .11, .09, .17, .15, .21, .19, .18, .20, .25, .22, .24, .06, .13, .11, .12, .20, .17, .31, .28, .30});
  std::vector<VarianceComponent> components = {grouped_component("feature", feature), residual(21)};
  Ladder() {
    design.col(0).setOnes();
    design.col(1) = vec({10, 10, 10, 20, 20, 40, 40, 40, 40, 80, 80, 80, 10, 20, 20, 20, 40, 40, 80, 80, 80});
  }
};

/// V and the restricted likelihood from their definitions, n x n.
struct Plain {
  MatrixXd v, v_inverse, phi;
  VectorXd b;
  double log_likelihood = 0;
  Plain(const MatrixXd& x, const VectorXd& y, const std::vector<VarianceComponent>& parts, const VectorXd& theta) {
    v = MatrixXd::Zero(y.size(), y.size());
    for (std::size_t k = 0; k < parts.size(); ++k) v += theta(static_cast<Eigen::Index>(k)) * matrix(parts[k]);
    v_inverse = v.inverse();
    phi = (x.transpose() * v_inverse * x).inverse();
    b = phi * x.transpose() * v_inverse * y;
    const VectorXd e = y - x * b;
    log_likelihood = -0.5 * (std::log(v.determinant()) - std::log(phi.determinant()) + e.dot(v_inverse * e));
  }
  static MatrixXd matrix(const VarianceComponent& c) {
    return c.factor.size() > 0 ? MatrixXd(c.factor * c.factor.transpose()) : MatrixXd(c.diagonal.asDiagonal());
  }
};

struct Random {
  std::mt19937_64 bits;
  explicit Random(unsigned seed) : bits(seed) {}
  double uniform() { return (static_cast<double>(bits() >> 11) + 0.5) * 0x1p-53; }
  double normal() { return normal_quantile(uniform()); }
  VectorXd normals(Eigen::Index n) {
    return VectorXd::NullaryExpr(n, [this] { return normal(); });
  }
};

/// Features x copies with some cells missing: scale and edge growth, feature, copy edge, copy scale, cell, reading.
struct Print {
  MatrixXd design;
  VectorXd y;
  std::vector<VarianceComponent> components;
  explicit Print(unsigned seed, int features = 14, int copies = 3, double missing = 0.25) {
    Random random(seed);
    std::vector<int> feature, copy;
    std::vector<double> length, side, weight;
    const VectorXd f = 0.03 * random.normals(features), edge = 0.02 * random.normals(copies),
                   scale = 0.0006 * random.normals(copies);
    std::vector<double> values;
    for (int i = 0; i < features; ++i)
      for (int c = 0; c < copies; ++c) {
        if (random.uniform() < missing) continue;
        const double nominal = 10.0 * (1 << (i % 4));
        const double sign = i % 3 == 2 ? -2 : 2;
        const int readings = 1 + (i + c) % 3;
        feature.push_back(i);
        copy.push_back(c);
        length.push_back(nominal);
        side.push_back(sign);
        weight.push_back(1.0 / readings);
        values.push_back(0.08 * sign - 0.003 * nominal + f(i) + sign * edge(c) + scale(c) * nominal +
                         0.02 * random.normal() + 0.015 / std::sqrt(readings) * random.normal());
      }
    const auto n = static_cast<Eigen::Index>(values.size());
    const auto as_vector = [n](const std::vector<double>& v) {
      return VectorXd(Eigen::Map<const VectorXd>(v.data(), n));
    };
    y = as_vector(values);
    design.resize(n, 3);
    design << as_vector(length), as_vector(side), VectorXd::Ones(n);
    components = {grouped_component("feature", feature), grouped_component("copy edge", copy, as_vector(side)),
                  grouped_component("copy scale", copy, as_vector(length)), residual(n),
                  diagonal_component("reading", as_vector(weight))};
  }
};

}  // namespace fitwright::reml_test
