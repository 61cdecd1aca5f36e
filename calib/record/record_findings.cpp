#include "record/record_findings.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "correct/phrase.hpp"
#include "record/acting_twice.hpp"
#include "record/teaching.hpp"

namespace fitwright::record {
namespace {

using Findings = std::vector<Finding>;

constexpr std::size_t date_length = 10;
std::string day(const std::string& at) { return at.substr(0, date_length); }

/// The copies against the settings in force.
void state_findings(const GatheredReadings& from, const StateInForce& now, Findings& out) {
  const auto differing = differences(from.printed_with, now.state);
  if (!differing.empty())
    out.push_back({"state", Severity::know,
                   "The coupon was printed with other settings than are in force: " + in_words(differing) + '.',
                   "estimates speak of the settings of then; corrections made from them are for those",
                   "print the coupon with the settings in force, or look at these estimates as history"});
  std::vector<std::string> others;
  for (const CopyLeftOut& left : from.left_out)
    if (left.because.find("other settings") != std::string::npos) others.push_back(left.because);
  if (others.empty()) return;
  out.push_back({"state", Severity::know,
                 (others.size() == 1 ? "One copy was" : std::to_string(others.size()) + " copies were") +
                     " printed with other settings than the newest and left out of the estimate.",
                 others.front() + (others.size() > 1 ? "; and more" : ""),
                 "nothing, or name the copies to estimate those of then"});
}

void stale_findings(const StateInForce& now, const std::string& setup, double length_mm, bool was_read, Findings& out) {
  if (now.due) {
    const double rho = std::sqrt(now.due->rho_x * now.due->rho_y);
    std::string becomes = "size factor " + fixed(now.due->becomes.size_factor, 5);
    if (now.due->becomes.outline_offset_mm != now.state.outline_offset_mm)
      becomes += " and outline offset " + fixed(now.due->becomes.outline_offset_mm, 4) + " mm";
    out.push_back({"stale", Severity::act,
                   setup + " was calibrated with the old steps: until it is re-expressed, " + length(length_mm) +
                       " come out " + mm(length_mm * (rho - 1)) + (rho > 1 ? " longer" : " shorter") + " than before.",
                   "steps per mm were turned on " + day(now.due->since) + ", by " + signed_percent(now.due->rho_x - 1) +
                       " in X and " + signed_percent(now.due->rho_y - 1) + " in Y",
                   "set " + becomes + " (its re-expression is proposed), or print and measure again"});
  } else if (now.stale && was_read) {
    out.push_back({"stale", Severity::act,
                   setup + " was read before steps per mm were turned, and never calibrated: those readings do not "
                           "hold any more.",
                   "there is no size factor to re-express", "print the coupon again and measure it"});
  }
}

void correction_findings(const std::vector<CorrectionLife>& lives, const StateInForce& now, Findings& out) {
  const CorrectionLife* newest = nullptr;  // in force, and foretold by an estimate
  for (const CorrectionLife& life : lives) {
    const StoredCorrection& c = life.correction.value;
    if (c.origin == "estimate" && (life.standing == Standing::applied || life.standing == Standing::proved))
      newest = &life;
    if (life.standing != Standing::proposed) continue;
    const auto before = parse_state(c.before, "record"), after = parse_state(c.after, "record");
    if (!before || !after) continue;
    if (const auto twice = acts_twice(*before, *after, now.state))
      out.push_back({"double", Severity::know,
                     "The correction proposed on " + day(life.correction.at) + " would act a second time on " +
                         twice->error + ".",
                     "since its coupon was printed, " + in_words(differences(now.state, *before)) +
                         " came into force for the same error",
                     "nothing more: print the coupon with the settings in force before you correct again"});
  }
  if (!newest) return;
  const auto& last = newest->events.back();
  if (newest->standing == Standing::proved)
    out.push_back({"proved", Severity::fine, "The correction in force was proved by a print on " + day(last.at) + ".",
                   last.value.reason, "go and print"});
  else
    out.push_back({"not-proved", Severity::know,
                   "The correction in force since " + day(last.at) + " is not proved by a print.",
                   "what it should leave was foretold, and nothing that was printed with it shows it",
                   "print the same coupon once more, measure it and prove the correction"});
}

void expected_finding(Record& record, const Id& setup, double length_mm, Findings& out) {
  const auto expected = expected_of_spool(record, setup);
  if (!expected) return;
  const double half = (expected->forecast.upper - expected->forecast.lower) / 2;
  std::string because = expected->forecast.method;
  for (const std::string& note : expected->notes) because += "; " + note;
  out.push_back({"expected", Severity::know,
                 expected->forecast.sentence + " Begin with size factor " + fixed(expected->size_factor, 5) + " (" +
                     fixed(expected->size_factor_lower, 5) + " to " + fixed(expected->size_factor_upper, 5) +
                     "): " + length(length_mm) + " are then right within " + mm(length_mm * half) + '.',
                 because, "print the frame coupon with this spool and measure it"});
}

}  // namespace

Result<std::vector<Finding>> record_findings(Record& record, const Id& setup, const FindingOptions& options) {
  return guarded(record, [&]() -> Result<Findings> {
    const auto kept = one<Setup>(record, setup);
    if (!kept) return kept.problems();
    const auto now = state_in_force(record, setup);
    if (!now) return now.problems();
    const auto lives = corrections_of(record, setup);
    if (!lives) return lives.problems();
    Findings out;
    const auto from = readings_for(record, setup);
    if (!from && from.problems().front().code != Code::unanswerable) return from.problems();
    if (from) state_findings(*from, *now, out);
    stale_findings(*now, kept->value.name, options.length_mm, from.ok(), out);
    correction_findings(*lives, *now, out);
    if (!from) expected_finding(record, setup, options.length_mm, out);
    std::stable_sort(out.begin(), out.end(),
                     [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
    return out;
  });
}

Finding proof_finding(const Proof& proof) {
  const bool proved = proof.verdict == Verdict::proved;
  const Severity severity = proved                                 ? Severity::fine
                            : proof.verdict == Verdict::not_proved ? Severity::act
                                                                   : Severity::know;
  return {proved ? "proved" : "not-proved", severity, proof.text, proof.because, proof.action};
}

}  // namespace fitwright::record
