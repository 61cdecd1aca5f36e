#include "block.hpp"

#include "base/number.hpp"
#include "design/design.hpp"

namespace fitw {
namespace {

constexpr double mm3_per_cm3 = 1000;
constexpr double density_u_share = 0.01;  // of the density (see WeighedBlock)
constexpr const char* block_piece = "4";  // of the design walls

}  // namespace

void declare_block(Words& words) {
  words.declare("--block-g", "GRAMS",
                "Weight of a solid block, printed in the same state and weighed alone: tells the flow");
  words.declare("--block-cm3", "CM3",
                "Its drawn volume; that of the block of fitw make walls, at the layer heights of the state, if absent");
  words.declare("--block-density", "G/CM3", "Density of its material (1.24)");
  words.declare("--block-density-u", "G/CM3", "Standard uncertainty of that density (1 % of it)");
}

std::optional<BlockRequest> take_block(Words& words) {
  const bool weighed = words.text("--block-g").has_value();
  for (const char* option : {"--block-cm3", "--block-density", "--block-density-u"})
    if (!weighed && words.text(option))
      words.complain(std::string(option) + " is given without --block-g", "give the weight of the block, or neither");
  BlockRequest request;
  request.mass_g = words.positive("--block-g", 1);
  if (words.text("--block-cm3")) request.volume_cm3 = words.positive("--block-cm3", 1);
  request.density_g_cm3 = words.positive("--block-density", fitwright::WeighedBlock{}.density_g_cm3);
  request.density_u_g_cm3 = words.positive("--block-density-u", density_u_share * request.density_g_cm3);
  if (!weighed) return std::nullopt;
  return request;
}

std::optional<fitwright::WeighedBlock> block_of(const std::optional<BlockRequest>& request,
                                                const fitwright::State& state, Outcome& outcome) {
  if (!request) return std::nullopt;
  fitwright::WeighedBlock block;
  block.mass_g = request->mass_g;
  block.density_g_cm3 = request->density_g_cm3;
  block.density_u_g_cm3 = request->density_u_g_cm3;
  if (request->volume_cm3) {
    block.volume_mm3 = *request->volume_cm3 * mm3_per_cm3;
    return block;
  }
  const auto coupon =
      fitwright::make_coupon("walls", {{"piece", block_piece},
                                       {"layer_height_mm", fitwright::shortest(state.layer_height_mm)},
                                       {"first_layer_height_mm", fitwright::shortest(state.first_layer_height_mm)}});
  if (!coupon) {  // layer heights that no block can be made of
    for (const Problem& p : coupon.problems())
      outcome.problems.push_back({p.code, {}, "the block of fitw make walls: " + p.what, "give --block-cm3"});
    return std::nullopt;
  }
  block.volume_mm3 = coupon->volume_mm3;
  block.side_mm = coupon->size_x_mm;
  return block;
}

}  // namespace fitw
