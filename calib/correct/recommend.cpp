#include "correct/recommend.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fitwright {
namespace {

bool turns_steps(const Correction& c) {
  return std::any_of(c.changes.begin(), c.changes.end(),
                     [](const Change& change) { return change.knob.starts_with("steps_per_mm"); });
}

bool turns_size(const Correction& c) {
  return std::any_of(c.changes.begin(), c.changes.end(),
                     [](const Change& change) { return change.knob == "size_factor"; });
}

const Correction* of(const std::vector<PolicyResult>& results, Policy policy) {
  for (const PolicyResult& r : results)
    if (r.policy == policy && r.correction) return &*r.correction;
  return nullptr;
}

/// Established to come out longer than drawn.
bool grows(const Estimates& estimates, const char* scale) {
  const Parameter* p = estimates.find(scale);
  return p && p->established && p->lower > 0;
}

}  // namespace

Recommendation recommend(const Estimates& estimates, const std::vector<PolicyResult>& results) {
  const bool any = std::any_of(results.begin(), results.end(),
                               [](const PolicyResult& r) { return r.correction && !r.correction->changes.empty(); });
  if (!any)
    return {std::nullopt, tr("What is off is either too small to matter on your part or not established: leave all "
                             "settings as they are.")};
  const Correction* machine = of(results, Policy::machine);
  if (machine && !machine->changes.empty())
    return {Policy::machine, tr("The machine's own travel was measured, so that its part is told from the plastic's.")};
  const Correction* steps = of(results, Policy::steps);
  if (grows(estimates, name::scale_x) && grows(estimates, name::scale_y) && steps && turns_steps(*steps))
    return {Policy::steps, tr("Both axes come out long, and plastic does not grow as it cools: it is the machine.")};
  const Correction* shrink = of(results, Policy::shrink);
  if (!shrink) {
    for (const PolicyResult& r : results)
      if (r.correction && !r.correction->changes.empty()) return {r.policy, tr("It is the one that can be followed.")};
    return {};
  }
  if (turns_size(*shrink) && turns_steps(*shrink))
    return {Policy::shrink,
            tr("What both axes share is laid to the plastic, only what they differ by to the machine.")};
  if (turns_size(*shrink))
    return {Policy::shrink, tr("Both axes are off alike: that is the plastic, and the steps stay.")};
  if (turns_steps(*shrink)) return {Policy::shrink, tr("The axes differ, and plastic does not: that is the machine.")};
  return {Policy::shrink, tr("No scale is changed; what is changed is the same under every policy.")};
}

}  // namespace fitwright
