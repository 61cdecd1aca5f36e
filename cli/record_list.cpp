// fitw record list: what is in the record.

#include "record_json.hpp"
#include "record_parts.hpp"
#include "report/layout.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Align;
using fitwright::Json;
using fitwright::paragraph;

namespace {

constexpr const char* footer = R"(Examples:
  fitw record list
  fitw record list --record other-bench.fitwright --json)";

template <class T>
Json named_json(const std::vector<rec::Kept<T>>& things) {
  Json out = Json::array();
  for (const auto& kept : things) out.push_back({{"name", kept.value.name}, {"id", kept.thing.text}});
  return out;
}

template <class T>
std::string named_text(const char* title, const std::vector<rec::Kept<T>>& things) {
  std::string names;
  for (const auto& kept : things) names += (names.empty() ? "" : "; ") + kept.value.name;
  return names.empty() ? names : paragraph(std::string(title) + ": " + names, "", "  ");
}

std::string setup_text(const SetupView& view) {
  std::string out = '\n' + view.setup.value.name + " (" + view.printer + ", " + view.spool + ")\n";
  out += paragraph(state_in_words(view.state.state), "  ", "    ");
  for (const std::string& note : view.state.notes) out += paragraph(note, "  ! ", "    ");
  int read = 0, readings = 0;
  for (const auto& copy : view.copies) {
    read += copy.readings > 0;
    readings += copy.readings;
  }
  std::string copies = std::to_string(view.copies.size()) + " copies, " + std::to_string(read) + " of them read (" +
                       std::to_string(readings) + " readings)";
  if (const std::string cost = cost_in_words(view.cost); !cost.empty()) copies += "; " + cost;
  out += paragraph(copies, "  ", "    ");
  std::vector<std::vector<std::string>> rows;
  for (const auto& life : view.corrections)
    out += paragraph(short_id(life.correction.thing) + "  " + std::string(rec::word(life.standing)) + ' ' +
                         last_step(life) + ": " + change_in_words(life.correction.value),
                     "  ", "    ");
  return out;
}

Outcome run(Words& words) {
  Outcome outcome;
  words.word();
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::look, path, outcome);
  if (!record) return outcome;
  const auto printers = got(rec::all<rec::Printer>(*record), outcome);
  const auto spools = got(rec::all<rec::Spool>(*record), outcome);
  const auto calipers = got(rec::all<rec::Caliper>(*record), outcome);
  const auto setups = got(rec::all<rec::Setup>(*record), outcome);
  if (!outcome.problems.empty()) return outcome;
  std::vector<SetupView> views;
  for (const auto& setup : *setups)
    if (auto view = view_of(*record, setup, {}, outcome)) views.push_back(std::move(*view));
  if (!outcome.problems.empty()) return outcome;
  if (words.flag("--json")) {
    Json list = Json::array();
    for (const auto& view : views) list.push_back(setup_json(view));
    outcome.out = fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                            {"record", path},
                                            {"printers", named_json(*printers)},
                                            {"spools", named_json(*spools)},
                                            {"calipers", named_json(*calipers)},
                                            {"setups", std::move(list)}});
    return outcome;
  }
  outcome.out = path + '\n' + named_text("Printers", *printers) + named_text("Spools", *spools) +
                named_text("Calipers", *calipers);
  for (const auto& view : views) outcome.out += setup_text(view);
  if (views.empty()) outcome.out += "No setup yet; fitw record add setup --help tells how to begin one\n";
  return outcome;
}

}  // namespace

Command record_list_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "list", "Setups with their settings, copies, corrections and cost", footer);
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
