// fitw record show: all of one thing.

#include "base/number.hpp"
#include "record/kept_correction.hpp"
#include "record/record_findings.hpp"
#include "record/teaching.hpp"
#include "record_any.hpp"
#include "record_json.hpp"
#include "record_parts.hpp"
#include "report/correct_report.hpp"
#include "report/finding_report.hpp"
#include "report/layout.hpp"
#include "report/wording.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Align;
using fitwright::fixed;
using fitwright::Json;
using fitwright::paragraph;

namespace {

constexpr double default_tolerance_mm = 0.1;

constexpr const char* footer = R"(Examples:
  fitw record show "slate on Heron"
  fitw record show "slate on Heron" --at 2026-11-20
                            the settings in force that day
  fitw record show "tool library" --tolerance 0.05
                            a caliper: its log, and what it can judge
  fitw record show Heron    machine and material apart)";

struct Request {
  std::string at;
  double tolerance_mm = default_tolerance_mm;
  bool as_json = false;
};

void remarks(rec::Record& record, const rec::Id& id, std::string& text, Json& json, Outcome& outcome) {
  const auto all = got(rec::all_of<rec::Remark>(record, "about", id), outcome);
  if (!all) return;
  json = Json::array();
  if (!all->empty()) text += "\nNotes\n";
  for (const auto& remark : *all) {
    json.push_back({{"at", remark.at}, {"words", remark.value.words}, {"picture", remark.value.picture}});
    text += paragraph(moment(remark.at) + ": " + remark.value.words +
                          (remark.value.picture.empty() ? "" : " (" + remark.value.picture + ')'),
                      "  ", "    ");
  }
}

std::string life_text(const rec::CorrectionLife& life) {
  std::string out = paragraph(short_id(life.correction.thing) + "  " + std::string(rec::word(life.standing)) + ": " +
                                  change_in_words(life.correction.value),
                              "  ", "    ");
  for (const auto& event : life.events)
    out += paragraph(
        moment(event.at) + ' ' + event.value.what + (event.value.reason.empty() ? "" : ": " + event.value.reason),
        "    ", "      ");
  return out;
}

Json chart_json(const std::optional<fitwright::Chart>& chart) {
  if (!chart) return nullptr;
  Json steps = Json::array();
  for (const auto& step : chart->steps)
    steps.push_back(
        {{"label", step.label}, {"value", step.value}, {"z", step.z}, {"limit", step.limit}, {"beyond", step.beyond}});
  return Json{{"mean", chart->mean},
              {"sd", chart->sd},
              {"baseline", chart->baseline},
              {"steps", std::move(steps)},
              {"sentence", chart->sentence}};
}

std::string charts_text(const rec::SetupCharts& charts) {
  std::string out = "\nIs it still what it was\n";
  if (charts.shrink) out += paragraph(charts.shrink->sentence, "  ", "  ");
  if (charts.edge) out += paragraph(charts.edge->sentence, "  ", "  ");
  for (const std::string& note : charts.notes) out += paragraph(note, "  ", "  ");
  return out;
}

