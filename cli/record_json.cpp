#include "record_json.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Json;

Json state_json(const fitwright::State& state) { return Json::parse(fitwright::to_json(state)); }

Json correction_json(const rec::CorrectionLife& life) {
  Json events = Json::array();
  for (const auto& event : life.events)
    events.push_back({{"what", event.value.what}, {"at", event.at}, {"reason", event.value.reason}});
  Json knobs = Json::array();
  const auto before = fitwright::parse_state(life.correction.value.before, "record");
  const auto after = fitwright::parse_state(life.correction.value.after, "record");
  if (before && after)
    for (const auto& d : rec::differences(*before, *after))
      knobs.push_back({{"knob", d.knob}, {"old", d.a}, {"new", d.b}});
  return Json{{"id", life.correction.thing.text},
              {"origin", life.correction.value.origin},
              {"policy", life.correction.value.policy},
              {"standing", rec::word(life.standing)},
              {"knobs", std::move(knobs)},
              {"events", std::move(events)}};
}

Json setup_json(const SetupView& view) {
  Json copies = Json::array();
  for (const auto& copy : view.copies)
    copies.push_back({{"id", copy.copy.thing.text},
                      {"print", copy.copy.value.print},
                      {"design", copy.design},
                      {"turned_deg", copy.copy.value.turned_deg},
                      {"printed_on", copy.copy.value.printed_on},
                      {"readings", copy.readings},
                      {"as_in_force", copy.other_state.empty()}});
  Json corrections = Json::array();
  for (const auto& life : view.corrections) corrections.push_back(correction_json(life));
  Json cost{
      {"grams", view.cost.grams}, {"money", nullptr}, {"currency", view.cost.currency}, {"unknown", view.cost.unknown}};
  if (view.cost.money) cost["money"] = *view.cost.money;
  return Json{{"name", view.setup.value.name},
              {"id", view.setup.thing.text},
              {"printer", view.printer},
              {"spool", view.spool},
              {"material", view.material},
              {"state", state_json(view.state.state)},
              {"since", view.state.since},
              {"calibrated", view.state.calibrated},
              {"stale", view.state.stale},
              {"due", view.state.due.has_value()},
              {"notes", view.state.notes},
              {"copies", std::move(copies)},
              {"corrections", std::move(corrections)},
              {"cost", std::move(cost)}};
}

}  // namespace fitw
