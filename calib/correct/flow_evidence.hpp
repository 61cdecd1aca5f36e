#pragma once
// All that is known of flow: one-bead walls, a weighed block, or both, brought together.

#include <optional>
#include <string>

#include "correct/correction.hpp"
#include "correct/evidence.hpp"
#include "correct/flow.hpp"

namespace fitwright {

struct FlowEvidence {
  FlowTest test;
  std::string holds;         ///< begins a sentence of how much plastic there is: "the walls hold", "the block holds"
  std::string because;       ///< what it rests on
  std::string better;        ///< what would tell it better; empty when nothing of ours would
  bool contradicts = false;  ///< walls and block differ by more than twice the uncertainty of their difference

  /// Real over wanted flow less 1, with its uncertainty.
  [[nodiscard]] Evidence excess() const;
};

/// From a weighed block printed in `state`: real / wanted flow = mass / (volume as sliced x density). The volume as
/// sliced follows from the drawn one by the size factor and, where the block's side is known, the outline offset.
FlowTest flow_by_block(const WeighedBlock& block, const State& state);

/// Walls and block by their mean, weighted by 1/u^2. Empty when there is neither.
std::optional<FlowEvidence> flow_evidence(const Estimates& estimates, const State& state,
                                          const std::optional<WeighedBlock>& block);

}  // namespace fitwright
