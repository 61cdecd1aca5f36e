#include "bench/make_view.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/quantity.hpp"
#include "bench/shown.hpp"
#include "design/advice.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

/// What the parameters are called in the window; others by their meaning.
const std::map<std::string, std::string>& labels() {
  static const std::map<std::string, std::string> all{
      {param::side, noted("Side")},
      {param::caliper_range, noted("Caliper range")},
      {param::bed_x, noted("Bed along X")},
      {param::bed_y, noted("Bed along Y")},
      {param::layer_height, noted("Layer height")},
      {param::first_layer_height, noted("First layer")},
      {param::bead_width, noted("Bead width")},
      {param::density, noted("Density")},
  };
  return all;
}

std::string label_of(const DesignParameter& p) {
  if (const auto known = labels().find(p.name); known != labels().end()) return tr(known->second.c_str());
  // "wide_bead_mm" to "Wide bead"
  std::string name = p.name;
  if (name.ends_with("_mm")) name.resize(name.size() - 3);
  std::replace(name.begin(), name.end(), '_', ' ');
  return tr(capitalised(name).c_str());
}

Unit unit_of(const DesignParameter& p) {
  return p.unit == "mm" ? Unit::mm : p.unit == "g/cm3" ? Unit::g_per_cm3 : Unit::none;
}

const DesignInfo& info_of(const std::string& design) {
  const auto& all = designs();
  const auto found = std::find_if(all.begin(), all.end(), [&](const DesignInfo& i) { return i.name == design; });
  if (found == all.end()) throw std::logic_error("there is no design " + design);
  return *found;
}

/// A design's message in the window's words: labels in place of parameter names.
std::string in_window_words(std::string text, const DesignInfo& info) {
  for (const DesignParameter& p : info.parameters) {
    const std::string label = label_of(p);
    for (std::size_t at = text.find(p.name); at != std::string::npos; at = text.find(p.name, at + label.size()))
      text.replace(at, p.name.size(), label);
  }
  return typeset(capitalised(text));
}

std::string sentence(const Problem& problem) {
  return problem.what + (problem.remedy.empty() ? "." : ": " + problem.remedy + ".");
}

/// What stands before the first ';' of a parameter's meaning.
std::string first_part(const std::string& meaning) { return meaning.substr(0, meaning.find(';')); }

std::string as_typed(const DesignParameter& p, const MakeWish& wish, const MakeDefaults& defaults) {
  if (const auto typed = wish.typed.find(p.name); typed != wish.typed.end()) return typed->second;
  if (const auto known = defaults.find(p.name); known != defaults.end()) return known->second;
  return in_field(p.default_value, unit_of(p));
}

constexpr int grams_decimals = 1;
constexpr int money_decimals = 2;
constexpr double grams_per_kg = 1000;

}  // namespace

const std::vector<MakeQuestion>& make_questions() {
  static const std::vector<MakeQuestion> all{
      {noted("Lengths are off, or lids do not fit"), "frame"},
      {noted("Holes are tight or pegs are loose"), "bores"},
      {noted("Walls are too thick or too thin"), "walls"},
      {noted("A corner is not square"), "frame"},
      {noted("The first layers stick out"), "stair"},
      {noted("Heights are off"), "stair"},
      {noted("Does it go together: pin in a socket"), "rail"},
      {noted("Does it go together: lid or drawer"), "tongue"},
      {noted("A pocket for a bearing, magnet, nut, pin"), "pockets"},
      {noted("A latch that must not snap off"), "latch"},
  };
  return all;
}

