// fitw allowance: what to draw so that it goes together as wanted.

#include "fits/allowance.hpp"

#include "base/number.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "fits/hardware.hpp"
#include "fits_words.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {
namespace {

using fitwright::Allowance;
using fitwright::fixed;
using fitwright::Json;
using fitwright::MateKind;

constexpr const char* footer = R"(Examples:
  fitw allowance --kind hole --nominal 22 --fit press --part "bearing 608" \
       --from slate14.json             a pocket for a bearing
  fitw allowance --kind hole --nominal 8 --fit sliding --mate 7.98 --measured \
       --setup "slate on Heron"        for an axle read with your own caliper
  fitw allowance --kind hole --nominal 8 --fit sliding --mate printed \
       --from slate14.json --trials trials.csv
                                       peg and hole both printed

A chance that no size reaches is told, with what limits it. Take care: press
with a vice, straight, not with a hammer; wear eye protection. Printed parts
creep and crack: no press fit told here is rated for load.)";

/// The mate of --part, --mate or neither. Mistakes go to `words`.
fitwright::Mate take_mate(Words& words, fitwright::SizeKind kind, double nominal_mm) {
  fitwright::Mate mate;
  mate.low_mm = mate.high_mm = nominal_mm;
  mate.inside = !fitwright::is_inside(kind);
  mate.round = kind == fitwright::SizeKind::hole || kind == fitwright::SizeKind::peg;
  const auto typed = words.text("--mate");
  const auto part = words.text("--part");
  if (typed && part) words.complain("--mate and --part are two mates", "give one of them");
  if (words.flag("--measured") && (!typed || *typed == "printed"))
    words.complain("--measured is given without --mate MM", "give what your caliper shows: --mate MM");
  if (typed && *typed == "printed") {
    mate.kind = MateKind::printed;
  } else if (typed) {
    mate.kind = words.flag("--measured") ? MateKind::measured : MateKind::exact;
    if (const auto size = number_in(words, "--mate", *typed)) mate.low_mm = mate.high_mm = *size;
  } else if (part) {
    const auto found = fitwright::find_hardware(*part);
    if (found.empty()) {
      words.complain("--part: nothing is found by " + fitwright::quote(*part),
                     "try fewer words, like \"bearing 608\" or \"M3 nut\", or measure it: --mate MM --measured");
      return mate;
    }
    const fitwright::HardwareSize* nearest = nullptr;
    for (const auto& size : found.front().sizes)
      if (size.inside == mate.inside &&
          (!nearest || std::abs(size.nominal_mm - nominal_mm) < std::abs(nearest->nominal_mm - nominal_mm)))
        nearest = &size;
    if (!nearest) {
      words.complain("--part: " + found.front().name + (mate.inside ? " has no bore" : " has no outside") + " to fit",
                     "hole and slot take a part's outside, peg and tab its bore");
      return mate;
    }
    mate = fitwright::mate_of(found.front(), *nearest);
  }
  return mate;
}

Json ranged(const fitwright::Ranged& r) { return {{"value", r.value}, {"lower", r.lower}, {"upper", r.upper}}; }

std::string json_of(const Allowance& a, bool assumed) {
  Json chances = Json::array(), limits = Json::array();
  for (const double p : a.chance_of) chances.push_back(p);
  for (const auto& l : a.limits) limits.push_back({{"text", l.text}, {"sd_mm", l.sd_mm}, {"share", l.share}});
  return fitwright::json_text({{"schema", fitwright::report_schema},
                               {"kind", word(a.request.kind)},
                               {"nominal_mm", a.request.nominal_mm},
                               {"fit", word(a.request.fit)},
                               {"draw_mm", a.draw_mm},
                               {"mate_draw_mm", a.mate_draw_mm ? Json(*a.mate_draw_mm) : Json()},
                               {"draw_u_mm", a.best_size_u_mm},
                               {"draw_range_mm", {a.draw_range_mm.lower, a.draw_range_mm.upper}},
                               {"printed_mm", ranged(a.printed_mm)},
                               {"clearance_mm", ranged(a.clearance_mm)},
                               {"chance", a.chance},
                               {"chance_of_grade", std::move(chances)},
                               {"wanted_chance", a.request.wanted_chance},
                               {"reached", a.reached},
                               {"thresholds", assumed ? "assumed" : "trials"},
                               {"limits", std::move(limits)},
                               {"reasons", a.reasons},
                               {"cautions", a.cautions}});
}