void show_setup(rec::Record& record, const rec::Id& id, const Request& request, Outcome& outcome) {
  const auto setup = got(rec::one<rec::Setup>(record, id), outcome);
  if (!setup) return;
  const auto view = view_of(record, *setup, request.at, outcome);
  const auto charts = got(rec::setup_charts(record, id), outcome);
  fitwright::FindingOptions options;
  options.tolerance_mm = request.tolerance_mm;
  const auto found = got(rec::record_findings(record, id, options), outcome);
  if (!view || !charts || !found) return;
  const auto forecast = rec::expected_of_spool(record, id);
  const rec::ExpectedOfSpool* expected = forecast && view && !view->state.calibrated ? &*forecast : nullptr;

  std::string text = setup->value.name + ": " + view->printer + ", " + view->spool + ", id " + short_id(id) + '\n';
  text += "\nIn force " + (request.at.empty() ? std::string("now") : moment(request.at)) + ", since " +
          moment(view->state.since) + '\n' + paragraph(state_in_words(view->state.state), "  ", "    ");
  for (const std::string& note : view->state.notes) text += paragraph(note, "  ! ", "    ");
  if (!found->empty()) text += '\n' + fitwright::findings_text(*found);
  if (!view->copies.empty()) {
    std::vector<std::vector<std::string>> rows{{"print", "coupon", "turned", "printed on", "readings", ""}};
    for (const auto& copy : view->copies)
      rows.push_back({std::to_string(copy.copy.value.print), copy.design, std::to_string(copy.copy.value.turned_deg),
                      copy.copy.value.printed_on, std::to_string(copy.readings),
                      copy.other_state.empty() ? "" : "other settings"});
    text += "\nCopies\n" +
            fitwright::columns(rows, {Align::right, Align::left, Align::right, Align::left, Align::right, Align::left});
    text += "  " + cost_in_words(view->cost) +
            (view->cost.price_basis.empty() ? "" : " (" + view->cost.price_basis + ')') + '\n';
  }
  if (!view->corrections.empty()) text += "\nCorrections\n";
  for (const auto& life : view->corrections) text += life_text(life);
  if (expected) {
    text += "\nExpected of this spool, not measured\n" + paragraph(expected->forecast.sentence, "  ", "  ");
    text += paragraph("To begin with: size factor " + knob_value("size_factor", expected->size_factor) + " (" +
                          knob_value("size_factor", expected->size_factor_lower) + " to " +
                          knob_value("size_factor", expected->size_factor_upper) + ')',
                      "  ", "  ");
    for (const std::string& note : expected->notes) text += paragraph(note, "  ", "  ");
  }
  text += charts_text(*charts);
  Json notes;
  remarks(record, id, text, notes, outcome);
  if (!request.as_json) {
    outcome.out = text;
    return;
  }
  Json json{{"schema", fitwright::report_schema}, {"kind", "setup"}};
  json.update(setup_json(*view));
  json["expected"] = nullptr;
  if (expected)
    json["expected"] = Json{{"size_factor", expected->size_factor},
                            {"lower", expected->size_factor_lower},
                            {"upper", expected->size_factor_upper},
                            {"spools", expected->forecast.spools},
                            {"sentence", expected->forecast.sentence}};
  json["charts"] =
      Json{{"shrink", chart_json(charts->shrink)}, {"edge", chart_json(charts->edge)}, {"notes", charts->notes}};
  Json findings = Json::array();
  for (const auto& f : *found)
    findings.push_back({{"id", f.id},
                        {"severity", fitwright::word(f.severity)},
                        {"text", f.text},
                        {"because", f.because},
                        {"action", f.action}});
  json["findings"] = std::move(findings);
  json["remarks"] = std::move(notes);
  outcome.out = fitwright::json_text(json);
}