MakeDefaults make_defaults(const std::optional<SetupOnBench>& setup) {
  MakeDefaults defaults;
  if (!setup) return defaults;
  const State& state = setup->in_force.state;
  defaults[param::bed_x] = in_field(setup->printer.value.bed_x_mm, Unit::mm);
  defaults[param::bed_y] = in_field(setup->printer.value.bed_y_mm, Unit::mm);
  defaults[param::layer_height] = in_field(state.layer_height_mm, Unit::mm);
  defaults[param::first_layer_height] = in_field(state.first_layer_height_mm, Unit::mm);
  defaults[param::bead_width] = in_field(state.bead_width_mm, Unit::mm);
  defaults[param::density] = in_field(setup->material.value.density_g_cm3, Unit::g_per_cm3);
  return defaults;
}

Form make_form(const MakeWish& wish, const MakeDefaults& defaults) {
  const DesignInfo& info = info_of(wish.design);
  Form form{"make " + wish.design, capitalised(tr(info.name.c_str())), {}, {}};
  for (const DesignParameter& p : info.parameters) {
    const bool shared = labels().contains(p.name);
    form.fields.push_back({p.name, label_of(p), as_typed(p, wish, defaults), in_field(p.default_value, unit_of(p)),
                           shared ? std::string() : first_part(tr(p.meaning.c_str()))});
  }
  return form;
}

Made make_from(const MakeWish& wish, const MakeDefaults& defaults) {
  Made made;
  const DesignInfo& info = info_of(wish.design);
  std::vector<std::pair<std::string, std::string>> overrides;
  for (const DesignParameter& p : info.parameters) {
    const auto value = from_field(as_typed(p, wish, defaults), unit_of(p), wish.inches);
    if (value)
      overrides.emplace_back(p.name, shortest(*value));
    else
      made.beside[p.name] = capitalised(sentence(value.problems().front()));
  }
  if (!made.beside.empty()) return made;
  auto coupon = make_coupon(wish.design, overrides);
  if (coupon) {
    made.coupon = std::make_shared<const Coupon>(*std::move(coupon));
    return made;
  }
  for (const Problem& problem : coupon.problems()) {
    const std::string text = in_window_words(sentence(problem), info);
    const auto named = std::find_if(info.parameters.begin(), info.parameters.end(),
                                    [&](const DesignParameter& p) { return problem.what.starts_with(p.name + " "); });
    std::string& into = named == info.parameters.end() ? made.wrong : made.beside[named->name];
    into += (into.empty() ? "" : " ") + text;
  }
  return made;
}

MakeFacts make_facts(const Coupon& coupon, const std::optional<SetupOnBench>& setup) {
  MakeFacts f;
  f.title = capitalised(tr(coupon.design.c_str()));
  f.question = tr(info_of(coupon.design).question.c_str());
  f.facts = {
      said_shortest(coupon.size_x_mm) + " \u00d7 " + said_shortest(coupon.size_y_mm) + " \u00d7 " +
          said_shortest(coupon.size_z_mm) + " mm",
      said_many("{} layer", "{} layers", static_cast<std::size_t>(coupon.layers)),
      said("{} g, printed solid", said_fixed(coupon.grams, grams_decimals)),
      said_many("{} place to measure", "{} places to measure", coupon.places.size()),
  };
  if (setup) {
    const record::Spool& spool = setup->spool.value;
    if (spool.price_per_kg)
      f.facts.push_back(
          said("about {} of material", said_fixed(coupon.grams / grams_per_kg * *spool.price_per_kg, money_decimals) +
                                           (spool.currency.empty() ? "" : " " + spool.currency)));
  }
  if (const std::size_t places = coupon.trials.places.size(); places > 0)
    f.facts.push_back(said_many("{} place to try", "{} places to try", places));
  if (const std::size_t latches = coupon.latches.size(); latches > 0)
    f.facts.push_back(said_many("{} latch to try", "{} latches to try", latches));
  for (const std::string& line : before_printing(coupon)) f.before.push_back(typeset(line));
  f.cautions = {typeset(taking_off_caution())};
  for (const std::string& line : trying_cautions(coupon)) f.cautions.push_back(typeset(line));
  return f;
}

}  // namespace fitwright
