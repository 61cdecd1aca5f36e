// fitw record add printer, material, spool, caliper, setup: what a calibration is valid for.

#include "axes.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "readings.hpp"
#include "record/drive.hpp"
#include "record_fields.hpp"
#include "record_parts.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::quote;

namespace {

constexpr const char* printer_footer = R"(Examples:
  fitw record add printer Heron --set bed_x_mm=220 bed_y_mm=220 steps_x=80 \
       steps_y=80 steps_z=400 steps_e=93

--set takes bed_x_mm, bed_y_mm, steps_x, steps_y, steps_z, steps_e (steps per mm
as they are set now) and note.

Take care: note the steps as the machine has them. They are what every later
correction begins with.)";
constexpr const char* material_footer = R"(Examples:
  fitw record add material PETG --set density_g_cm3=1.27

--set takes density_g_cm3 (1.24) and note.)";
constexpr const char* spool_footer = R"(Examples:
  fitw record add spool "PLA slate, batch 14" --material PLA \
       --set colour=slate batch=14 price_per_kg=22 currency=EUR

--set takes colour, batch, price_per_kg, currency and note.)";
constexpr const char* caliper_footer = R"(Examples:
  fitw record add caliper "tool library" --set resolution_mm=0.01 serial=0417

--set takes resolution_mm (0.01), serial and note.)";
constexpr const char* setup_footer = R"(Examples:
  fitw record add setup "slate on Heron" --printer Heron \
       --spool "PLA slate, batch 14" --set nozzle_mm=0.4 nozzle_c=210 bed_c=60
  fitw record add setup "clear on Wren" --printer Wren --spool "PETG clear" \
       --state wren.json

--state gives the settings as they are now (docs/formats.md); without it, and
for what it leaves out, the usual ones. --set takes nozzle_mm, nozzle_c, bed_c,
note, and any setting of the state by its name (size_factor=1.002). Steps per mm
are the printer's.)";

/// Adds a thing that has a name, unless there is one of that name.
template <class T>
void add_named(rec::Record& record, const std::string& kind, const T& value, const std::string& at, bool as_json,
               Outcome& outcome) {
  const auto all = got(rec::all<T>(record), outcome);
  if (!all) return;
  for (const auto& kept : *all)
    if (kept.value.name == value.name) {
      outcome.problems.push_back({fitwright::Code::bad_input,
                                  {},
                                  "the record has a " + kind + ' ' + quote(value.name) + " already",
                                  "give another name; fitw record show " + short_id(kept.thing) + " tells of it"});
      return;
    }
  if (const auto kept = got(rec::add(record, value, at), outcome))
    outcome.out = added_text({kind, value.name, kept->thing, kept->at}, as_json);
}

/// What all of them take after their name and their own words.
struct Common {
  std::string path, at;
  bool as_json = false;
};

Common take_common(Words& words, Outcome& outcome) {
  Common c{take_record_path(words, outcome), take_at(words), words.flag("--json")};
  add(outcome.problems, words.problems());
  return c;
}

void declare_common(Words& words) {
  words.declare_settings("--set", "NAME=VALUE", "One of its values (below); may be given again");
  declare_at(words, "When it was entered (now)");
  declare_record(words);
  words.declare_flag("--json", "One JSON document instead of text");
}