void show_caliper(rec::Record& record, const rec::Id& id, const Request& request, Outcome& outcome) {
  const auto caliper = got(rec::one<rec::Caliper>(record, id), outcome);
  if (!caliper) return;
  const auto log = got(rec::caliper_log(record, id), outcome);
  if (!log) return;
  const auto verdict = fitwright::judge(*log, request.tolerance_mm);
  std::string text = caliper->value.name + ": caliper, display " + fitwright::shortest(caliper->value.resolution_mm) +
                     " mm, id " + short_id(id) + "\n\n" + paragraph(verdict.sentence, "", "") +
                     paragraph(verdict.because, "  ", "  ");
  if (!verdict.advice.empty()) text += paragraph("To do: " + verdict.advice, "  ", "  ");
  std::vector<std::vector<std::string>> rows{{"", "true, mm", "day", "times", "mean error, mm"}};
  Json series = Json::array();
  Json sentences = Json::array();
  std::string charts;
  constexpr int error_decimals = 3;
  for (const auto& s : log->series) {
    Json sessions = Json::array();
    for (const auto& session : s.sessions) {
      rows.push_back({s.reference.empty() ? std::string(fitwright::word(s.kind)) : s.reference,
                      fitwright::shortest(s.true_mm), fitwright::date_of(session.day), std::to_string(session.readings),
                      fitwright::with_sign(session.error_mm, error_decimals)});
      sessions.push_back(
          {{"date", fitwright::date_of(session.day)}, {"readings", session.readings}, {"error_mm", session.error_mm}});
    }
    if (const auto chart = fitwright::steel_chart(s)) {
      charts += paragraph(chart->sentence, "  ", "  ");
      sentences.push_back(chart->sentence);
    }
    Json drift = nullptr;
    if (s.drift)
      drift = Json{{"per_month_mm", s.drift->per_month_mm},
                   {"u", s.drift->u},
                   {"lower", s.drift->lower},
                   {"upper", s.drift->upper},
                   {"established", s.drift->established}};
    series.push_back({{"kind", fitwright::word(s.kind)},
                      {"reference", s.reference},
                      {"true_mm", s.true_mm},
                      {"sessions", std::move(sessions)},
                      {"drift", std::move(drift)}});
  }
  text += "\nLog\n" + fitwright::columns(rows, {Align::left, Align::right, Align::left, Align::right, Align::right});
  for (const std::string& note : log->notes) text += paragraph(note, "  ", "  ");
  if (!charts.empty()) text += "\nIs it still what it was\n" + charts;
  Json notes;
  remarks(record, id, text, notes, outcome);
  outcome.out = request.as_json ? fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                                            {"kind", "caliper"},
                                                            {"name", caliper->value.name},
                                                            {"id", id.text},
                                                            {"expanded_mm", log->expanded_mm},
                                                            {"repeatability_mm", log->repeatability_mm},
                                                            {"tolerance_mm", request.tolerance_mm},
                                                            {"capability_index", verdict.capability.index},
                                                            {"sentence", verdict.sentence},
                                                            {"because", verdict.because},
                                                            {"series", std::move(series)},
                                                            {"charts", std::move(sentences)},
                                                            {"notes", log->notes},
                                                            {"remarks", std::move(notes)}})
                                : text;
}

/// The split of scales into machine and material, told with its assumption beside every value.
void show_split(rec::Record& record, const std::string& printer, std::string& text, Json& json) {
  const auto split = rec::machine_and_material(record);
  json = nullptr;
  if (!split) {
    text += "\nMachine and material apart\n" + paragraph(split.problems().front().text(), "  ", "  ");
    return;
  }
  constexpr double percent = 100;
  constexpr int decimals = 3;
  json = Json{{"machines", Json::array()}, {"materials", Json::array()}, {"notes", split->notes}};
  text += "\nMachine and material apart\n";
  for (const auto& m : split->machines) {
    if (m.printer != printer) continue;
    json["machines"].push_back(
        {{"axis", std::string(1, m.axis)}, {"value", m.value}, {"u", m.u}, {"assumption", m.assumption}});
    text += paragraph(std::string("machine, ") + static_cast<char>(m.axis - 'a' + 'A') + ": " +
                          fitwright::with_sign(m.value * percent, decimals) + " %, standard uncertainty " +
                          fixed(m.u * percent, decimals) + " %; " + m.assumption,
                      "  ", "    ");
  }
  for (const auto& m : split->materials) {
    json["materials"].push_back({{"material", m.material},
                                 {"in_plane", m.in_plane},
                                 {"value", m.value},
                                 {"u", m.u},
                                 {"assumption", m.assumption}});
    text += paragraph(m.material + (m.in_plane ? ", in plane: shrinks " : ", along Z: shrinks ") +
                          fixed(m.value * percent, decimals) + " %, standard uncertainty " +
                          fixed(m.u * percent, decimals) + " %; " + m.assumption,
                      "  ", "    ");
  }
  for (const std::string& note : split->notes) text += paragraph(note, "  ", "  ");
}

