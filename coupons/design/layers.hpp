#pragma once
// Whole layers: heights of a coupon are numbers of layers, and its solid is drawn layer by layer.

#include <string>
#include <vector>

#include "design/design.hpp"
#include "solid/solid.hpp"

namespace fitwright {

/// Heights at which layers end. Layer 0 is the first, `first_mm` high; the others are `layer_mm` high.
struct Layering {
  double first_mm = 0.2;
  double layer_mm = 0.2;

  /// Height above the bed of the top of `count` layers; 0 for none.
  [[nodiscard]] double height_mm(int count) const;
  /// Height of one layer.
  [[nodiscard]] double thickness_mm(int layer) const { return layer == 0 ? first_mm : layer_mm; }
  /// Fewest layers that together reach `mm`.
  [[nodiscard]] int at_least(double mm) const;
  /// Number of layers, at least one, whose height is nearest to `mm`.
  [[nodiscard]] int nearest(double mm) const;
};

/// The layering that the values of a design ask for.
Layering layering_of(const DesignValues& values);

/// A solid being drawn: upright pieces of whole layers, put on or cut away one after the other.
class LayerStack {
 public:
  explicit LayerStack(const Layering& layering) : layering_(layering) {}

  /// Adds `region` to layers from <= layer < to. Throws std::logic_error unless 0 <= from < to.
  void add(int from, int to, Region region) { put(from, to, std::move(region), false); }
  /// Cuts `region` from layers from <= layer < to.
  void cut(int from, int to, Region region) { put(from, to, std::move(region), true); }

  /// The slabs, neighbours of equal outline joined. Throws std::logic_error when a layer is empty below a full one.
  [[nodiscard]] Solid solid(const std::string& name) const;
  [[nodiscard]] int layers() const;

 private:
  struct Step {
    int from, to;
    Region region;
    bool cut;
  };
  void put(int from, int to, Region region, bool cut);

  Layering layering_;
  std::vector<Step> steps_;
};

}  // namespace fitwright
