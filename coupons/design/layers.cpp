#include "design/layers.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "design/parameters.hpp"

namespace fitwright {
namespace {

/// Heights that differ by less are the same (rounding of sums; far below a nanometre's worth of layers).
constexpr double same_height_mm = 1e-7;

}  // namespace

double Layering::height_mm(int count) const {
  // Whole nanometres, as the solid has them: 25 layers of 0.2 mm are 5 mm, not 5.000000000000001.
  return count <= 0 ? 0 : std::round((first_mm + (count - 1) * layer_mm) * 1e6) / 1e6;
}

int Layering::at_least(double mm) const {
  if (mm <= 0) return 0;
  if (mm <= first_mm + same_height_mm) return 1;
  return 1 + static_cast<int>(std::ceil((mm - first_mm - same_height_mm) / layer_mm));
}

int Layering::nearest(double mm) const {
  return std::max(1, 1 + static_cast<int>(std::floor((mm - first_mm) / layer_mm + 0.5)));
}

Layering layering_of(const DesignValues& values) {
  return {values.at(param::first_layer_height), values.at(param::layer_height)};
}

void LayerStack::put(int from, int to, Region region, bool cut) {
  if (from < 0 || from >= to) throw std::logic_error("LayerStack: a piece needs at least one layer");
  steps_.push_back({from, to, std::move(region), cut});
}

int LayerStack::layers() const {
  int top = 0;
  for (const Step& step : steps_)
    if (!step.cut) top = std::max(top, step.to);
  return top;
}

Solid LayerStack::solid(const std::string& name) const {
  std::set<int> levels{0, layers()};
  for (const Step& step : steps_)
    for (const int level : {step.from, step.to})
      if (level < layers()) levels.insert(level);

  Solid solid{name, {}};
  for (auto low = levels.begin(), high = std::next(low); high != levels.end(); ++low, ++high) {
    Region region;
    for (const Step& step : steps_)
      if (step.from <= *low && *high <= step.to)
        region = step.cut ? subtract(region, step.region) : unite(region, step.region);
    if (region.empty()) throw std::logic_error("LayerStack: nothing in a layer below the top");
    const Slab slab{nm(layering_.height_mm(*low)), nm(layering_.height_mm(*high)), std::move(region)};
    if (!solid.slabs.empty() && solid.slabs.back().region == slab.region)
      solid.slabs.back().top = slab.top;
    else
      solid.slabs.push_back(slab);
  }
  return solid;
}

}  // namespace fitwright