void show_printer(rec::Record& record, const rec::Id& id, const Request& request, Outcome& outcome) {
  const auto printer = got(rec::one<rec::Printer>(record, id), outcome);
  const auto setups = got(rec::all_of<rec::Setup>(record, "printer", id), outcome);
  if (!printer || !setups) return;
  const rec::Printer& p = printer->value;
  std::string text = p.name + ": printer, bed " + fitwright::shortest(p.bed_x_mm) + " x " +
                     fitwright::shortest(p.bed_y_mm) + " mm, id " + short_id(id) + '\n';
  Json steps = Json{{"x", p.steps_x}, {"y", p.steps_y}, {"z", p.steps_z}, {"e", p.steps_e}};
  Json list = Json::array();
  std::string lines;
  for (const auto& setup : *setups) {
    const auto now = got(rec::state_in_force(record, setup.thing, request.at), outcome);
    if (!now) return;
    steps = state_json(now->state)["steps_per_mm"];
    list.push_back(setup.value.name);
    lines += paragraph(setup.value.name + ": " + state_in_words(now->state), "  ", "    ");
  }
  text += "\nSteps per mm in force: X " + fitwright::shortest(steps["x"]) + ", Y " + fitwright::shortest(steps["y"]) +
          ", Z " + fitwright::shortest(steps["z"]) + ", E " + fitwright::shortest(steps["e"]) + '\n';
  if (!lines.empty()) text += "\nSetups\n" + lines;
  Json split, notes;
  show_split(record, p.name, text, split);
  remarks(record, id, text, notes, outcome);
  outcome.out = request.as_json ? fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                                            {"kind", "printer"},
                                                            {"name", p.name},
                                                            {"id", id.text},
                                                            {"bed_mm", {p.bed_x_mm, p.bed_y_mm}},
                                                            {"steps_per_mm", std::move(steps)},
                                                            {"setups", std::move(list)},
                                                            {"split", std::move(split)},
                                                            {"remarks", std::move(notes)}})
                                : text;
}

void show_correction(rec::Record& record, const rec::Id& id, const Request& request, Outcome& outcome) {
  const auto life = got(rec::life_of(record, id), outcome);
  if (!life) return;
  std::string text = life_text(*life);
  Json notes;
  if (const auto whole = rec::correction_from(life->correction.value); whole && !whole->changes.empty())
    text += '\n' + fitwright::correct_text(*whole);
  remarks(record, id, text, notes, outcome);
  Json json{{"schema", fitwright::report_schema}, {"kind", "correction"}};
  json.update(correction_json(*life));
  json["remarks"] = std::move(notes);
  outcome.out = request.as_json ? fitwright::json_text(json) : text;
}

/// Things that have nothing but a name and notes.
void show_plain(rec::Record& record, const Thing& thing, const Request& request, Outcome& outcome) {
  std::string text = thing.name + ": " + thing.kind + ", id " + short_id(thing.id) + '\n';
  Json notes;
  remarks(record, thing.id, text, notes, outcome);
  outcome.out = request.as_json ? fitwright::json_text(Json{{"schema", fitwright::report_schema},
                                                            {"kind", thing.kind},
                                                            {"name", thing.name},
                                                            {"id", thing.id.text},
                                                            {"remarks", std::move(notes)}})
                                : text;
}

Outcome run(Words& words) {
  Outcome outcome;
  const std::string typed = words.word();
  const Request request{take_at(words, true), words.positive("--tolerance", default_tolerance_mm),
                        words.flag("--json")};
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::look, path, outcome);
  if (!record) return outcome;
  const auto thing = got(find_any(*record, typed), outcome);
  if (!thing) return outcome;
  if (thing->kind == "setup")
    show_setup(*record, thing->id, request, outcome);
  else if (thing->kind == "caliper")
    show_caliper(*record, thing->id, request, outcome);
  else if (thing->kind == "printer")
    show_printer(*record, thing->id, request, outcome);
  else if (thing->kind == "correction")
    show_correction(*record, thing->id, request, outcome);
  else
    show_plain(*record, *thing, request, outcome);
  return outcome;
}

}  // namespace

Command record_show_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "show", "All of a setup, printer, caliper or correction", footer);
  words->declare_word("NAME|ID", "What it is called; a correction by its id, or last");
  declare_at(*words, "The settings as they were then");
  words->declare("--tolerance", "MM", "What the caliper is to judge (0.1)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