std::string text_of(const Allowance& a) {
  using fitwright::paragraph;
  std::string out = "Draw " + fixed(a.draw_mm, 2) + " mm";
  if (a.mate_draw_mm) out += ", and the other part " + fixed(*a.mate_draw_mm, 2) + " mm";
  out += " (± " + fixed(2 * a.best_size_u_mm, 2) + " mm, 95 %)\n";
  out += "Chance of a " + std::string(word(a.request.fit)) + " fit: " + fixed(100 * a.chance, 0) + " in 100\n\n";
  for (const std::string& reason : a.reasons) out += paragraph(reason, "", "  ");
  if (a.reached && a.draw_range_mm.upper - a.draw_range_mm.lower >= 0.01 && a.request.fit != fitwright::Fit::loose)
    out += paragraph("Any size from " + fixed(a.draw_range_mm.lower, 2) + " to " + fixed(a.draw_range_mm.upper, 2) +
                         " mm reaches " + fixed(100 * a.request.wanted_chance, 0) + " in 100.",
                     "", "  ");
  out += "\nWhat makes it uncertain:\n";
  for (const auto& l : a.limits) out += paragraph(fixed(100 * l.share, 0) + " %: " + l.text, "  ", "      ");
  if (!a.cautions.empty()) out += '\n';
  for (const std::string& caution : a.cautions) out += paragraph("Take care: " + caution, "", "  ");
  return out;
}

Outcome run(Words& words) {
  Outcome outcome;
  words.optional_word();
  fitwright::AllowanceRequest request;
  words.required("--kind");
  request.kind = *fitwright::size_kind_from(words.choice("--kind", {"hole", "peg", "slot", "tab"}));
  words.required("--nominal");
  request.nominal_mm = words.positive("--nominal", 1);
  words.required("--fit");
  request.fit = *fitwright::fit_from(words.choice("--fit", {"press", "snug", "sliding", "loose"}));
  request.wanted_chance = words.positive("--chance", request.wanted_chance);
  if (request.wanted_chance >= 1) words.complain("--chance is not below 1", "give a chance like 0.9");
  if (const auto share = words.text("--share"))
    if (const auto value = number_in(words, "--share", *share)) request.share = *value;
  request.facets = words.whole("--facets", 0, 0, 100000);
  if (words.text("--axis")) request.axis = words.choice("--axis", {"x", "y"}).front();
  request.mate = take_mate(words, request.kind, request.nominal_mm);
  const auto basis_request = take_basis(words, true, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  const auto basis = read_basis(basis_request, outcome);
  if (!basis) return outcome;
  const auto answer = got(fitwright::allowance(basis->basis, request), outcome);
  if (!answer) return outcome;
  outcome.out = words.flag("--json") ? json_of(*answer, basis->basis.thresholds.assumed) : text_of(*answer);
  return outcome;
}

}  // namespace

Command allowance_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "allowance",
                                       "What to draw so that it goes together as wanted, and the chance", footer);
  words->declare("--kind", "hole|peg|slot|tab", "What you draw");
  words->declare("--nominal", "MM", "Its size on paper");
  words->declare("--fit", "press|snug|sliding|loose", "How it should go together");
  words->declare("--mate", "MM|printed",
                 "Size of the other part, or that it is printed too (default: exactly the nominal)");
  words->declare_flag("--measured", "The mate was read with the caliper that read the coupons: its error cancels");
  words->declare("--part", "WORDS", "Hardware as the mate: \"bearing 608\", \"M3 nut\", \"magnet 6x3\"");
  words->declare("--chance", "0.9", "Chance that is wanted (0.9)");
  words->declare("--share", "0.5", "Both printed: this part's share of the clearance (0.5)");
  words->declare("--axis", "x|y", "Slot or tab: along which axis of the machine it is measured");
  words->declare("--facets", "N", "Sides of the polygon that is drawn as a circle (0: a true circle)");
  declare_basis(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
