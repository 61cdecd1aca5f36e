#include "model/estimates.hpp"

namespace fitwright {
namespace {

/// Position of a parameter, or -1.
int position(const std::vector<Parameter>& parameters, const std::string& wanted) {
  for (std::size_t i = 0; i < parameters.size(); ++i)
    if (parameters[i].name == wanted) return static_cast<int>(i);
  return -1;
}

}  // namespace

const Parameter* Estimates::find(const std::string& parameter) const {
  const int i = position(parameters, parameter);
  return i < 0 ? nullptr : &parameters[static_cast<std::size_t>(i)];
}

double Estimates::value_or(const std::string& parameter, double otherwise) const {
  const Parameter* p = find(parameter);
  return p ? p->value : otherwise;
}

double Estimates::cov(const std::string& a, const std::string& b) const {
  const int i = position(parameters, a);
  const int j = position(parameters, b);
  return i < 0 || j < 0 ? 0.0 : covariance(i, j);
}

}  // namespace fitwright
