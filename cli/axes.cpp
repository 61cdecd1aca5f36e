#include "axes.hpp"

#include <algorithm>
#include <optional>

#include "base/number.hpp"
#include "base/text.hpp"

namespace fitw {
namespace {

using fitwright::Drive;
using fitwright::quote;
using fitwright::Travel;

constexpr const char* travel_example = "for example x=150:150.12,y=150:149.95, in mm";
constexpr const char* drive_example = "for example x=teeth:20,pitch:2,microsteps:16 or z=lead:8";

std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> parts;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find(',', start), text.size());
    parts.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return parts;
}

/// 'x', 'y' or 'z' for a name of one letter, else empty.
std::optional<char> axis_of(const std::string& name) {
  if (name == "x" || name == "y" || name == "z") return name[0];
  return std::nullopt;
}

/// "x=150:150.12" to the travel of one axis.
void take_one_travel(Words& words, const std::string& typed, std::map<char, Travel>& travel) {
  const std::size_t equals = typed.find('=');
  const std::size_t colon = typed.find(':');
  const auto axis = axis_of(typed.substr(0, equals));
  if (equals == std::string::npos || colon == std::string::npos || colon < equals || !axis) {
    words.complain("--travel: " + quote(typed) + " is not AXIS=COMMANDED:TRAVELLED", travel_example);
    return;
  }
  const std::string option = "--travel " + std::string(1, *axis);
  const auto commanded = number_in(words, option, typed.substr(equals + 1, colon - equals - 1));
  const auto travelled = number_in(words, option, typed.substr(colon + 1));
  if (!commanded || !travelled) return;
  if (*commanded <= 0 || *travelled <= 0)
    words.complain(option + ": " + quote(typed) + " has a length that is not above zero",
                   "give both lengths in mm, as distances");
  else if (!travel.emplace(*axis, Travel{*commanded, *travelled, std::nullopt}).second)
    words.complain(option + " is given more than once", "give it once");
}

/// One "teeth:20" of a drive.
void take_drive_part(Words& words, const std::string& option, const std::string& typed, Drive& drive) {
  const std::size_t colon = typed.find(':');
  const std::string key = typed.substr(0, colon);
  const auto number = colon == std::string::npos ? std::nullopt : fitwright::parse_number(typed.substr(colon + 1));
  if (!number) {
    words.complain(option + ": " + quote(typed) + " is not WORD:NUMBER", drive_example);
    return;
  }
  if (key == "steps")
    drive.full_steps_per_turn = *number;
  else if (key == "microsteps")
    drive.microsteps = *number;
  else if (key == "pitch")
    drive.belt_pitch_mm = *number;
  else if (key == "teeth")
    drive.pulley_teeth = *number;
  else if (key == "lead")
    drive.screw_lead_mm = *number;
  else if (key == "reduction")
    drive.reduction = *number;
  else
    words.complain(option + ": " + quote(key) + " is not known",
                   "give teeth and pitch, or lead; steps, microsteps and "
                   "reduction where they are not 200, 16 and 1");
}

double in_force_along(char axis, const fitwright::StepsPerMm& steps) {
  return axis == 'x' ? steps.x : axis == 'y' ? steps.y : steps.z;
}

}  // namespace

void declare_travel(Words& words) {
  words.declare("--travel", "x=COMMANDED:TRAVELLED,y=...",
                "How far the machine went when told to, in mm, measured on the machine and not on a print");
}

std::map<char, Travel> take_travel(Words& words) {
  std::map<char, Travel> travel;
  if (const auto typed = words.text("--travel"))
    for (const std::string& part : parts_of(*typed)) take_one_travel(words, part, travel);
  return travel;
}

void declare_drive(Words& words) {
  words.declare_settings("--drive", "AXIS=WORD:NUMBER,...",
                         "How an axis is driven, to hold its steps against theory: x=teeth:20,pitch:2 for a belt, "
                         "z=lead:8 for a screw; with steps, microsteps, reduction where they are not 200, 16, 1");
}

std::map<char, Drive> take_drive(Words& words) {
  std::map<char, Drive> drives;
  for (const auto& [name, typed] : words.settings("--drive")) {
    const std::string option = "--drive " + name;
    const auto axis = axis_of(name);
    if (!axis) {
      words.complain("--drive: " + quote(name) + " is not an axis", drive_example);
      continue;
    }
    const std::size_t mistakes = words.problems().size();
    Drive drive;
    for (const std::string& part : parts_of(typed)) take_drive_part(words, option, part, drive);
    if (words.problems().size() > mistakes) continue;
    if (const auto theory = fitwright::theory_steps_per_mm(drive); !theory)
      for (const Problem& p : theory.problems()) words.complain(option + ": " + p.what, p.remedy);
    drives[*axis] = drive;
  }
  return drives;
}

std::vector<std::string> theory_notes(const std::map<char, Drive>& drives, const fitwright::StepsPerMm& in_force) {
  constexpr int decimals = 2;
  std::vector<std::string> notes;
  for (const auto& [axis, drive] : drives) {
    const auto theory = fitwright::theory_steps_per_mm(drive);
    if (!theory) continue;
    notes.push_back("steps per mm, " + std::string(1, static_cast<char>(axis - 'x' + 'X')) + ": by motor and drive " +
                    fitwright::fixed(*theory, decimals) + ", in force " +
                    fitwright::fixed(in_force_along(axis, in_force), decimals));
  }
  return notes;
}

}  // namespace fitw
