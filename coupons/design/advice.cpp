#include "design/advice.hpp"

namespace fitwright {
namespace {

std::vector<std::string> joined(std::vector<std::string> lines, const std::vector<std::string>& own) {
  lines.insert(lines.end(), own.begin(), own.end());
  return lines;
}

}  // namespace

std::vector<std::string> before_printing(const Coupon& coupon) {
  return joined(
      {"No automatic turning, no rescaling: FRONT faces the front of the machine.",
       "Write down the settings in force (size factor, offsets, flow): what is switched on there is in the "
       "readings too.",
       "Seam to the marked corners or notches. No brim, or a brim on the outside only.",
       "Before the part leaves the bed: mark on it with a pen which copy it is and how it lay.",
       "A second copy? Turn it by 90 degrees on the bed: what the print file does (seam, ripple) then changes "
       "place, while the machine's axes stay. Laid the same way, both copies agree on something wrong."},
      coupon.printing_notes);
}

std::vector<std::string> before_measuring(const Coupon& coupon) {
  return joined({"Part and caliper at room temperature: half an hour after the bed is cold.",
                 "Wipe the jaws, close them, read zero.",
                 "The lightest thumb pressure that seats the jaws, always the same, at mid-height of the face.",
                 "2nd reading: take the jaws off and put them on again.", "Corners lifted? Write down which."},
                coupon.measuring_notes);
}

std::string taking_off_caution() {
  return "Hot end and bed burn, and stay hot. Let the bed cool before taking the part off, and never pry toward the "
         "hand.";
}

std::string lip_caution() {
  return "The lip of the first layers is sharp. Leave it on until all is read: it is a measurement.";
}

}  // namespace fitwright
