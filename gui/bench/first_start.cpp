#include "bench/first_start.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/quantity.hpp"
#include "bench/setup_forms.hpp"
#include "bench/shown.hpp"
#include "record/state_in_force.hpp"

namespace fitwright {
namespace {

using record::Kept;

/// Width of a bead to that of the nozzle (common practice, no source): 0.45 mm of a 0.4 mm nozzle.
constexpr double bead_per_nozzle = 1.125;

std::string or_usual(const std::string& typed, const std::string& usual) {
  const std::string text(without_blanks(typed));
  return text.empty() ? usual : text;
}

/// The answers with what was left out as usual.
SetupAnswers filled(SetupAnswers a) {
  const SetupAnswers usual;
  a.printer = or_usual(a.printer, usual.printer);
  a.bed_x = or_usual(a.bed_x, usual.bed_x);
  a.bed_y = or_usual(a.bed_y, usual.bed_y);
  a.material = or_usual(a.material, usual.material);
  a.spool = or_usual(a.spool, a.material);
  a.caliper = or_usual(a.caliper, usual.caliper);
  a.nozzle = or_usual(a.nozzle, usual.nozzle);
  a.layer = or_usual(a.layer, usual.layer);
  return a;
}

template <class T>
Result<const Kept<T>*> named(const Result<std::vector<Kept<T>>>& all, const std::string& name) {
  if (!all) return all.problems();
  for (const Kept<T>& kept : *all)
    if (kept.value.name == name) return &kept;
  return static_cast<const Kept<T>*>(nullptr);
}

/// The thing of that name, added when there is none.
template <class T>
Result<Kept<T>> found_or_added(record::Record& record, const T& value) {
  const auto all = record::all<T>(record);
  const auto found = named<T>(all, value.name);
  if (!found) return found.problems();
  if (*found) return **found;
  return record::add(record, value);
}

template <class T>
Result<std::vector<std::string>> names(record::Record& record) {
  const auto all = record::all<T>(record);
  if (!all) return all.problems();
  std::vector<std::string> out;
  for (const auto& kept : *all)
    if (std::find(out.begin(), out.end(), kept.value.name) == out.end()) out.push_back(kept.value.name);
  return out;
}

}  // namespace

const std::vector<MaterialKind>& material_kinds() {
  // Densities as makers' sheets commonly give them (common practice, no source); to be set right by the spool's own.
  static const std::vector<MaterialKind> kinds{{"PLA", 1.24}, {"PETG", 1.27}, {"ABS", 1.04}, {"ASA", 1.07},
                                               {"PA", 1.12},  {"PC", 1.20},   {"TPU", 1.21}};
  return kinds;
}

Result<SetupChoices> setup_choices(record::Record& record) {
  SetupChoices choices;
  const auto setups = record::all<record::Setup>(record);
  if (!setups) return setups.problems();
  choices.first = setups->empty();
  const auto take = [](Result<std::vector<std::string>> found, std::vector<std::string>& into) {
    if (found) into = *std::move(found);
    return found.ok() ? Problems{} : found.problems();
  };
  for (const Problems& problems :
       {take(names<record::Printer>(record), choices.printers), take(names<record::Spool>(record), choices.spools),
        take(names<record::Caliper>(record), choices.calipers),
        take(names<record::Material>(record), choices.materials)})
    if (!problems.empty()) return problems;
  for (const MaterialKind& kind : material_kinds())
    if (std::find(choices.materials.begin(), choices.materials.end(), kind.name) == choices.materials.end())
      choices.materials.push_back(kind.name);
  return choices;
}

std::map<std::string, std::string> wrong_answers(const SetupAnswers& answers) {
  const SetupAnswers a = filled(answers);
  std::map<std::string, std::string> wrong;
  const FieldOptions options{a.inches};
  const auto check = [&](const std::string& field, const auto& taken) {
    if (!taken)
      wrong[field] = capitalised(taken.problems().front().what + "; " + taken.problems().front().remedy + ".");
  };
  check("bed_x", with_field(record::Printer{}, "bed_x_mm", a.bed_x, options));
  check("bed_y", with_field(record::Printer{}, "bed_y_mm", a.bed_y, options));
  check("nozzle", with_field(record::Setup{}, "nozzle_mm", a.nozzle, options));
  check("layer", with_field(record::Setup{}, "layer_height_mm", a.layer, options));
  return wrong;
}

Result<Begun> begin_setup(record::Record& record, const SetupAnswers& answers) {
  const SetupAnswers a = filled(answers);
  Problems problems;
  for (const auto& [field, what] : wrong_answers(a)) problems.push_back({Code::bad_input, {}, what, {}});
  if (!problems.empty()) return problems;
  const FieldOptions options{a.inches};
  return record::guarded(record, [&]() -> Result<Begun> {
    record::Transaction transaction(record.database());
    record::Printer printer;
    printer.name = a.printer;
    printer = with_field(printer, "bed_x_mm", a.bed_x, options).value();
    printer = with_field(printer, "bed_y_mm", a.bed_y, options).value();
    const auto kept_printer = found_or_added(record, printer);
    if (!kept_printer) return kept_printer.problems();

    const auto spools = record::all<record::Spool>(record);
    const auto known_spool = named<record::Spool>(spools, a.spool);
    if (!known_spool) return known_spool.problems();
    record::Id spool_id;
    if (*known_spool) {
      spool_id = (*known_spool)->thing;
    } else {
      record::Material material;
      material.name = a.material;
      for (const MaterialKind& kind : material_kinds())
        if (kind.name == a.material) material.density_g_cm3 = kind.density_g_cm3;
      const auto kept_material = found_or_added(record, material);
      if (!kept_material) return kept_material.problems();
      record::Spool spool;
      spool.material = kept_material->thing;
      spool.name = a.spool;
      const auto kept_spool = record::add(record, spool);
      if (!kept_spool) return kept_spool.problems();
      spool_id = kept_spool->thing;
    }

    record::Caliper caliper;
    caliper.name = a.caliper;
    const auto kept_caliper = found_or_added(record, caliper);
    if (!kept_caliper) return kept_caliper.problems();

    State state;
    const auto& p = kept_printer->value;
    state.steps_per_mm = {p.steps_x, p.steps_y, p.steps_z, p.steps_e};
    record::Setup setup;
    setup.printer = kept_printer->thing;
    setup.spool = spool_id;
    setup = with_field(setup, "nozzle_mm", a.nozzle, options).value();
    state.bead_width_mm =
        setup.nozzle_mm == record::Setup{}.nozzle_mm ? state.bead_width_mm : bead_per_nozzle * setup.nozzle_mm;
    setup.state = to_json(state);
    setup = with_field(setup, "layer_height_mm", a.layer, options).value();
    setup.name = a.printer + ", " + a.spool;
    const auto setups = record::all<record::Setup>(record);
    if (const auto same = named<record::Setup>(setups, setup.name); !same)
      return same.problems();
    else if (*same)
      setup.name = said("{}, {} nozzle, {} layers", setup.name, in_field(setup.nozzle_mm, Unit::mm), a.layer);
    const auto kept_setup = record::add(record, setup);
    if (!kept_setup) return kept_setup.problems();
    transaction.commit();
    return Begun{kept_setup->thing, kept_caliper->thing};
  });
}

}  // namespace fitwright
