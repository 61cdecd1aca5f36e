#include "design/advice.hpp"

#include "base/words.hpp"

namespace fitwright {
namespace {

std::vector<std::string> joined(std::vector<std::string> lines, const std::vector<std::string>& own) {
  lines.insert(lines.end(), own.begin(), own.end());
  return lines;
}

}  // namespace

std::vector<std::string> before_printing(const Coupon& coupon) {
  return joined(
      {tr("No automatic turning, no rescaling: FRONT faces the front of the machine."),
       tr("Write down the settings in force (size factor, offsets, flow): what is switched on there is in the "
          "readings too."),
       tr("Seam to the marked corners or notches. No brim, or a brim on the outside only."),
       tr("Before the part leaves the bed: mark on it with a pen which copy it is and how it lay."),
       tr("A second copy? Turn it by 90 degrees on the bed: what the print file does (seam, ripple) then changes "
          "place, while the machine's axes stay. Laid the same way, both copies agree on something wrong.")},
      coupon.printing_notes);
}

std::vector<std::string> before_measuring(const Coupon& coupon) {
  return joined({tr("Part and caliper at room temperature: half an hour after the bed is cold."),
                 tr("Wipe the jaws, close them, read zero."),
                 tr("The lightest thumb pressure that seats the jaws, always the same, at mid-height of the face."),
                 tr("2nd reading: take the jaws off and put them on again."), tr("Corners lifted? Write down which.")},
                coupon.measuring_notes);
}

std::vector<std::string> before_trying(const Coupon& coupon) {
  if (coupon.trials.places.empty()) return coupon.trying_notes;
  return joined({tr("At room temperature, and after the readings are taken."),
                 tr("One grade for each place, by the first that fits its words; no second look at the neighbour's.")},
                coupon.trying_notes);
}

std::vector<std::string> trying_cautions(const Coupon& coupon) {
  std::vector<std::string> all;
  if (!coupon.latches.empty())
    all.push_back(
        tr("Eye protection: arms that snap off fly, and brittle plastic throws splinters. Hold the part away from the "
           "face, and take broken pieces off before the next trial: their edges cut."));
  if (!coupon.trials.places.empty())
    all.push_back(
        tr("Press with a vice or an arbor press, straight and slowly, never with a hammer, fingers out of the way. Eye "
           "protection: brittle plastic throws splinters."));
  if (coupon.trials.magnets)
    all.push_back(
        tr("Magnets: small ones are dangerous when swallowed; keep them from children and pets. They jump together, "
           "pinch and break: one at a time. No press fit holds one for good: glue it in as well."));
  return all;
}

const std::array<GradeWords, 5>& grade_words() {
  static const std::array<GradeWords, 5> all{{
      {0, noted("will not enter"), noted("not even with a tool and care")},
      {1, noted("press with a tool"), noted("goes in with a vice, stays")},
      {2, noted("push by hand"), noted("goes in by hand, stays when turned over")},
      {3, noted("slides"), noted("moves freely, no play to be felt")},
      {4, noted("rattles"), noted("play to be felt or heard")},
  }};
  return all;
}

std::string taking_off_caution() {
  return tr(
      "Hot end and bed burn, and stay hot. Let the bed cool before taking the part off, and never pry toward the "
      "hand.");
}

std::string lip_caution() {
  return tr("The lip of the first layers is sharp. Leave it on until all is read: it is a measurement.");
}

}  // namespace fitwright
