// A correction as the record keeps it: whole, so that it can be shown again and held against a proof print.

#include "record/kept_correction.hpp"

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

#include "base/json.hpp"
#include "correct/advice.hpp"
#include "record/state_in_force.hpp"

namespace fitwright::record {
namespace {

using Json = nlohmann::ordered_json;

/// Kept as null when it is not finite.
Json finite(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

/// Reads what was written here. Anything missing or of another type makes the whole text unreadable.
class Reader {
 public:
  explicit Reader(const JsonValue& object) : object_(object) {}

  const JsonValue* member(const char* name, JsonValue::Type type) {
    const JsonValue* found = object_.find(name);
    if (found && found->is(type)) return found;
    sound_ = false;
    return nullptr;
  }
  double number(const char* name) {
    const JsonValue* found = object_.find(name);
    if (found && found->is(JsonValue::Type::number)) return found->number;
    if (found && found->is(JsonValue::Type::null)) return std::numeric_limits<double>::infinity();
    sound_ = false;
    return 0;
  }
  std::string text(const char* name) {
    const JsonValue* found = member(name, JsonValue::Type::string);
    return found ? found->string : std::string();
  }
  bool truth(const char* name) {
    const JsonValue* found = member(name, JsonValue::Type::boolean);
    return found && found->boolean;
  }
  std::vector<std::string> texts(const char* name) {
    std::vector<std::string> out;
    if (const JsonValue* list = member(name, JsonValue::Type::array))
      for (const JsonValue& item : list->items) out.push_back(item.string);
    return out;
  }
  [[nodiscard]] bool sound() const { return sound_; }

 private:
  const JsonValue& object_;
  bool sound_ = true;
};

bool take_changes(Reader& in, std::vector<Change>& out) {
  const JsonValue* list = in.member("changes", JsonValue::Type::array);
  if (!list) return false;
  for (const JsonValue& item : list->items) {
    Reader one(item);
    Change c;
    c.knob = one.text("knob");
    c.old_value = one.number("old");
    c.new_value = one.number("new");
    c.u = one.number("u");
    c.established = one.truth("established");
    c.because = one.text("because");
    if (const JsonValue* effects = one.member("effect_mm", JsonValue::Type::object))
      for (const auto& member : effects->members) c.effect_mm[std::atoi(member.name.c_str())] = member.value.number;
    if (!one.sound()) return false;
    out.push_back(std::move(c));
  }
  return true;
}

bool take_remains(Reader& in, std::map<std::string, Remains>& out) {
  const JsonValue* object = in.member("remains_mm", JsonValue::Type::object);
  if (!object) return false;
  for (const auto& member : object->members) {
    Reader one(member.value);
    Remains& r = out[member.name];
    r.value = one.number("value");
    r.u = one.number("u");
    r.df = one.number("df");
    r.lower = one.number("lower");
    r.upper = one.number("upper");
    r.u_with_surroundings = one.number("u_with_surroundings");
    r.half_with_surroundings_mm = one.number("half_with_surroundings_mm");
    if (!one.sound()) return false;
  }
  return true;
}

bool take_left_alone(Reader& in, std::vector<LeftAlone>& out) {
  const JsonValue* list = in.member("left_alone", JsonValue::Type::array);
  if (!list) return false;
  for (const JsonValue& item : list->items) {
    Reader one(item);
    out.push_back({one.text("knob"), one.text("because")});
    if (!one.sound()) return false;
  }
  return true;
}

/// What was not made from estimates: the knobs that differ, and what to do.
Correction plain(const State& before, const State& after) {
  Correction out;
  out.before = before;
  out.after = after;
  for (const auto& [knob, a, b] : differences(before, after)) {
    Change change;
    change.knob = knob;
    change.old_value = a;
    change.new_value = b;
    out.changes.push_back(std::move(change));
  }
  out.cautions = cautions_for(out, Estimates{}, {});
  out.commands = commands_for(out);
  return out;
}

}  // namespace

std::string kept_text(const Correction& c) {
  Json changes = Json::array(), left = Json::array(), remains = Json::object();
  for (const Change& change : c.changes) {
    Json effects = Json::object();
    for (const auto& [length, mm] : change.effect_mm) effects[std::to_string(length)] = finite(mm);
    changes.push_back({{"knob", change.knob},
                       {"old", change.old_value},
                       {"new", change.new_value},
                       {"u", finite(change.u)},
                       {"established", change.established},
                       {"because", change.because},
                       {"effect_mm", std::move(effects)}});
  }
  for (const LeftAlone& l : c.left_alone) left.push_back({{"knob", l.knob}, {"because", l.because}});
  for (const auto& [place, r] : c.remains_mm)
    remains[place] = {{"value", finite(r.value)},
                      {"u", finite(r.u)},
                      {"df", finite(r.df)},
                      {"lower", finite(r.lower)},
                      {"upper", finite(r.upper)},
                      {"u_with_surroundings", finite(r.u_with_surroundings)},
                      {"half_with_surroundings_mm", finite(r.half_with_surroundings_mm)}};
  const Json document{
      {"changes", std::move(changes)},    {"left_alone", std::move(left)},
      {"remains_mm", std::move(remains)}, {"invariant", {{"x", finite(c.invariant_x)}, {"y", finite(c.invariant_y)}}},
      {"cautions", c.cautions},           {"commands", c.commands}};
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<Correction> correction_from(const StoredCorrection& stored) {
  const auto before = parse_state(stored.before, "record");
  const auto after = parse_state(stored.after, "record");
  if (!before) return before.problems();
  if (!after) return after.problems();
  if (stored.origin != "estimate") return plain(*before, *after);
  const Problem unreadable{Code::bad_input,
                           {},
                           "a correction in the record cannot be read: it was written by another program or damaged",
                           "check the record, and estimate the setup again"};
  const auto policy = policy_from(stored.policy);
  const auto document = parse_json(stored.detail, "record");
  if (!policy || !document || !document->is(JsonValue::Type::object)) return unreadable;

  Correction out;
  out.policy = *policy;
  out.before = *before;
  out.after = *after;
  Reader in(*document);
  if (!take_changes(in, out.changes) || !take_left_alone(in, out.left_alone) || !take_remains(in, out.remains_mm))
    return unreadable;
  if (const JsonValue* invariant = in.member("invariant", JsonValue::Type::object)) {
    Reader axes(*invariant);
    out.invariant_x = axes.number("x");
    out.invariant_y = axes.number("y");
  }
  out.cautions = in.texts("cautions");
  out.commands = in.texts("commands");
  if (!in.sound()) return unreadable;
  return out;
}

}  // namespace fitwright::record
