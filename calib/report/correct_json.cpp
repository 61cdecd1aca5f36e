#include <array>
#include <nlohmann/json.hpp>

#include "report/correct_report.hpp"
#include "report/json_text.hpp"

namespace fitwright {
namespace {

/// Lengths first, slots after, as docs/formats.md has them; a name it does not know comes last.
constexpr std::array<const char*, 4> remains_order{"x100", "y100", "slot_x20", "slot_y20"};

Json changes_json(const std::vector<Change>& changes) {
  Json list = Json::array();
  for (const Change& c : changes) {
    Json effect = Json::object();
    for (const auto& [length, mm] : c.effect_mm) effect[std::to_string(length)] = mm;
    list.push_back({{"knob", c.knob},
                    {"old", c.old_value},
                    {"new", c.new_value},
                    {"u", c.u},
                    {"established", c.established},
                    {"because", c.because},
                    {"effect_mm", std::move(effect)}});
  }
  return list;
}

Json left_alone_json(const std::vector<LeftAlone>& left_alone) {
  Json list = Json::array();
  for (const LeftAlone& l : left_alone) list.push_back({{"knob", l.knob}, {"because", l.because}});
  return list;
}

Json remains_json(const std::map<std::string, Remains>& remains) {
  Json object = Json::object();
  const auto add = [&](const std::string& place, const Remains& r) {
    object[place] = {{"value", r.value},
                     {"u", r.u},
                     {"lower", r.lower},
                     {"upper", r.upper},
                     {"u_with_surroundings", r.u_with_surroundings}};
  };
  for (const char* place : remains_order)
    if (const auto found = remains.find(place); found != remains.end()) add(place, found->second);
  for (const auto& [place, r] : remains)
    if (!object.contains(place)) add(place, r);
  return object;
}

}  // namespace

std::string correct_json(const Correction& c) {
  return json_text({{"schema", report_schema},
                    {"policy", word(c.policy)},
                    {"before", Json::parse(to_json(c.before))},
                    {"after", Json::parse(to_json(c.after))},
                    {"changes", changes_json(c.changes)},
                    {"left_alone", left_alone_json(c.left_alone)},
                    {"remains_mm", remains_json(c.remains_mm)},
                    {"invariant", {{"x", c.invariant_x}, {"y", c.invariant_y}}},
                    {"cautions", c.cautions},
                    {"commands", c.commands}});
}

}  // namespace fitwright
