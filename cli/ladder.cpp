// fitw ladder: where one feel ends and the next begins.

#include "base/number.hpp"
#include "base/words.hpp"
#include "commands.hpp"
#include "fits/next_clearances.hpp"
#include "fits_words.hpp"
#include "readings.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {
namespace {

using fitwright::fixed;
using fitwright::Json;
using fitwright::shortest;

constexpr const char* footer = R"(TRIALS.csv has a row for each place that was tried: clearance_mm (hole minus
peg as drawn), grade, copy, and optionally measured_clearance_mm, diameter_mm.
Grades: 0 will not enter, 1 press with a tool, 2 push by hand, 3 slides,
4 rattles.

Examples:
  fitw ladder trials.csv
  fitw ladder trials.csv --next sliding    and which clearances to print next
  fitw ladder --setup "slate on Heron"     trials of the record

Take care: press with a vice, straight, not with a hammer; wear eye
protection, brittle plastic throws splinters.)";

constexpr int next_places = 7;

Json ranged(const fitwright::Ranged& r) { return {{"value", r.value}, {"lower", r.lower}, {"upper", r.upper}}; }

std::string json_of(const fitwright::Thresholds& t, const std::optional<fitwright::NextClearances>& next) {
  Json thresholds = Json::array();
  for (std::size_t k = 0; k < t.t_mm.size(); ++k) {
    Json one{{"between", {k, k + 1}}};
    one.update(ranged(t.t_mm[k]));
    thresholds.push_back(std::move(one));
  }
  Json best = Json::object(), chance = Json::object();
  for (const auto fit : fitwright::all_fits) {
    const auto b = fitwright::best_clearance(t, fit);
    best[std::string(word(fit))] = b.clearance_mm;
    chance[std::string(word(fit))] = b.chance;
  }
  Json contradictions = Json::array();
  for (const auto& c : t.contradictions) contradictions.push_back(c.text);
  Json out{{"schema", fitwright::report_schema},
           {"thresholds_mm", std::move(thresholds)},
           {"scatter_mm", ranged(t.s_mm)},
           {"used", word(t.used)},
           {"neg_log_posterior", t.neg_log_posterior},
           {"best_clearance_mm", std::move(best)},
           {"chance_there", std::move(chance)},
           {"trials", t.trials},
           {"copies", t.copies},
           {"contradictions", std::move(contradictions)},
           {"notes", t.notes}};
  if (next)
    out["next"] = {
        {"clearance_mm", next->clearance_mm}, {"sd_now_mm", next->sd_now_mm}, {"sd_after_mm", next->sd_after_mm}};
  return fitwright::json_text(out);
}

std::string text_of(const fitwright::Thresholds& t, const std::optional<fitwright::NextClearances>& next) {
  using fitwright::Align;
  using fitwright::paragraph;
  std::string out = std::to_string(t.trials) + (t.trials == 1 ? " place" : " places") + " tried on " +
                    std::to_string(t.copies) + (t.copies == 1 ? " copy\n\n" : " copies\n\n");
  std::vector<std::vector<std::string>> rows{{"a place ...", "up to mm", "95 % from", "to"}};
  for (std::size_t k = 0; k < t.t_mm.size(); ++k)
    rows.push_back({fitwright::tr(fitwright::felt(static_cast<fitwright::Grade>(k))), fixed(t.t_mm[k].value, 3),
                    fixed(t.t_mm[k].lower, 3), fixed(t.t_mm[k].upper, 3)});
  out += fitwright::columns(rows, {Align::left, Align::right, Align::right, Align::right});
  out += "  beyond, it " + std::string(fitwright::tr(fitwright::felt(fitwright::Grade::rattles))) + '\n';
  out += paragraph("Scatter of a place: " + fixed(t.s_mm.value, 3) + " mm (95 %: " + fixed(t.s_mm.lower, 3) + " to " +
                       fixed(t.s_mm.upper, 3) + ")",
                   "  ", "    ");
  out += '\n';
  rows = {{"fit", "clearance mm", "chance"}};
  for (const auto fit : fitwright::all_fits) {
    const auto b = fitwright::best_clearance(t, fit);
    rows.push_back({std::string(word(fit)), fixed(b.clearance_mm, 2), fixed(100 * b.chance, 0) + " %"});
  }
  out += fitwright::columns(rows, {Align::left, Align::right, Align::right});
  out += '\n' + paragraph(fitwright::why_this_clearance(t), "", "  ");
  for (const std::string& note : t.notes) out += paragraph(note, "", "  ");
  if (!t.contradictions.empty()) {
    out += "\nNot all trials agree:\n";
    for (const auto& c : t.contradictions) out += paragraph(c.text, "  ", "    ");
  }
  if (next) {
    std::string list;
    for (const double c : next->clearance_mm) list += (list.empty() ? "" : ", ") + shortest(c);
    out += '\n' + paragraph("Print next, one place each: " + list + " mm", "", "  ");
  }
  return out;
}

Outcome run(Words& words) {
  Outcome outcome;
  const auto setup = take_fits_setup(words, outcome);
  const std::string path = setup ? words.optional_word() : words.word();
  if (setup && !path.empty()) words.complain("a file of trials and --setup are two sources", "give one of them");
  const std::string use = words.text("--use") ? words.choice("--use", {"nominal", "measured"}) : "";
  const std::string next_fit =
      words.text("--next") ? words.choice("--next", {"press", "snug", "sliding", "loose"}) : "";
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  const auto trials = setup ? trials_from_record(*setup, outcome) : read_parsed(path, fitwright::parse_trials, outcome);
  if (!trials) return outcome;
  const auto used = use.empty()         ? fitwright::clearance_to_use(*trials)
                    : use == "measured" ? fitwright::ClearanceUsed::measured
                                        : fitwright::ClearanceUsed::nominal;
  const auto t = got(fitwright::thresholds_from(*trials, used), outcome);
  if (!t) return outcome;
  std::optional<fitwright::NextClearances> next;
  if (const auto fit = fitwright::fit_from(next_fit))
    next = fitwright::next_clearances(*trials, *t, fitwright::weights_for(*fit), next_places);
  outcome.out = words.flag("--json") ? json_of(*t, next) : text_of(*t, next);
  return outcome;
}

}  // namespace

Command ladder_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "ladder", "From how places felt to which clearance feels how", footer);
  words->declare_word("TRIALS.csv", "Trials, one a row: clearance_mm, grade, copy; more below");
  declare_fits_setup(*words);
  words->declare("--use", "nominal|measured",
                 "Clearance as drawn or as measured (default: measured where all rows have it)");
  words->declare("--next", "FIT", "Also tell which clearances to print next: press, snug, sliding or loose");
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
