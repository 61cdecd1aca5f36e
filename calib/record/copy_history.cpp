#include "record/copy_history.hpp"

#include <algorithm>
#include <map>

#include "model/estimate.hpp"
#include "record/reading_set.hpp"

namespace fitwright::record {
namespace {

/// Copies that differ in nothing but being copies: same coupon, same state.
using Alike = std::map<std::pair<std::string, std::string>, std::vector<Id>>;

Result<Alike> alike_copies(Record& record, const Id& setup, const std::vector<Id>& but_not) {
  const auto copies = all_of<Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  Alike out;
  for (const auto& copy : *copies) {
    if (std::find(but_not.begin(), but_not.end(), copy.thing) != but_not.end()) continue;
    const auto coupon = one<MadeCoupon>(record, copy.value.coupon);
    if (!coupon) return coupon.problems();
    out[{coupon->value.features, copy.value.state}].push_back(copy.thing);
  }
  return out;
}

}  // namespace

Result<CopyHistory> copy_history(Record& record, const Id& printer, const std::vector<Id>& but_not) {
  return guarded(record, [&]() -> Result<CopyHistory> {
    CopyHistory out;
    std::vector<CopyEffects> sets;
    const auto setups = all_of<Setup>(record, "printer", printer);
    if (!setups) return setups.problems();
    for (const auto& setup : *setups) {
      const auto alike = alike_copies(record, setup.thing, but_not);
      if (!alike) return alike.problems();
      for (const auto& [key, copies] : *alike) {
        if (copies.size() < 2) continue;
        const auto told = [&](const Problems& problems) {
          out.notes.push_back(std::to_string(copies.size()) + " copies of " + setup.value.name +
                              " do not tell how copies differ: " + problems.front().what);
        };
        const auto from = readings_for(record, setup.thing, copies);
        if (!from) {
          told(from.problems());
          continue;
        }
        EstimateOptions options;
        options.true_size_mm = from->true_size_mm;
        const auto estimates = estimate(from->readings, options);
        if (!estimates) {
          told(estimates.problems());
          continue;
        }
        const auto effects = copy_effects(*estimates);
        if (effects)
          sets.push_back(*effects);
        else
          told(effects.problems());
      }
    }
    if (!sets.empty()) out.scatter = copy_scatter(sets);
    out.prior = prior_from_history(out.scatter);
    return out;
  });
}

}  // namespace fitwright::record
