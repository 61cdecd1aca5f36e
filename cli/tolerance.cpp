// fitw tolerance: limits and fits.

#include "commands.hpp"
#include "fits/iso286.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples:
  fitw tolerance "25 H7/g6"   a fit: limits of hole and shaft, clearance
  fitw tolerance "22 h6"      one class
  fitw tolerance "40 m"       general tolerance of class m (ISO 2768-1)

ISO 286-1 and ISO 286-2 for sizes up to 500 mm.)";

fitwright::Json limits_json(const fitwright::ClassLimits& limits) {
  return {{"class", limits.name}, {"upper_um", limits.upper_um}, {"lower_um", limits.lower_um}};
}

std::string json_of(const fitwright::ToleranceAnswer& a) {
  fitwright::Json out{{"schema", fitwright::report_schema}, {"nominal_mm", a.nominal_mm}};
  if (a.hole) out["hole"] = limits_json(*a.hole);
  if (a.shaft) out["shaft"] = limits_json(*a.shaft);
  if (a.fit) {
    out["clearance_max_um"] = *a.clearance_max_um;
    out["clearance_min_um"] = *a.clearance_min_um;
    out["fit"] = word(*a.fit);
  }
  if (a.general)
    out["general"] = {{"class", std::string(1, a.general->name)},
                      {"upper_um", a.general->plus_minus_mm * 1000},
                      {"lower_um", -a.general->plus_minus_mm * 1000}};
  return fitwright::json_text(out);
}

Outcome run(Words& words) {
  Outcome outcome;
  const std::string text = words.word();
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;
  const auto answer = fitwright::tolerance_of(text);
  if (!answer) {
    outcome.problems = answer.problems();
    return outcome;
  }
  if (words.flag("--json")) {
    outcome.out = json_of(*answer);
    return outcome;
  }
  std::string line;
  for (const char c : fitwright::in_words(*answer)) {
    if (c != '\n') {
      line += c;
      continue;
    }
    outcome.out += fitwright::paragraph(line, "", "  ");
    line.clear();
  }
  return outcome;
}

}  // namespace

Command tolerance_command(CLI::App& root) {
  auto words =
      std::make_unique<Words>(root, "tolerance", "Limits of ISO 286 and ISO 2768, and what a fit leaves", footer);
  words->declare_word("\"SIZE CLASS\"", "Like \"25 H7/g6\", \"25 H7\" or \"40 m\", between quotes");
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
