#include "record/axes_known.hpp"

#include "record/things.hpp"

namespace fitwright::record {

Result<AxesKnown> axes_known(Record& record, const Id& printer, const StateInForce& in_force) {
  AxesKnown known;
  const auto kept = one<Printer>(record, printer);
  if (!kept) return kept.problems();
  const auto drives = parse_drives(kept->value.drive, "the drive of " + kept->value.name);
  if (!drives) return drives.problems();
  known.drive = *drives;
  const auto travels = all_of<Travelled>(record, "printer", printer);
  if (!travels) return travels.problems();
  constexpr std::size_t date = 10;
  for (const Kept<Travelled>& travel : *travels) {
    const std::string said =
        "travel along " + travel.value.axis + " of " + travel.at.substr(0, date) + " from the record";
    if (travel.at < in_force.since && !in_force.corrections.empty()) {
      known.notes.push_back(said + " is not used: the settings were changed since");
      continue;
    }
    known.travel[travel.value.axis.front()] = {travel.value.commanded_mm, travel.value.travelled_mm, travel.value.u_mm};
    known.notes.push_back(said + " is used");
  }
  return known;
}

}  // namespace fitwright::record
