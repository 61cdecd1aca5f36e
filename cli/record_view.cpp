#include "record_view.hpp"

#include "base/number.hpp"
#include "report/correct_report.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::fixed;

namespace {

/// A thing as it was last, ended or not.
template <class T>
std::optional<rec::Kept<T>> last_of(rec::Record& record, const rec::Id& id, Outcome& outcome) {
  auto rows = got(rec::history<T>(record, id), outcome);
  if (!rows || rows->empty()) return std::nullopt;
  return std::move(rows->back());
}

std::optional<std::vector<CopyView>> copies_of(rec::Record& record, const rec::Id& setup,
                                               const fitwright::State& in_force, Outcome& outcome) {
  const auto copies = got(rec::all_of<rec::Copy>(record, "setup", setup), outcome);
  if (!copies) return std::nullopt;
  std::vector<CopyView> out;
  for (const auto& copy : *copies) {
    CopyView view{copy, {}, 0, {}};
    const auto coupon = got(rec::one<rec::MadeCoupon>(record, copy.value.coupon), outcome);
    const auto readings = got(rec::all_of<rec::StoredReading>(record, "copy", copy.thing), outcome);
    if (!coupon || !readings) return std::nullopt;
    view.design = coupon->value.design;
    for (const auto& reading : *readings) view.readings += reading.value.reading_mm.has_value();
    if (const auto state = fitwright::parse_state(copy.value.state, "record"))
      view.other_state = rec::in_words(rec::differences(*state, in_force));
    out.push_back(std::move(view));
  }
  return out;
}

}  // namespace

std::optional<SetupView> view_of(rec::Record& record, const rec::Kept<rec::Setup>& setup, const std::string& at,
                                 Outcome& outcome) {
  SetupView view;
  view.setup = setup;
  const auto printer = last_of<rec::Printer>(record, setup.value.printer, outcome);
  const auto spool = last_of<rec::Spool>(record, setup.value.spool, outcome);
  auto state = got(rec::state_in_force(record, setup.thing, at), outcome);
  auto corrections = got(rec::corrections_of(record, setup.thing), outcome);
  auto cost = got(rec::cost_of(record, setup.thing), outcome);
  if (!printer || !spool || !state || !corrections || !cost) return std::nullopt;
  const auto material = last_of<rec::Material>(record, spool->value.material, outcome);
  auto copies = copies_of(record, setup.thing, state->state, outcome);
  if (!material || !copies) return std::nullopt;
  view.printer = printer->value.name;
  view.spool = spool->value.name;
  view.material = material->value.name;
  view.state = std::move(*state);
  view.copies = std::move(*copies);
  view.corrections = std::move(*corrections);
  view.cost = std::move(*cost);
  return view;
}

std::string knob_value(const std::string& knob, double value) {
  constexpr int steps_decimals = 4, factor_decimals = 5, other_decimals = 3;  // as in same_setting()
  return fixed(value, knob.starts_with("steps_per_mm") ? steps_decimals
                      : knob == "size_factor"          ? factor_decimals
                                                       : other_decimals);
}

std::string state_in_words(const fitwright::State& state) {
  std::string out =
      "size factor " + knob_value("size_factor", state.size_factor) + ", outline offset " +
      knob_value("outline_offset_mm", state.outline_offset_mm) + " mm, flow " + knob_value("flow", state.flow) +
      ", steps per mm X " + knob_value("steps_per_mm.x", state.steps_per_mm.x) + " Y " +
      knob_value("steps_per_mm.y", state.steps_per_mm.y) + " Z " + knob_value("steps_per_mm.z", state.steps_per_mm.z);
  if (state.hole_offset_mm != 0) out += ", hole offset " + knob_value("hole_offset_mm", state.hole_offset_mm) + " mm";
  if (state.first_layer_inset_mm != 0)
    out += ", first-layer inset " + knob_value("first_layer_inset_mm", state.first_layer_inset_mm) + " mm";
  return out;
}

std::string turn_in_words(const std::string& knob, double old_value, double new_value) {
  std::string name = fitwright::knob_name(knob), unit;
  if (const std::size_t comma = name.find(", "); comma != std::string::npos) {
    const std::string after = name.substr(comma + 2);
    name = name.substr(0, comma) + (after == "mm" ? "" : " of " + after);
    if (after == "mm") unit = " mm";
  }
  return name + ' ' + knob_value(knob, old_value) + " -> " + knob_value(knob, new_value) + unit;
}

std::string change_in_words(const rec::StoredCorrection& correction) {
  const auto before = fitwright::parse_state(correction.before, "record");
  const auto after = fitwright::parse_state(correction.after, "record");
  if (!before || !after) return "settings that cannot be read (fitw record check)";
  std::string out;
  for (const auto& d : rec::differences(*before, *after))
    out += (out.empty() ? "" : ", ") + turn_in_words(d.knob, d.a, d.b);
  return out.empty() ? "nothing to change" : out;
}

std::string cost_in_words(const rec::CalibrationCost& cost) {
  if (cost.copies.empty()) return {};
  std::string out = fixed(cost.grams, 1) + " g";
  if (cost.money) out += ", " + fixed(*cost.money, 2) + (cost.currency.empty() ? "" : ' ' + cost.currency);
  if (cost.unknown > 0) out += ", and " + std::to_string(cost.unknown) + " of unknown weight";
  return out;
}

std::string last_step(const rec::CorrectionLife& life) {
  return life.events.empty() ? moment(life.correction.at) : moment(life.events.back().at);
}

}  // namespace fitw
