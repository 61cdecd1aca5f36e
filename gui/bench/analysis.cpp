#include "bench/analysis.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "model/estimate.hpp"

namespace fitwright {

const std::vector<Policy>& offered_policies() {
  static const std::vector<Policy> policies{Policy::shrink, Policy::steps, Policy::machine, Policy::shrink_only};
  return policies;
}

namespace {

EstimateOptions estimate_options(const Content& content) {
  EstimateOptions options;
  options.set_suspects_aside = content.wishes.set_suspects_aside;
  options.use_priors = content.wishes.use_priors;
  options.copy_prior = content.copy_prior;
  return options;
}

std::vector<Finding> found(const Content& content, const Estimates& estimates, const ReadingSet& readings) {
  FindingOptions wanted;
  wanted.length_mm = content.wishes.length_mm;
  wanted.tolerance_mm = content.wishes.tolerance_mm;
  wanted.state = content.state;
  wanted.drive = content.drive;
  return findings(estimates, readings, wanted);
}

Result<Correction> corrected(const Content& content, Policy policy, const Estimates& estimates,
                             const std::vector<BeyondReadings>& beyond) {
  CorrectOptions how;
  how.policy = policy;
  how.length_mm = content.wishes.length_mm;
  how.tolerance_mm = content.wishes.tolerance_mm;
  how.drive = content.drive;
  if (policy == Policy::machine) how.travel = content.travel;
  how.beyond = beyond;
  return correct(estimates, content.state, how);
}

/// The id of a piece of steel without the evening it was read on, which evening.cpp writes behind it.
std::string without_evening(const std::string& id) {
  constexpr std::string_view mark = " on ", date = "0000-00-00";
  const auto at = id.rfind(mark);
  if (at == std::string::npos || id.size() < at + mark.size() + date.size()) return id;
  for (std::size_t i = 0; i < date.size(); ++i) {
    const char c = id[at + mark.size() + i];
    if (date[i] == '-' ? c != '-' : c < '0' || c > '9') return id;
  }
  return id.substr(0, at);
}

/// The same caliper read the same steel on several evenings: one place with more repeats, as the estimate of a setup of
/// the record takes it (record/reading_set.hpp). In the table of readings each evening stands by itself.
ReadingSet with_steel_as_one(ReadingSet set) {
  std::map<std::string, double> sizes;
  std::set<std::pair<std::string, int>> used;
  for (const Reading& r : set.rows)
    if (is_steel(r.feature.kind) && without_evening(r.feature.id) == r.feature.id) {
      sizes.emplace(r.feature.id, r.feature.nominal_mm);
      used.emplace(r.feature.id, r.repeat);
    }
  for (Reading& r : set.rows) {
    if (!is_steel(r.feature.kind)) continue;
    const std::string id = without_evening(r.feature.id);
    if (id == r.feature.id || sizes.emplace(id, r.feature.nominal_mm).first->second != r.feature.nominal_mm) continue;
    r.feature.id = id;
    while (!used.emplace(id, r.repeat).second) ++r.repeat;
  }
  return set;
}

/// Readings that are set aside count when they are the ones tried; the others tried are left out.
std::optional<TriedReadings> tried(const Content& content, const Analysis& a) {
  TriedReadings trial;
  std::vector<bool> out(a.read.rows.size(), false);
  std::vector<std::size_t> chosen;  // into a.read
  for (std::size_t i = 0; i < a.read.rows.size(); ++i)
    if (std::find(content.wishes.tried.begin(), content.wishes.tried.end(),
                  key_of(content.readings->rows[a.row_of[i]])) != content.wishes.tried.end())
      chosen.push_back(i);
  if (chosen.empty()) return std::nullopt;
  const auto aside = [&](std::size_t row) {
    return std::any_of(a.estimates->suspects.begin(), a.estimates->suspects.end(),
                       [&](const SuspectReading& s) { return s.suspect.index == row && !s.used; });
  };
  trial.with_them = std::all_of(chosen.begin(), chosen.end(), aside);
  EstimateOptions options = estimate_options(content);
  if (trial.with_them) {
    options.set_suspects_aside = false;  // and the other suspects are left out by hand
    for (const SuspectReading& s : a.estimates->suspects) out[s.suspect.index] = !s.used;
  }
  for (const std::size_t i : chosen) {
    out[i] = !trial.with_them;
    trial.rows.push_back(a.row_of[i]);
  }
  ReadingSet readings{a.read.source, {}};
  for (std::size_t i = 0; i < a.read.rows.size(); ++i)
    if (!out[i]) readings.rows.push_back(a.read.rows[i]);
  auto estimated = estimate(readings, options);
  if (!estimated) {
    trial.problems = estimated.problems();
    return trial;
  }
  trial.estimates = *std::move(estimated);
  trial.findings = found(content, *trial.estimates, readings);
  if (auto c = corrected(content, content.wishes.policy, *trial.estimates, beyond_readings(*trial.estimates, readings)))
    trial.correction = *std::move(c);
  return trial;
}

}  // namespace

Analysis analyse(const Content& content, std::uint64_t revision) {
  Analysis a;
  a.revision = revision;
  a.read = with_steel_as_one(only_read(*content.readings));
  for (std::size_t i = 0; i < content.readings->rows.size(); ++i)
    if (has_reading(content.readings->rows[i])) a.row_of.push_back(i);

  auto estimated = estimate(a.read, estimate_options(content));
  if (!estimated) {
    a.problems = estimated.problems();
    return a;
  }
  a.estimates = *std::move(estimated);
  a.findings = found(content, *a.estimates, a.read);
  a.beyond = beyond_readings(*a.estimates, a.read);
  for (const Policy policy : offered_policies())
    a.corrections.push_back({policy, corrected(content, policy, *a.estimates, a.beyond)});
  std::vector<PolicyResult> results;
  for (const PolicyOutcome& o : a.corrections)
    results.push_back({o.policy, o.outcome ? std::optional(*o.outcome) : std::nullopt});
  a.recommended = recommend(*a.estimates, results);
  if (!content.wishes.tried.empty()) a.trial = tried(content, a);
  return a;
}

}  // namespace fitwright
