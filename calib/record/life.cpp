#include "record/life.hpp"

namespace fitwright::record {
namespace {

Result<CorrectionLife> with_events(Record& record, Kept<StoredCorrection> correction) {
  auto events = all_of<CorrectionEvent>(record, "correction", correction.thing);
  if (!events) return events.problems();
  CorrectionLife life{std::move(correction), std::move(*events), Standing::proposed};
  for (const auto& event : life.events) {
    const std::string& what = event.value.what;
    if (what == "applied") life.standing = Standing::applied;
    if (what == "proved" && life.standing == Standing::applied) life.standing = Standing::proved;
    if (what == "withdrawn") life.standing = Standing::withdrawn;
  }
  return life;
}

}  // namespace

std::string_view word(Standing standing) {
  switch (standing) {
    case Standing::proposed:
      return "proposed";
    case Standing::applied:
      return "applied";
    case Standing::proved:
      return "proved";
    case Standing::withdrawn:
      return "withdrawn";
  }
  return "?";
}

Result<CorrectionLife> life_of(Record& record, const Id& correction) {
  auto kept = one<StoredCorrection>(record, correction);
  if (!kept) return kept.problems();
  return with_events(record, std::move(*kept));
}

Result<std::vector<CorrectionLife>> corrections_of(Record& record, const Id& setup) {
  auto kept = all_of<StoredCorrection>(record, "setup", setup);
  if (!kept) return kept.problems();
  std::vector<CorrectionLife> out;
  for (auto& correction : *kept) {
    auto life = with_events(record, std::move(correction));
    if (!life) return life.problems();
    out.push_back(std::move(*life));
  }
  return out;
}

Result<CorrectionLife> propose(Record& record, const Id& setup, const Id& estimate, const Correction& correction,
                               const std::string& reason, const std::string& at) {
  StoredCorrection stored;
  stored.setup = setup;
  stored.estimate = estimate;
  stored.policy = word(correction.policy);
  stored.before = to_json(correction.before);
  stored.after = to_json(correction.after);
  stored.detail = kept_text(correction);
  if (differences(correction.before, correction.after).empty())
    return Problem{Code::unanswerable,
                   {},
                   "this correction changes no setting: there is nothing to propose",
                   "look at what was left alone, and why"};
  return guarded(record, [&]() -> Result<CorrectionLife> {
    Transaction whole(record.database());
    const auto there = corrections_of(record, setup);
    if (!there) return there.problems();
    for (const CorrectionLife& life : *there) {
      const StoredCorrection& c = life.correction.value;
      if (life.standing == Standing::proposed && c.estimate == estimate && c.policy == stored.policy &&
          c.before == stored.before && c.after == stored.after && c.detail == stored.detail)
        return life;
    }
    const auto kept = add(record, stored, at);
    if (!kept) return kept.problems();
    CorrectionEvent event;
    event.correction = kept->thing;
    event.what = "proposed";
    event.reason = reason;
    if (const auto proposed = add(record, event, at); !proposed) return proposed.problems();
    whole.commit();
    return life_of(record, kept->thing);
  });
}

}  // namespace fitwright::record
