// fitw next: what to print next for a wanted clearance.

#include <algorithm>

#include "base/number.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "design/design.hpp"
#include "fits/next_clearances.hpp"
#include "fits/next_print.hpp"
#include "fits_words.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {
namespace {

using fitwright::fixed;
using fitwright::Json;

constexpr const char* footer = R"(Examples:
  fitw next --goal "hole 8 sliding" --from slate14.json
  fitw next --goal "tab 20 snug" --setup "slate on Heron"
  fitw next --goal "hole 8 sliding"        before anything was printed

Each coupon as fitw make draws it, one copy: how far it brings down the
half-width of the mean clearance, per gram. When new parts differ by more than
what is left to learn, the answer is to stop.)";

constexpr int next_places = 7;

/// "hole 8 sliding"; mistakes go to `words`.
fitwright::AllowanceRequest take_goal(Words& words) {
  fitwright::AllowanceRequest out;
  const std::string goal = words.required("--goal");
  if (goal.empty()) return out;
  std::vector<std::string> parts(1);
  for (const char c : goal) {
    if (c != ' ')
      parts.back() += c;
    else if (!parts.back().empty())
      parts.emplace_back();
  }
  if (parts.back().empty()) parts.pop_back();
  const auto kind = parts.empty() ? std::nullopt : fitwright::size_kind_from(parts[0]);
  const auto size = parts.size() > 1 ? fitwright::parse_number(parts[1]) : std::nullopt;
  const auto fit = parts.size() > 2 ? fitwright::fit_from(parts[2]) : std::nullopt;
  if (parts.size() != 3 || !kind || !size || !fit) {
    words.complain("--goal: " + fitwright::quote(goal) + " is not KIND SIZE FIT",
                   "like \"hole 8 sliding\": hole, peg, slot or tab; mm; press, snug, sliding or loose");
    return out;
  }
  out.kind = *kind;
  out.nominal_mm = *size;
  out.fit = *fit;
  out.mate.low_mm = out.mate.high_mm = *size;
  if (words.flag("--both-printed")) out.mate.kind = fitwright::MateKind::printed;
  return out;
}

std::vector<fitwright::PrintCandidate> candidates(Outcome& outcome) {
  std::vector<fitwright::PrintCandidate> out;
  for (const auto& info : fitwright::designs()) {
    const auto coupon = got(fitwright::make_coupon(info.name), outcome);
    if (coupon) out.push_back({info.name, coupon->grams, coupon->features});
  }
  return out;
}

std::string json_of(const fitwright::AllowanceRequest& goal, const fitwright::NextPrint& n,
                    const std::optional<fitwright::NextClearances>& ladder) {
  Json gains = Json::array();
  for (const auto& g : n.gains)
    gains.push_back({{"coupon", g.name},
                     {"grams", g.grams},
                     {"sd_after_mm", g.sd_after_mm},
                     {"half_width_after_mm", g.half_width_after_mm},
                     {"gain_mm_per_g", g.gain_mm_per_g}});
  Json out{{"schema", fitwright::report_schema},
           {"goal", {{"kind", word(goal.kind)}, {"nominal_mm", goal.nominal_mm}, {"fit", word(goal.fit)}}},
           {"sd_now_mm", n.sd_now_mm},
           {"half_width_now_mm", n.half_width_now_mm},
           {"new_part_sd_mm", n.new_part_sd_mm},
           {"stop", n.stop},
           {"text", n.text},
           {"gains", std::move(gains)}};
  if (ladder) out["ladder_clearance_mm"] = ladder->clearance_mm;
  return fitwright::json_text(out);
}

std::string text_of(const fitwright::NextPrint& n, const std::optional<fitwright::NextClearances>& ladder) {
  using fitwright::Align;
  std::string out = fitwright::paragraph(n.text, "", "  ") + '\n';
  std::vector<std::vector<std::string>> rows{{"coupon", "g", "known within mm", "gain mm/g"}};
  for (const auto& g : n.gains)
    rows.push_back({g.name, fixed(g.grams, 1), fixed(g.half_width_after_mm, 3), fixed(g.gain_mm_per_g, 4)});
  out += fitwright::columns(rows, {Align::left, Align::right, Align::right, Align::right});
  if (ladder) {
    std::string list;
    for (const double c : ladder->clearance_mm) list += (list.empty() ? "" : ", ") + fitwright::shortest(c);
    out += '\n' + fitwright::paragraph(
                      "On the next fit ladder, clearances of " + list + " mm tell most about this fit.", "", "  ");
  }
  return out;
}

Outcome run(Words& words) {
  Outcome outcome;
  words.optional_word();
  const auto goal = take_goal(words);
  const auto basis_request = take_basis(words, false, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  const auto basis = read_basis(basis_request, outcome);
  if (!basis) return outcome;
  const auto list = candidates(outcome);
  const auto next = got(fitwright::next_print(basis->basis.estimates, goal, list), outcome);
  if (!next || !outcome.problems.empty()) return outcome;
  std::optional<fitwright::NextClearances> ladder;
  if (basis->trials)
    ladder = fitwright::next_clearances(*basis->trials, basis->basis.thresholds, fitwright::weights_for(goal.fit),
                                        next_places);
  outcome.out = words.flag("--json") ? json_of(goal, *next, ladder) : text_of(*next, ladder);
  return outcome;
}

}  // namespace

Command next_command(CLI::App& root) {
  auto words =
      std::make_unique<Words>(root, "next", "What to print next for a wanted clearance, by gain per gram", footer);
  words->declare("--goal", "\"KIND SIZE FIT\"", "Like \"hole 8 sliding\", between quotes");
  words->declare_flag("--both-printed", "The other part is printed too");
  declare_basis(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
