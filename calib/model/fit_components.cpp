#include "model/fit.hpp"
namespace fitwright {
Fit fit_components(const FitInput& in) { return fit_balanced(in, match(in.cells)); }
}
