#include "design/relief.hpp"

#include <cmath>

namespace fitwright {

int relief_layers(const Layering& layering) { return static_cast<int>(std::ceil(relief_mm / layering.layer_mm)); }

double relief_inset_mm(const Layering& layering, int layer) {
  const int left = relief_layers(layering) - layer;
  return left > 0 ? left * layering.layer_mm : 0;
}

void cut_relief(LayerStack& stack, const Layering& layering, const Region& outline, const Region* only) {
  for (int layer = 0; layer < relief_layers(layering); ++layer) {
    Region strip = subtract(outline, grow(outline, -nm(relief_inset_mm(layering, layer))));
    if (only) strip = intersect(strip, *only);
    stack.cut(layer, layer + 1, std::move(strip));
  }
}

}  // namespace fitwright
