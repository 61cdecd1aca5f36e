#include "bench/analysis.hpp"

#include "model/estimate.hpp"

namespace fitwright {

const std::vector<Policy>& offered_policies() {
  static const std::vector<Policy> policies{Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only};
  return policies;
}

Analysis analyse(const Content& content, std::uint64_t revision) {
  Analysis a;
  a.revision = revision;
  a.read = only_read(*content.readings);
  for (std::size_t i = 0; i < content.readings->rows.size(); ++i)
    if (has_reading(content.readings->rows[i])) a.row_of.push_back(i);

  EstimateOptions options;
  options.set_suspects_aside = content.wishes.set_suspects_aside;
  options.use_priors = content.wishes.use_priors;
  options.copy_prior = content.copy_prior;
  auto estimated = estimate(a.read, options);
  if (!estimated) {
    a.problems = estimated.problems();
    return a;
  }
  a.estimates = *std::move(estimated);

  FindingOptions wanted;
  wanted.length_mm = content.wishes.length_mm;
  wanted.tolerance_mm = content.wishes.tolerance_mm;
  wanted.state = content.state;
  a.findings = findings(*a.estimates, a.read, wanted);

  CorrectOptions how;
  how.length_mm = content.wishes.length_mm;
  how.tolerance_mm = content.wishes.tolerance_mm;
  how.beyond = beyond_readings(*a.estimates, a.read);
  for (const Policy policy : offered_policies()) {
    how.policy = policy;
    a.corrections.push_back({policy, correct(*a.estimates, content.state, how)});
  }
  std::vector<PolicyResult> results;
  for (const PolicyOutcome& o : a.corrections)
    results.push_back({o.policy, o.outcome ? std::optional(*o.outcome) : std::nullopt});
  a.recommended = recommend(*a.estimates, results);
  return a;
}

}  // namespace fitwright