Outcome add_printer(Words& words) {
  Outcome outcome;
  rec::Printer printer;
  printer.name = words.word();
  Fields()
      .positive("bed_x_mm", printer.bed_x_mm)
      .positive("bed_y_mm", printer.bed_y_mm)
      .positive("steps_x", printer.steps_x)
      .positive("steps_y", printer.steps_y)
      .positive("steps_z", printer.steps_z)
      .positive("steps_e", printer.steps_e)
      .text("note", printer.note)
      .take(words);
  printer.drive = rec::to_json(take_drive(words));
  const Common c = take_common(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  if (auto record = open_for(Use::begin, c.path, outcome))
    add_named(*record, "printer", printer, c.at, c.as_json, outcome);
  return outcome;
}

Outcome add_material(Words& words) {
  Outcome outcome;
  rec::Material material;
  material.name = words.word();
  Fields().positive("density_g_cm3", material.density_g_cm3).text("note", material.note).take(words);
  const Common c = take_common(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  if (auto record = open_for(Use::begin, c.path, outcome))
    add_named(*record, "material", material, c.at, c.as_json, outcome);
  return outcome;
}

Outcome add_spool(Words& words) {
  Outcome outcome;
  rec::Spool spool;
  spool.name = words.word();
  const std::string material = words.required("--material");
  Fields()
      .text("colour", spool.colour)
      .text("batch", spool.batch)
      .positive("price_per_kg", spool.price_per_kg)
      .text("currency", spool.currency)
      .text("note", spool.note)
      .take(words);
  const Common c = take_common(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, c.path, outcome);
  if (!record) return outcome;
  const auto of = got(find<rec::Material>(*record, material), outcome);
  if (!of) return outcome;
  spool.material = of->thing;
  add_named(*record, "spool", spool, c.at, c.as_json, outcome);
  return outcome;
}

Outcome add_caliper(Words& words) {
  Outcome outcome;
  rec::Caliper caliper;
  caliper.name = words.word();
  Fields()
      .positive("resolution_mm", caliper.resolution_mm)
      .text("serial", caliper.serial)
      .text("note", caliper.note)
      .take(words);
  const Common c = take_common(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  if (auto record = open_for(Use::begin, c.path, outcome))
    add_named(*record, "caliper", caliper, c.at, c.as_json, outcome);
  return outcome;
}

/// The settings with the printer's steps instead of their own, which is told where it changes them.
void take_printers_steps(rec::Record& record, const rec::Kept<rec::Setup>& setup, const fitwright::State& given,
                         Outcome& outcome) {
  const auto now = rec::state_in_force(record, setup.thing);
  if (!now) return add(outcome.problems, now.problems());
  fitwright::State with = given;
  with.steps_per_mm = now->state.steps_per_mm;
  if (const auto differing = rec::differences(with, given); !differing.empty())
    outcome.notes.push_back("the steps are those of the printer: " + rec::in_words(differing));
}

Outcome add_setup(Words& words) {
  Outcome outcome;
  rec::Setup setup;
  setup.name = words.word();
  const std::string printer = words.required("--printer"), spool = words.required("--spool");
  const auto state_path = words.text("--state");
  std::optional<fitwright::State> given;
  if (state_path) given = read_parsed(*state_path, fitwright::parse_state, outcome);
  fitwright::State state = given.value_or(fitwright::State{});
  Fields()
      .positive("nozzle_mm", setup.nozzle_mm)
      .number("nozzle_c", setup.nozzle_c)
      .number("bed_c", setup.bed_c)
      .text("note", setup.note)
      .knobs(state)
      .take(words);
  const Common c = take_common(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  const auto sound = fitwright::parse_state(fitwright::to_json(state), "--set");
  if (!sound) {  // told without the place in a text that nobody typed
    for (fitwright::Problem p : sound.problems()) {
      p.where = {};
      p.code = fitwright::Code::usage;
      outcome.problems.push_back(p);
    }
    return outcome;
  }
  auto record = open_for(Use::change, c.path, outcome);
  if (!record) return outcome;
  const auto of_printer = got(find<rec::Printer>(*record, printer), outcome);
  const auto of_spool = got(find<rec::Spool>(*record, spool), outcome);
  if (!of_printer || !of_spool) return outcome;
  setup.printer = of_printer->thing;
  setup.spool = of_spool->thing;
  setup.state = fitwright::to_json(state);
  add_named(*record, "setup", setup, c.at, c.as_json, outcome);
  if (given && outcome.problems.empty())
    if (const auto kept = got(find<rec::Setup>(*record, setup.name), outcome))
      take_printers_steps(*record, *kept, state, outcome);
  return outcome;
}

}  // namespace

Command add_printer_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "printer", "A printer, with its steps per mm as they are now", printer_footer);
  words->declare_word("NAME", "What you call it");
  declare_drive(*words);
  declare_common(*words);
  return {std::move(words), add_printer};
}

Command add_material_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "material", "A material: what spools are of", material_footer);
  words->declare_word("NAME", "PLA, PETG, ...");
  declare_common(*words);
  return {std::move(words), add_material};
}

Command add_spool_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "spool", "A spool: shrinkage differs from batch to batch", spool_footer);
  words->declare_word("NAME", "Material, colour and batch");
  words->declare("--material", "NAME", "What it is of");
  declare_common(*words);
  return {std::move(words), add_spool};
}

Command add_caliper_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "caliper", "A caliper", caliper_footer);
  words->declare_word("NAME", "What you call it");
  declare_common(*words);
  return {std::move(words), add_caliper};
}

Command add_setup_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "setup", "Printer, spool and settings: what a calibration is valid for",
                                       setup_footer);
  words->declare_word("NAME", "What you call it");
  words->declare("--printer", "NAME", "A printer of the record");
  words->declare("--spool", "NAME", "A spool of the record");
  words->declare("--state", "STATE.json", "The settings as they are now");
  declare_common(*words);
  return {std::move(words), add_setup};
}

}  // namespace fitw
