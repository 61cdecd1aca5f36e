#pragma once
// The size to draw, so that a part goes together with its mate as wanted, and the chance that it does.
//
// Real clearance of a new part = printed size (error model) - mate; grade = where the clearance falls between the
// thresholds. Everything uncertain takes part: estimates with their covariance, scatter of a new part, the mate's
// limits, thresholds and feel (docs/mathematics.md, allowance).

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "correct/state.hpp"
#include "fits/mate.hpp"
#include "fits/thresholds.hpp"
#include "model/estimates.hpp"

namespace fitwright {

enum class SizeKind { hole, peg, slot, tab };
std::string_view word(SizeKind kind);
std::optional<SizeKind> size_kind_from(std::string_view text);
/// A hole or a slot: the mate goes into it.
constexpr bool is_inside(SizeKind kind) { return kind == SizeKind::hole || kind == SizeKind::slot; }

struct AllowanceRequest {
  SizeKind kind = SizeKind::hole;
  double nominal_mm = 0;
  Fit fit = Fit::sliding;
  Mate mate;
  double wanted_chance = 0.9;
  int facets = 0;      ///< sides of the polygon that is drawn; 0 = a true circle
  char axis = 0;       ///< 'x' or 'y' for a slot or tab along one axis; 0: either way
  double share = 0.5;  ///< of the clearance that this part takes, where the mate is printed too
};

/// What it rests on.
struct AllowanceBasis {
  Estimates estimates;
  State printed_with;  ///< settings of the coupons that were read
  State now;           ///< settings of the part to come
  Thresholds thresholds;
};

/// What keeps the chance from being higher, by its share of the variance of the clearance against the thresholds.
struct ChanceLimit {
  enum class What { thresholds, feel, new_part, estimates, mate } what = What::thresholds;
  double sd_mm = 0;
  double share = 0;  ///< of the whole variance, 0 to 1
  std::string text;  ///< in words, with what to do about it
};

struct Allowance {
  AllowanceRequest request;
  double draw_mm = 0;                  ///< size to draw
  std::optional<double> mate_draw_mm;  ///< the other part, where it is printed too
  Ranged draw_range_mm;                ///< sizes within which the wanted chance is reached; value = draw_mm
  Ranged printed_mm;                   ///< size that comes out: middle and 95 % interval of one new part
  Ranged clearance_mm;                 ///< real clearance that comes out
  double chance = 0;                   ///< of the wanted grade
  std::array<double, grade_count> chance_of{};
  bool reached = false;              ///< chance >= wanted_chance
  double best_size_u_mm = 0;         ///< standard uncertainty of the size to draw (estimates, thresholds, mate)
  std::vector<ChanceLimit> limits;   ///< greatest first
  std::vector<std::string> reasons;  ///< sentences, in the order to be read
  std::vector<std::string> cautions;
};

/// The size with the greatest chance of the wanted grade; for a loose fit the least clearance that reaches the wanted
/// chance. Errors: Code::usage for numbers out of range; Code::unanswerable when the estimates lack what the size needs
/// (it says what to read), or no drawn size gives the clearance.
Result<Allowance> allowance(const AllowanceBasis& basis, const AllowanceRequest& request);

/// Chances of the grades where the parts are drawn for a mean real clearance: in closed form, averaged over the draws
/// of the thresholds and over what the scatter may be ...
Result<std::array<double, grade_count>> chances_for(const AllowanceBasis& basis, const AllowanceRequest& request,
                                                    double clearance_mm);
/// ... and by simulation of `runs` parts, with the exact algebra and the mate anywhere within its limits; the same
/// numbers for the same seed.
Result<std::array<double, grade_count>> chances_simulated(const AllowanceBasis& basis, const AllowanceRequest& request,
                                                          double clearance_mm, int runs, std::uint64_t seed);

}  // namespace fitwright
