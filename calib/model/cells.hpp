#pragma once
// From single readings to places on copies: who is measured where, and the mean of the readings that count.

#include <map>
#include <string>
#include <vector>

#include "reading/reading.hpp"

namespace fitwright {

/// One place as the machine sees it (turned copies relabelled): what the error model needs of it.
struct MachinePlace {
  Kind kind = Kind::outer;
  Axis axis = Axis::x;
  double nominal_mm = 0;
  double side_a_mm = 0, side_b_mm = 0;  ///< diagonals: sides along the machine's X and Y
  int facets = 0;
  double step_mm = 0.1;  ///< pins
};

/// The readings of one feature on one copy.
struct PlaceCell {
  MachinePlace place;
  Feature feature;  ///< as engraved
  int copy = 1;
  int turned_deg = 0;
  std::vector<std::size_t> rows;  ///< into ReadingSet::rows
  double mean_mm = 0;
  std::string effect_key;  ///< cells with equal keys share their feature effect: id and how the copy lay
};

/// Printed places (no steel) from the rows whose `counts` flag is set, in the order met.
std::vector<PlaceCell> cells_of(const ReadingSet& set, const std::vector<bool>& counts);

/// Cells of the same machine axis, kind, nominal and place on different copies: one row of the balanced table.
/// Within a copy, equal (axis, kind, nominal) are told apart by their order of feature_id.
struct MatchedFeature {
  std::vector<std::size_t> cells;  ///< into the cell list, one per copy in ascending copy order; npos where missing
};
inline constexpr std::size_t npos_cell = static_cast<std::size_t>(-1);

struct MatchedTable {
  std::vector<int> copies;               ///< ascending
  std::vector<MatchedFeature> features;  ///< in order of first appearance
  bool complete = true;                  ///< no cell missing
  bool one_way_to_lie = true;            ///< all copies lay alike on the bed, or no two did
};
MatchedTable match(const std::vector<PlaceCell>& cells);

}  // namespace fitwright
