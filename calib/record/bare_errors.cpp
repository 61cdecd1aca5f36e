// What prints say with the settings taken out.

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "correct/algebra.hpp"
#include "model/contrast.hpp"
#include "model/estimate.hpp"
#include "record/reading_set.hpp"
#include "record/state_in_force.hpp"
#include "record/teaching.hpp"

namespace fitwright::record {
namespace {

constexpr std::array<const char*, 3> scales{name::scale_x, name::scale_y, name::scale_z};

/// The settings that count as none: size factor 1, no outline offset, the steps the printer was entered with.
State bare_state(const State& printed_with, const Printer& printer) {
  State out = printed_with;
  out.size_factor = 1;
  out.outline_offset_mm = 0;
  out.steps_per_mm = {printer.steps_x, printer.steps_y, printer.steps_z, printer.steps_e};
  return out;
}

/// Names that the setup's parts go by.
Result<BareErrors> named(Record& record, const Kept<Setup>& setup, const Kept<Printer>& printer) {
  const auto spool = one<Spool>(record, setup.value.spool);
  if (!spool) return spool.problems();
  const auto material = one<Material>(record, spool->value.material);
  if (!material) return material.problems();
  BareErrors out;
  out.setup = setup.thing;
  out.setup_name = setup.value.name;
  out.printer = printer.value.name;
  out.material = material->value.name;
  out.spool = spool->value.name;
  return out;
}

/// Takes the settings out. The uncertainty of an edge with a large offset in it also has part of the scale's, which is
/// ten thousand times smaller.
void take_out(BareErrors& out, const Estimates& e, const State& printed_with, const State& bare) {
  const PlanarFit fit{e.value_or(name::scale_x, 0), e.value_or(name::scale_y, 0), e.value_or(name::edge_growth, 0)};
  const PlanarOutcome lengths = outcome(printed_with, bare, fit);
  const double up = steps_ratio(printed_with.steps_per_mm.z, bare.steps_per_mm.z);
  const std::array<double, 3> gains{lengths.gain_x, lengths.gain_y, (1 + e.value_or(name::scale_z, 0)) * up};
  const std::array<std::optional<BareValue>*, 3> into{&out.scale_x, &out.scale_y, &out.scale_z};
  std::array<double, 3> by{};  // bare scale per scale found
  for (std::size_t i = 0; i < scales.size(); ++i) {
    const Parameter* p = e.find(scales[i]);
    if (!p) continue;
    by[i] = gains[i] / (1 + p->value);
    *into[i] = BareValue{gains[i] - 1, p->u * by[i]};
  }
  for (std::size_t i = 0; i < scales.size(); ++i)
    for (std::size_t j = 0; j < scales.size(); ++j)
      out.covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
          (i == j && e.find(scales[i]) ? std::pow(e.find(scales[i])->u, 2) : e.cov(scales[i], scales[j])) * by[i] *
          by[j];
  if (out.scale_x && out.scale_y) {
    const auto shared = contrast(e, {{name::scale_x, by[0] / 2}, {name::scale_y, by[1] / 2}});
    out.shrink = BareValue{1 - std::sqrt(gains[0] * gains[1]), shared ? shared->u : 0};
  }
  if (const Parameter* edge = e.find(name::edge_growth)) out.edge_mm = BareValue{lengths.edge_mm, edge->u};
}

std::string printed(const Kept<Copy>& copy) {
  constexpr std::size_t date = 10;
  return copy.value.printed_on.empty() ? copy.at.substr(0, date) : copy.value.printed_on;
}

}  // namespace

Result<BareErrors> bare_errors_of(Record& record, const Id& setup, const std::vector<Id>& copies) {
  return guarded(record, [&]() -> Result<BareErrors> {
    const auto kept = one<Setup>(record, setup);
    if (!kept) return kept.problems();
    const auto printer = one<Printer>(record, kept->value.printer);
    if (!printer) return printer.problems();
    auto out = named(record, *kept, *printer);
    if (!out) return out;
    const auto from = readings_for(record, setup, copies);
    if (!from) return from.problems();
    EstimateOptions options;
    options.true_size_mm = from->true_size_mm;
    const auto estimates = estimate(from->readings, options);
    if (!estimates) return estimates.problems();
    for (const auto& copy : from->copies) {
      out->copies.push_back(copy.thing);
      out->printed_on = std::max(out->printed_on, printed(copy));
    }
    take_out(*out, *estimates, from->printed_with, bare_state(from->printed_with, printer->value));
    return out;
  });
}

Result<BareSets> bare_errors(Record& record, const Id& setup, Together together) {
  return guarded(record, [&]() -> Result<BareSets> {
    const auto copies = all_of<Copy>(record, "setup", setup);
    if (!copies) return copies.problems();
    std::map<std::pair<int, std::string>, std::vector<Id>> groups;  // print (0: any) and state
    for (const auto& copy : *copies) {
      const auto state = parse_state(copy.value.state.empty() ? "{}" : copy.value.state, record.path());
      if (!state) return state.problems();
      groups[{together == Together::print ? copy.value.print : 0, to_json(*state)}].push_back(copy.thing);
    }
    BareSets out;
    for (const auto& [key, ids] : groups) {
      auto bare = bare_errors_of(record, setup, ids);
      if (bare)
        out.sets.push_back(std::move(*bare));
      else
        for (const Problem& p : bare.problems()) out.notes.push_back(p.what);
    }
    std::stable_sort(out.sets.begin(), out.sets.end(),
                     [](const BareErrors& a, const BareErrors& b) { return a.printed_on < b.printed_on; });
    return out;
  });
}

}  // namespace fitwright::record
