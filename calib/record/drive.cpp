#include "record/drive.hpp"

#include "base/json.hpp"
#include "base/number.hpp"
#include "base/text.hpp"

namespace fitwright::record {
namespace {

/// Sets the number called `key`; false when there is none of that name.
bool set(Drive& drive, const std::string& key, double value) {
  if (key == "full_steps_per_turn")
    drive.full_steps_per_turn = value;
  else if (key == "microsteps")
    drive.microsteps = value;
  else if (key == "belt_pitch_mm")
    drive.belt_pitch_mm = value;
  else if (key == "pulley_teeth")
    drive.pulley_teeth = value;
  else if (key == "screw_lead_mm")
    drive.screw_lead_mm = value;
  else if (key == "reduction")
    drive.reduction = value;
  else
    return false;
  return true;
}

}  // namespace

Result<Drives> parse_drives(const std::string& json, const std::string& source) {
  Drives drives;
  if (json.empty()) return drives;
  const auto document = parse_json(json, source);
  if (!document) return document.problems();
  Problems problems;
  const auto wrong = [&](const JsonValue& at, const std::string& what, const std::string& remedy) {
    problems.push_back({Code::bad_input, {source, at.line, at.column}, what, remedy});
  };
  if (!document->is(JsonValue::Type::object)) {
    wrong(*document, "a drive is not an object", "give {\"x\":{\"microsteps\":16}}");
    return problems;
  }
  for (const auto& [axis, members, line, column] : document->members) {
    if ((axis != "x" && axis != "y" && axis != "z") || !members.is(JsonValue::Type::object)) {
      wrong(members, quote(axis) + " is not an axis with its drive", "give x, y or z, each with an object");
      continue;
    }
    Drive& drive = drives[axis[0]];
    for (const JsonValue::Member& m : members.members) {
      if (!m.value.is(JsonValue::Type::number))
        wrong(m.value, quote(m.name) + " of drive " + axis + " is not a number", "give a number");
      else if (!set(drive, m.name, m.value.number))
        wrong(m.value, quote(m.name) + " of drive " + axis + " is not known",
              "give full_steps_per_turn, microsteps, belt_pitch_mm, pulley_teeth, screw_lead_mm or reduction");
    }
  }
  if (!problems.empty()) return problems;
  return drives;
}

std::string to_json(const Drives& drives) {
  std::string text;
  for (const auto& [axis, drive] : drives) {
    text += (text.empty() ? "{\"" : ",\"") + std::string(1, axis) +
            "\":{\"full_steps_per_turn\":" + shortest(drive.full_steps_per_turn) +
            ",\"microsteps\":" + shortest(drive.microsteps);
    if (drive.belt_pitch_mm) text += ",\"belt_pitch_mm\":" + shortest(*drive.belt_pitch_mm);
    if (drive.pulley_teeth) text += ",\"pulley_teeth\":" + shortest(*drive.pulley_teeth);
    if (drive.screw_lead_mm) text += ",\"screw_lead_mm\":" + shortest(*drive.screw_lead_mm);
    text += ",\"reduction\":" + shortest(drive.reduction) + '}';
  }
  return text.empty() ? text : text + '}';
}

}  // namespace fitwright::record
