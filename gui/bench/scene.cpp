#include "bench/scene.hpp"

#include <algorithm>
#include <cmath>

#include "bench/shown.hpp"

namespace fitwright {

std::vector<Tick> nice_ticks(double from, double to, int wanted, bool signs) {
  std::vector<Tick> ticks;
  if (!(to > from) || wanted < 1 || !std::isfinite(to - from)) return ticks;
  const double rough = (to - from) / wanted;
  const int power = static_cast<int>(std::floor(std::log10(rough)));
  const double decade = std::pow(10.0, power);
  const double leading = rough / decade;
  const double step = decade * (leading <= 1 ? 1 : leading <= 2 ? 2 : leading <= 5 ? 5 : 10);
  const int decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
  const double slack = 1e-9 * step;  // rounding must not lose the tick at either end
  const auto first = static_cast<long>(std::ceil((from - slack) / step));
  const auto last = static_cast<long>(std::floor((to + slack) / step));
  for (long i = first; i <= last; ++i) {
    const double at = static_cast<double>(i) * step;
    ticks.push_back({at, signs ? shown_signed(at, decimals) : shown(at, decimals)});
  }
  return ticks;
}

}  // namespace fitwright
