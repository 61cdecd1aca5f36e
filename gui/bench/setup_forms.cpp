#include "bench/setup_forms.hpp"

#include <cmath>
#include <functional>
#include <optional>
#include <stdexcept>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/bench.hpp"
#include "bench/quantity.hpp"
#include "bench/shown.hpp"
#include "correct/theory.hpp"
#include "record/drive.hpp"

namespace fitwright {
namespace {

/// A field of a thing: how it is shown, and how what is typed gets into it.
template <class T>
struct Spec {
  std::string key, label, hint, note;
  std::function<std::string(const T&)> show;
  std::function<Result<Done>(T&, const std::string&, const FieldOptions&)> take;
  bool words = false;
};

Problem wrong(const std::string& what, const std::string& remedy) { return {Code::bad_input, {}, what, remedy}; }

Problem out_of_range(double value, double least, double most, Unit unit) {
  return wrong(said("{} is out of range", in_field(value, unit)),
               said("type {} to {}", in_field(least, unit), in_field(most, unit)));
}

template <class T>
Spec<T> words(const std::string& key, const std::string& label, std::string T::*member, bool needed,
              const std::string& hint = {}, const std::string& note = {}) {
  return {key,
          label,
          hint,
          note,
          [member](const T& t) { return t.*member; },
          [member, needed, label](T& t, const std::string& typed, const FieldOptions&) -> Result<Done> {
            const std::string text(without_blanks(typed));
            if (needed && text.empty())
              return wrong(said("a {} is needed", folded(tr(label.c_str()))), tr("type any words"));
            t.*member = text;
            return Done{};
          },
          true};
}

/// A number above zero; `get` gives a reference to a double or an optional one, which may then be left empty.
template <class T, class Get>
Spec<T> number(const std::string& key, const std::string& label, Unit unit, double least, double most, Get get,
               const std::string& hint = {}, const std::string& note = {}) {
  using Held = std::remove_cvref_t<decltype(get(std::declval<T&>()))>;
  constexpr bool may_be_empty = std::is_same_v<Held, std::optional<double>>;
  return {key,
          label,
          hint,
          note,
          [get, unit](const T& t) -> std::string {
            T copy = t;
            const Held& held = get(copy);
            if constexpr (may_be_empty)
              return held ? in_field(*held, unit) : std::string();
            else
              return in_field(held, unit);
          },
          [get, unit, least, most](T& t, const std::string& typed, const FieldOptions& options) -> Result<Done> {
            if constexpr (may_be_empty)
              if (without_blanks(typed).empty()) {
                get(t).reset();
                return Done{};
              }
            const auto value = from_field(typed, unit, options.inches);
            if (!value) return value.problems();
            if (*value < least || *value > most) return out_of_range(*value, least, most, unit);
            get(t) = *value;
            return Done{};
          }};
}

// Ranges: what desk machines for filament have, wide (common practice, no source).
constexpr double least_bed_mm = 30, most_bed_mm = 2000;
constexpr double least_steps = 1, most_steps = 10000;

const std::vector<Spec<record::Printer>>& specs(const record::Printer*) {
  using P = record::Printer;
  static const std::vector<Spec<P>> all{
      words<P>("name", noted("Name"), &P::name, true),
      number<P>("bed_x_mm", noted("Bed along X"), Unit::mm, least_bed_mm, most_bed_mm,
                [](P& p) -> double& { return p.bed_x_mm; }),
      number<P>("bed_y_mm", noted("Bed along Y"), Unit::mm, least_bed_mm, most_bed_mm,
                [](P& p) -> double& { return p.bed_y_mm; }),
      number<P>(
          "steps_e", noted("Extruder"), Unit::steps_per_mm, least_steps, most_steps,
          [](P& p) -> double& { return p.steps_e; }, {}, noted("of filament")),
      words<P>("note", noted("Note"), &P::note, false),
  };
  return all;
}

const std::vector<Spec<record::Material>>& specs(const record::Material*) {
  using M = record::Material;
  static const std::vector<Spec<M>> all{
      words<M>("name", noted("Kind of material"), &M::name, true, "PLA"),
      number<M>(
          "density_g_cm3", noted("Density"), Unit::g_per_cm3, 0.5, 10, [](M& m) -> double& { return m.density_g_cm3; },
          {}, noted("by its maker's sheet")),
  };
  return all;
}

const std::vector<Spec<record::Spool>>& specs(const record::Spool*) {
  using S = record::Spool;
  static const std::vector<Spec<S>> all{
      words<S>("name", noted("Name"), &S::name, true, "PLA slate, batch 14"),
      words<S>("colour", noted("Colour"), &S::colour, false, noted("slate")),
      words<S>("batch", noted("Batch"), &S::batch, false, "14", noted("shrinkage differs from batch to batch")),
      number<S>(
          "price_per_kg", noted("Price"), Unit::per_kg, 0, 10000,
          [](S& s) -> std::optional<double>& { return s.price_per_kg; }, noted("24 per kg"),
          noted("for what a coupon costs")),
      words<S>("currency", noted("Currency"), &S::currency, false, "EUR"),
  };
  return all;
}

const std::vector<Spec<record::Caliper>>& specs(const record::Caliper*) {
  using C = record::Caliper;
  static const std::vector<Spec<C>> all{
      words<C>("name", noted("Name"), &C::name, true),
      number<C>("resolution_mm", noted("Smallest step shown"), Unit::mm, 0.0001, 1,
                [](C& c) -> double& { return c.resolution_mm; }),
      words<C>("serial", noted("Serial number"), &C::serial, false, noted("as engraved on it")),
  };
  return all;
}

State state_of(const record::Setup& setup) {
  const auto state = parse_state(setup.state.empty() ? "{}" : setup.state, "the record");
  return state ? *state : State{};
}

/// A knob of the settings that the setup began with.
Spec<record::Setup> knob(const std::string& key, const std::string& label, double least, double most,
                         const std::string& note = {}) {
  using S = record::Setup;
  const auto value = [key](const S& s) {
    for (const auto& [name, v] : by_knob(state_of(s)))
      if (name == key) return v;
    return 0.0;
  };
  return {key,
          label,
          {},
          note,
          [value](const S& s) { return in_field(value(s), Unit::mm); },
          [=](S& s, const std::string& typed, const FieldOptions& options) -> Result<Done> {
            const auto typed_value = from_field(typed, Unit::mm, options.inches);
            if (!typed_value) return typed_value.problems();
            if (*typed_value < least || *typed_value > most) return out_of_range(*typed_value, least, most, Unit::mm);
            if (*typed_value == value(s)) return Done{};
            State state = state_of(s);
            set_knob(state, key, *typed_value);
            s.state = to_json(state);
            return Done{};
          }};
}

const std::vector<Spec<record::Setup>>& specs(const record::Setup*) {
  using S = record::Setup;
  // Layers and beads: the ranges of the coupons' parameters (coupons/design/parameters.cpp).
  static const std::vector<Spec<S>> all{
      words<S>("name", noted("Name"), &S::name, true),
      number<S>("nozzle_mm", noted("Nozzle"), Unit::mm, 0.1, 2, [](S& s) -> double& { return s.nozzle_mm; }),
      knob("layer_height_mm", noted("Layer height"), 0.05, 0.6),
      knob("first_layer_height_mm", noted("First layer"), 0.05, 0.8),
      knob("bead_width_mm", noted("Bead width"), 0.2, 1.2, noted("as set where the print is prepared")),
      number<S>(
          "nozzle_c", noted("Hot end"), Unit::celsius, 100, 500,
          [](S& s) -> std::optional<double>& { return s.nozzle_c; }, "205 \u00b0C"),
      number<S>(
          "bed_c", noted("Bed"), Unit::celsius, 0, 200, [](S& s) -> std::optional<double>& { return s.bed_c; },
          "60 \u00b0C"),
      words<S>("note", noted("Note"), &S::note, false),
  };
  return all;
}

template <class T>
Form shown_form(const T& thing, const std::string& key, const std::string& title) {
  Form form{key, title, {}, {}};
  for (const Spec<T>& spec : specs(static_cast<const T*>(nullptr)))
    form.fields.push_back(
        {spec.key, tr(spec.label.c_str()), spec.show(thing), tr(spec.hint.c_str()), tr(spec.note.c_str()), spec.words});
  return form;
}

template <class T>
Result<T> taken(const T& thing, const std::string& key, const std::string& typed, const FieldOptions& options) {
  for (const Spec<T>& spec : specs(static_cast<const T*>(nullptr))) {
    if (spec.key != key) continue;
    if (spec.show(thing) == typed) return thing;
    T next = thing;
    if (const auto done = spec.take(next, typed, options); !done) return done.problems();
    return next;
  }
  throw std::logic_error("a form has no field " + key);
}

// ---- axes

struct AxisField {
  const char* key;
  const char* label;
  const char* hint;
  Unit unit;
};
constexpr AxisField axis_fields[] = {
    {"steps", noted("Steps noted"), noted("80 steps/mm"), Unit::steps_per_mm},
    {"motor", noted("Motor, steps a turn"), "200", Unit::none},
    {"micro", noted("Microsteps"), "16", Unit::none},
    {"pitch", noted("Belt pitch"), "2 mm", Unit::mm},
    {"teeth", noted("Pulley teeth"), "20", Unit::none},
    {"lead", noted("or screw lead"), "8 mm", Unit::mm},
};

record::Drives drives_of(const record::Printer& printer) {
  const auto drives = record::parse_drives(printer.drive, "the record");
  return drives ? *drives : record::Drives{};
}

double& steps_of(record::Printer& p, char axis) {
  return axis == 'x' ? p.steps_x : axis == 'y' ? p.steps_y : p.steps_z;
}
double steps_in(const StepsPerMm& s, char axis) { return axis == 'x' ? s.x : axis == 'y' ? s.y : s.z; }

std::optional<double> part_of(const Drive& drive, const std::string& key) {
  if (key == "motor") return drive.full_steps_per_turn;
  if (key == "micro") return drive.microsteps;
  if (key == "pitch") return drive.belt_pitch_mm;
  if (key == "teeth") return drive.pulley_teeth;
  return drive.screw_lead_mm;
}

void set_part(Drive& drive, const std::string& key, std::optional<double> value) {
  const Drive usual;
  if (key == "motor")
    drive.full_steps_per_turn = value.value_or(usual.full_steps_per_turn);
  else if (key == "micro")
    drive.microsteps = value.value_or(usual.microsteps);
  else if (key == "pitch")
    drive.belt_pitch_mm = value;
  else if (key == "teeth")
    drive.pulley_teeth = value;
  else
    drive.screw_lead_mm = value;
}

std::string axis_value(const record::Printer& printer, char axis, const AxisField& field) {
  record::Printer copy = printer;
  if (std::string(field.key) == "steps") return in_field(steps_of(copy, axis), field.unit);
  const record::Drives drives = drives_of(printer);
  const auto found = drives.find(axis);
  if (found == drives.end()) return {};
  const auto value = part_of(found->second, field.key);
  return value ? in_field(*value, field.unit) : std::string();
}

Result<record::Printer> with_axis(const record::Printer& printer, char axis, const AxisField& field,
                                  const std::string& typed, const FieldOptions& options) {
  if (typed == axis_value(printer, axis, field)) return printer;
  record::Printer next = printer;
  const std::string key = field.key;
  std::optional<double> value;
  if (!without_blanks(typed).empty()) {
    const auto number = from_field(typed, field.unit, options.inches);
    if (!number) return number.problems();
    if (*number <= 0 || *number > most_steps)
      return wrong(said("{} is out of range", in_field(*number, field.unit)),
                   said("type a number such as {}", tr(field.hint)));
    value = *number;
  }
  if (key == "steps") {
    if (!value) return wrong(tr("the steps are needed"), tr("type them as the machine has them, such as 80 steps/mm"));
    steps_of(next, axis) = *value;
    return next;
  }
  record::Drives drives = drives_of(printer);
  set_part(drives[axis], key, value);
  const Drive& d = drives[axis];
  const Drive usual;
  if (!d.belt_pitch_mm && !d.pulley_teeth && !d.screw_lead_mm && d.microsteps == usual.microsteps &&
      d.full_steps_per_turn == usual.full_steps_per_turn)
    drives.erase(axis);
  next.drive = record::to_json(drives);
  return next;
}

}  // namespace

Form form_of(const record::Printer& printer) { return printer_form(printer); }
Form form_of(const record::Material& material) { return material_form(material); }
Form form_of(const record::Spool& spool) { return spool_form(spool); }
Form form_of(const record::Caliper& caliper) { return caliper_form(caliper); }
Form form_of(const record::Setup& setup) { return setup_form(setup); }

Form printer_form(const record::Printer& printer) {
  Form form = shown_form(printer, "printer", tr("Printer"));
  for (const char axis : {'x', 'y', 'z'})
    for (const AxisField& f : axis_fields)
      form.fields.push_back(
          {std::string(1, axis) + "." + f.key, tr(f.label), axis_value(printer, axis, f), tr(f.hint), {}});
  return form;
}
Form material_form(const record::Material& material) { return shown_form(material, "material", tr("Material")); }
Form spool_form(const record::Spool& spool) { return shown_form(spool, "spool", tr("Spool")); }
Form caliper_form(const record::Caliper& caliper) { return shown_form(caliper, "caliper", tr("Caliper")); }
Form setup_form(const record::Setup& setup) { return shown_form(setup, "setup", tr("Setup")); }

Result<record::Printer> with_field(const record::Printer& printer, const std::string& key, const std::string& typed,
                                   const FieldOptions& options) {
  if (key.size() > 2 && key[1] == '.')
    for (const AxisField& f : axis_fields)
      if (key.substr(2) == f.key) return with_axis(printer, key[0], f, typed, options);
  return taken(printer, key, typed, options);
}
Result<record::Material> with_field(const record::Material& material, const std::string& key, const std::string& typed,
                                    const FieldOptions& options) {
  return taken(material, key, typed, options);
}
Result<record::Spool> with_field(const record::Spool& spool, const std::string& key, const std::string& typed,
                                 const FieldOptions& options) {
  return taken(spool, key, typed, options);
}
Result<record::Caliper> with_field(const record::Caliper& caliper, const std::string& key, const std::string& typed,
                                   const FieldOptions& options) {
  return taken(caliper, key, typed, options);
}
Result<record::Setup> with_field(const record::Setup& setup, const std::string& key, const std::string& typed,
                                 const FieldOptions& options) {
  return taken(setup, key, typed, options);
}

/// A calibrated value has digits without end; the fourth decimal moves 100 mm by about a micrometre.
static std::string steps_shown(double steps_per_mm) { return knob_shown("steps_per_mm", steps_per_mm); }

std::vector<AxisLine> axis_lines(const record::Printer& printer, const StepsPerMm& in_force) {
  std::vector<AxisLine> lines;
  const record::Drives drives = drives_of(printer);
  for (const char axis : {'x', 'y', 'z'}) {
    AxisLine line;
    line.axis = axis;
    for (const AxisField& f : axis_fields)
      line.fields.push_back(
          {std::string(1, axis) + "." + f.key, tr(f.label), axis_value(printer, axis, f), tr(f.hint), {}});
    const std::string name(1, static_cast<char>(axis - 'x' + 'X'));
    const double now = steps_in(in_force, axis);
    const auto drive = drives.find(axis);
    const auto theory = drive == drives.end() ? Result<double>(wrong("", "")) : theory_steps_per_mm(drive->second);
    if (theory) {
      line.theory = in_field(*theory, Unit::steps_per_mm);
      const double ratio = now / *theory - 1;
      line.apart = std::abs(ratio) > theory_limit;
      const std::string by_theory = steps_shown(*theory), present = steps_shown(now);
      line.said =
          line.apart
              ? said(
                    "{}: theory {}, in force {}, {} % apart: more than belts and pulleys do. Look at the drive's "
                    "numbers again.",
                    name, by_theory, present, said_fixed(100 * std::abs(ratio), 1))
          : ratio == 0 ? said("{}: theory {}, in force {}: the same.", name, by_theory, present)
                       : said("{}: theory {}, in force {}, {} % apart.", name, by_theory, present,
                              said_fixed(100 * std::abs(ratio), 2));
    } else {
      line.said =
          said("{}: in force {}; theory needs belt pitch and teeth, or a screw's lead.", name, steps_shown(now));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace fitwright
