#include "correct/state.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <vector>

#include "base/json.hpp"
#include "base/number.hpp"
#include "base/text.hpp"

namespace fitwright {
namespace {

/// One number of a state: its path in the file, where it is kept, and what values make sense for it.
struct Knob {
  std::string_view path;
  double& (*of)(State&);
  double least;
  double most;
  std::string_view meaning;
};

// Ranges are sanity limits, common practice, no source: outside them a value is a wrong unit or a slip, not a setting.
constexpr std::array<Knob, 14> knobs{{
    {"size_factor", [](State& s) -> double& { return s.size_factor; }, 0.5, 2, "a ratio: 100.5 % is 1.005"},
    {"outline_offset_mm", [](State& s) -> double& { return s.outline_offset_mm; }, -2, 2,
     "mm per edge, negative makes outsides smaller"},
    {"flow", [](State& s) -> double& { return s.flow; }, 0.3, 2, "a ratio: 98 % is 0.98"},
    {"steps_per_mm.x", [](State& s) -> double& { return s.steps_per_mm.x; }, 0.01, 1e6, "motor steps for 1 mm"},
    {"steps_per_mm.y", [](State& s) -> double& { return s.steps_per_mm.y; }, 0.01, 1e6, "motor steps for 1 mm"},
    {"steps_per_mm.z", [](State& s) -> double& { return s.steps_per_mm.z; }, 0.01, 1e6, "motor steps for 1 mm"},
    {"steps_per_mm.e", [](State& s) -> double& { return s.steps_per_mm.e; }, 0.01, 1e6, "motor steps for 1 mm"},
    {"bead_width_mm", [](State& s) -> double& { return s.bead_width_mm; }, 0.05, 5, "mm"},
    {"layer_height_mm", [](State& s) -> double& { return s.layer_height_mm; }, 0.01, 3, "mm"},
    {"first_layer_height_mm", [](State& s) -> double& { return s.first_layer_height_mm; }, 0.01, 3, "mm"},
    {"first_layer_inset_mm", [](State& s) -> double& { return s.first_layer_inset_mm; }, -2, 2,
     "mm per edge, positive makes the first layers smaller"},
    {"hole_offset_mm", [](State& s) -> double& { return s.hole_offset_mm; }, -2, 2,
     "mm per edge, positive makes holes larger"},
    {"z_offset_mm", [](State& s) -> double& { return s.z_offset_mm; }, -10, 10,
     "mm, positive lifts the nozzle away from the bed"},
    {"flow_edge_gain_mm", [](State& s) -> double& { return s.flow_edge_gain_mm; }, 0, 5,
     "mm of edge growth per edge for a flow of 1 more"},
}};

constexpr std::string_view steps_group = "steps_per_mm";

std::vector<std::string_view> names_in(std::string_view group) {
  std::vector<std::string_view> names;
  for (const Knob& k : knobs) {
    const auto dot = k.path.find('.');
    const std::string_view of = dot == std::string_view::npos ? std::string_view() : k.path.substr(0, dot);
    if (of == group)
      names.push_back(of.empty() ? k.path : k.path.substr(dot + 1));
    else if (group.empty() && (names.empty() || names.back() != of))
      names.push_back(of);
  }
  return names;
}

Problem unknown_key(const JsonValue::Member& member, std::string_view group, const std::string& source) {
  const auto names = names_in(group);
  const std::string_view near = nearest(member.name, names);
  return {Code::bad_input,
          {source, member.line, member.column},
          quote(member.name) + " is not a key of " + (group.empty() ? "a state" : std::string(group)),
          near.empty() ? "the keys are " + alternatives(names) : "did you mean " + std::string(near) + "?"};
}

std::optional<Problem> take(const JsonValue& value, const Knob& knob, const std::string& source, State& state) {
  const Place place{source, value.line, value.column};
  const std::string name(knob.path);
  if (!value.is(JsonValue::Type::number))
    return Problem{Code::bad_input, place, name + " is " + std::string(word(value.type)) + ", not a number",
                   "write a number without quotes (" + std::string(knob.meaning) + ")"};
  if (value.number < knob.least || value.number > knob.most)
    return Problem{
        Code::bad_input, place,
        name + " is " + shortest(value.number) + ", outside " + shortest(knob.least) + " to " + shortest(knob.most),
        "check the unit (" + std::string(knob.meaning) + ")"};
  knob.of(state) = value.number;
  return std::nullopt;
}

/// Takes the members of one object, whose keys are those of `group` ("" = the state itself).
void take_members(const JsonValue& object, std::string_view group, const std::string& source, State& state,
                  Problems& problems) {
  for (const JsonValue::Member& member : object.members) {
    const std::string path = group.empty() ? member.name : std::string(group) + '.' + member.name;
    const auto knob = std::find_if(knobs.begin(), knobs.end(), [&](const Knob& k) { return k.path == path; });
    if (knob != knobs.end()) {
      if (auto problem = take(member.value, *knob, source, state)) problems.push_back(std::move(*problem));
    } else if (path != steps_group) {
      problems.push_back(unknown_key(member, group, source));
    } else if (member.value.is(JsonValue::Type::object)) {
      take_members(member.value, steps_group, source, state, problems);
    } else {
      problems.push_back({Code::bad_input,
                          {source, member.value.line, member.value.column},
                          path + " is " + std::string(word(member.value.type)) + ", not an object",
                          R"(write {"x":80,"y":80,"z":400,"e":93})"});
    }
  }
}

}  // namespace

Result<State> parse_state(const std::string& json, const std::string& source) {
  const Result<JsonValue> root = parse_json(json, source);
  if (!root.ok()) return root.problems();
  if (!root->is(JsonValue::Type::object))
    return Problem{Code::bad_input,
                   {source, root->line, root->column},
                   "a state is a JSON object, not " + std::string(word(root->type)),
                   R"(write {"size_factor":1.0, ...}; missing keys take their defaults)"};
  State state;
  Problems problems;
  take_members(*root, "", source, state, problems);
  if (!problems.empty()) return problems;
  return state;
}

std::string to_json(const State& state) {
  State s = state;
  std::string out = "{\n";
  bool in_group = false;
  for (std::size_t i = 0; i < knobs.size(); ++i) {
    const auto dot = knobs[i].path.find('.');
    const bool grouped = dot != std::string_view::npos;
    if (grouped && !in_group) out += "  \"" + std::string(steps_group) + "\": {";
    if (!grouped) out += "  ";
    out +=
        '"' + std::string(grouped ? knobs[i].path.substr(dot + 1) : knobs[i].path) + "\": " + shortest(knobs[i].of(s));
    const bool last = i + 1 == knobs.size();
    const bool group_ends = grouped && (last || knobs[i + 1].path.find('.') == std::string_view::npos);
    if (group_ends) out += '}';
    if (!last) out += grouped && !group_ends ? ", " : ",\n";
    in_group = grouped && !group_ends;
  }
  return out + "\n}\n";
}

std::vector<std::pair<std::string_view, double>> by_knob(const State& state) {
  State s = state;
  std::vector<std::pair<std::string_view, double>> out;
  for (const Knob& k : knobs) out.emplace_back(k.path, k.of(s));
  return out;
}

void set_knob(State& state, std::string_view knob, double value) {
  const auto known = std::find_if(knobs.begin(), knobs.end(), [&](const Knob& k) { return k.path == knob; });
  if (known == knobs.end()) throw std::logic_error("no setting called " + std::string(knob));
  known->of(state) = value;
}

}  // namespace fitwright
