#pragma once
// Relief at the bottom: the first layers stand back from a measured face, so that their flare stays behind it.
//
// The first layer is pressed on the bed and comes out wider by the flare, mostly 0.1 to 0.3 mm an edge (common
// practice, no source). Where a face is measured, the first layer is drawn `relief_mm` or a little more behind it and
// each layer after it comes out by one layer height: steps of 45 degrees, which print without support.

#include "design/layers.hpp"

namespace fitwright {

/// How far the first layer stands back at least. Above the flare of badly set first layers.
inline constexpr double relief_mm = 0.55;

/// Layers that stand back; above them the face is at its drawn place.
int relief_layers(const Layering& layering);

/// How far layer `layer` (0 = first) stands back from the face, mm; 0 from relief_layers() on.
double relief_inset_mm(const Layering& layering, int layer);

/// Cuts the relief around `outline` (outer and inner edges alike) from the first layers of what is drawn so far:
/// whatever lies within the inset of the outline's edge goes. `only` limits it to places inside that region.
void cut_relief(LayerStack& stack, const Layering& layering, const Region& outline, const Region* only = nullptr);

}  // namespace fitwright
