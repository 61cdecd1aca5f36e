#include <filesystem>

#include "base/words.hpp"
#include "bench/bench.hpp"
#include "bench/measuring/measure_view.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

std::string document_name(const Document& document) {
  if (!document.path().empty()) return std::filesystem::path(document.path()).stem().string();
  const std::string& source = document.content().readings->source;
  return source.empty() ? tr("New readings") : source;
}

}  // namespace

std::string knob_shown(std::string_view knob, double value) {
  const int decimals = knob == "size_factor" ? 5 : knob.starts_with("steps_per_mm") ? 4 : 3;
  std::string text = said_fixed(value, decimals);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with(decimal_sign())) text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string state_words(const State& s) {
  const auto steps = [](double value) { return knob_shown("steps_per_mm", value); };
  return typeset(said("size factor {}, outline offset {} mm, flow {}, {} / {} / {} steps per mm",
                      knob_shown("size_factor", s.size_factor), knob_shown("outline_offset_mm", s.outline_offset_mm),
                      knob_shown("flow", s.flow), steps(s.steps_per_mm.x), steps(s.steps_per_mm.y),
                      steps(s.steps_per_mm.z)));
}

BenchHeader bench_header(const Bench& bench, const std::string& product) {
  BenchHeader h;
  if (const auto& on = bench.setup()) {
    const State& state = on->in_force.state;
    h.printer = on->printer.value.name;
    h.material = on->spool.value.name;
    h.layers = typeset(said("{} mm nozzle, {} mm layers", said_shortest(on->setup.value.nozzle_mm),
                            said_shortest(state.layer_height_mm)));
    h.caliper = bench.caliper() ? bench.caliper()->value.name : tr("caliper not named");
    h.state = said("In force: {}", state_words(state));
    if (on->in_force.due)
      h.warning = tr("The printer's steps were changed since this was calibrated: Correct has the new numbers.");
    else if (on->in_force.stale)
      h.warning = tr("The printer's steps were changed; nothing read before that counts for this setup.");
    h.title = h.printer + ", " + h.material + " \u2013 " + product;
  } else if (!bench.document().content().measuring.plan && bench.document().content().readings->rows.empty()) {
    h.printer = tr("nothing yet");
    h.title = product;
  } else {
    h.printer = document_name(bench.document());
    h.material = tr("readings of a file, not in the record");
    h.state = said("Printed with {}", state_words(bench.document().content().state));
    h.title = (bench.document().dirty() ? "\u2022 " : "") + h.printer + " \u2013 " + product;
  }
  if (!bench.not_kept().empty()) {
    const Problem& first = bench.not_kept().front();
    h.warning = said("Not kept in the record: {}; {}.", first.what, first.remedy);
  } else if (bench.demo()) {
    if (h.warning.empty()) h.state = said("{}. The demo: look around, nothing is kept.", h.state);
  } else if (bench.record().in_memory()) {
    h.warning = (bench.notes().empty() ? std::string() : bench.notes().front() + ". ") +
                tr("Work goes on in memory: History saves the record elsewhere.");
  }
  for (const std::string& part : {h.printer, h.material, h.layers, h.caliper, h.state, h.warning})
    if (!part.empty()) h.said += (h.said.empty() ? "" : ". ") + part;
  return h;
}

std::vector<PlaceLine> place_lines(const Bench& bench, const BenchView& view) {
  constexpr const char* tick = "\u2713";
  const Content& content = bench.document().content();
  const bool planned = content.measuring.plan != nullptr;
  std::vector<PlaceLine> lines;
  for (const Stage stage : all_places()) {
    PlaceLine line{stage, name_of(stage), {}, {}};
    switch (stage) {
      case Stage::setup:
        if (bench.setup()) line.mark = tick, line.said = tr("a setup is on the bench");
        break;
      case Stage::make:
        if (planned) line.mark = tick, line.said = tr("there is a coupon to measure");
        break;
      case Stage::measure: {
        if (!planned) break;
        const MeasureView m = measure_view(content.measuring);
        if (m.finished && m.done > 0) {
          line.mark = tick, line.said = tr("all is read");
        } else {
          line.mark = std::to_string(m.total - m.done);
          line.said = said_many("{} reading is due", "{} readings are due", m.total - m.done);
        }
        break;
      }
      case Stage::understand: {
        std::size_t acts = 0;
        for (const FindingLine& f : view.findings) acts += f.severity == Severity::act;
        if (acts)
          line.mark = std::to_string(acts), line.said = said_many("{} finding asks for something to be done",
                                                                  "{} findings ask for something to be done", acts);
        else if (!view.findings.empty())
          line.mark = tick, line.said = tr("nothing asks to be done");
        break;
      }
      case Stage::correct:
        if (!view.corrections.rows.empty()) {
          line.mark = std::to_string(view.corrections.rows.size());
          line.said = said_many("{} setting to change", "{} settings to change", view.corrections.rows.size());
        }
        break;
      case Stage::history:
      case Stage::fits:
        break;
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace fitwright
