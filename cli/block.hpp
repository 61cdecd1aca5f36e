#pragma once
// The weighed block, as estimate and correct take it.

#include <optional>

#include "correct/flow.hpp"
#include "outcome.hpp"
#include "words.hpp"

namespace fitw {

/// --block-g, --block-cm3, --block-density, --block-density-u.
void declare_block(Words& words);

struct BlockRequest {
  double mass_g = 0;
  std::optional<double> volume_cm3;  ///< absent: the block of the design walls
  double density_g_cm3 = 0;
  double density_u_g_cm3 = 0;
};

/// The request, or empty when no block was weighed; mistakes are noted in `words`.
std::optional<BlockRequest> take_block(Words& words);

/// The block as drawn. Without a volume it is that of `fitw make walls` at the layer heights of the state.
std::optional<fitwright::WeighedBlock> block_of(const std::optional<BlockRequest>& request,
                                                const fitwright::State& state, Outcome& outcome);

}  // namespace fitw
