#include "record/record_findings.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
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
                   said("The coupon was printed with other settings than are in force: {}.", in_words(differing)),
                   tr("estimates speak of the settings of then; corrections made from them are for those"),
                   tr("print the coupon with the settings in force, or look at these estimates as history")});
  std::vector<std::string> others;
  for (const CopyLeftOut& left : from.left_out)
    if (left.because.find("other settings") != std::string::npos) others.push_back(left.because);
  if (others.empty()) return;
  out.push_back({"state", Severity::know,
                 others.size() == 1
                     ? std::string(tr("One copy was printed with other settings than the newest and left out of the "
                                      "estimate."))
                     : said("{} copies were printed with other settings than the newest and left out of the estimate.",
                            others.size()),
                 others.size() > 1 ? said("{}; and more", others.front()) : others.front(),
                 tr("nothing, or name the copies to estimate those of then")});
}

void stale_findings(const StateInForce& now, const std::string& setup, double length_mm, bool was_read, Findings& out) {
  if (now.due) {
    const double rho = std::sqrt(now.due->rho_x * now.due->rho_y);
    const std::string size = said_fixed(now.due->becomes.size_factor, 5);
    const std::string becomes =
        now.due->becomes.outline_offset_mm != now.state.outline_offset_mm
            ? said("size factor {} and outline offset {} mm", size, said_fixed(now.due->becomes.outline_offset_mm, 4))
            : said("size factor {}", size);
    out.push_back({"stale", Severity::act,
                   filled(rho > 1 ? tr("{} was calibrated with the old steps: until it is re-expressed, {} come out {} "
                                       "longer than before.")
                                  : tr("{} was calibrated with the old steps: until it is re-expressed, {} come out {} "
                                       "shorter than before."),
                          setup, length(length_mm), mm(length_mm * (rho - 1))),
                   said("steps per mm were turned on {}, by {} in X and {} in Y", day(now.due->since),
                        signed_percent(now.due->rho_x - 1), signed_percent(now.due->rho_y - 1)),
                   said("set {} (its re-expression is proposed), or print and measure again", becomes)});
  } else if (now.stale && was_read) {
    out.push_back({"stale", Severity::act,
                   said("{} was read before steps per mm were turned, and never calibrated: those readings do not hold "
                        "any more.",
                        setup),
                   tr("there is no size factor to re-express"), tr("print the coupon again and measure it")});
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
      out.push_back(
          {"double", Severity::know,
           said("The correction proposed on {} would act a second time on {}.", day(life.correction.at), twice->error),
           said("since its coupon was printed, {} came into force for the same error",
                in_words(differences(now.state, *before))),
           tr("nothing more: print the coupon with the settings in force before you correct again")});
  }
  if (!newest) return;
  const auto& last = newest->events.back();
  if (newest->standing == Standing::proved)
    out.push_back({"proved", Severity::fine, said("The correction in force was proved by a print on {}.", day(last.at)),
                   last.value.reason, tr("go and print")});
  else
    out.push_back({"not-proved", Severity::know,
                   said("The correction in force since {} is not proved by a print.", day(last.at)),
                   tr("what it should leave was foretold, and nothing that was printed with it shows it"),
                   tr("print the same coupon once more, measure it and prove the correction")});
}

void expected_finding(Record& record, const Id& setup, double length_mm, Findings& out) {
  const auto expected = expected_of_spool(record, setup);
  if (!expected) return;
  const double half = (expected->forecast.upper - expected->forecast.lower) / 2;
  std::string because = expected->forecast.method;
  for (const std::string& note : expected->notes) because += "; " + note;
  out.push_back(
      {"expected", Severity::know,
       said("{} Begin with size factor {} ({} to {}): {} are then right within {}.", expected->forecast.sentence,
            said_fixed(expected->size_factor, 5), said_fixed(expected->size_factor_lower, 5),
            said_fixed(expected->size_factor_upper, 5), length(length_mm), mm(length_mm * half)),
       because, tr("print the frame coupon with this spool and measure it")});
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
