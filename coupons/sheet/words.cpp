#include "sheet/words.hpp"

#include <algorithm>
#include <string_view>

#include "design/drafting.hpp"

namespace fitwright {
namespace {

/// The design's own notes, without those that every design has: the lines here say them shorter.
std::vector<std::string> own_notes(const Coupon& coupon) {
  const std::vector<std::string> common = common_notes();
  std::vector<std::string> own;
  for (const std::string& note : coupon.notes)
    if (std::find(common.begin(), common.end(), note) == common.end()) own.push_back(note);
  return own;
}

bool about_printing(const std::string& note) {
  return note.starts_with("Print ") || note.starts_with("Look at the preview") || note.starts_with("Block: print");
}

std::vector<std::string> with_own(std::vector<std::string> lines, const Coupon& coupon, bool printing) {
  for (const std::string& note : own_notes(coupon))
    if (about_printing(note) == printing) lines.push_back(note);
  return lines;
}

std::string_view plain(const Feature& feature) {
  switch (feature.kind) {
    case Kind::outer:
      return feature.axis == Axis::z ? "height" : "outside length";
    case Kind::inner:
      return "slot";
    case Kind::foot:
      return "width at the bed";
    case Kind::pitch:
      return "two-bead wall, less the one-bead wall beside it";
    case Kind::peg:
      return "peg, 1st along X, 2nd along Y";
    case Kind::hole:
      return "hole, 1st along X, 2nd along Y";
    case Kind::hole_h:
      return "lying hole";
    case Kind::pin:
      return "hole, largest shank that enters";
    case Kind::wall:
      return "wall";
    case Kind::diag_plus:
    case Kind::diag_minus:
      return "corner to corner";
    case Kind::flats_plus:
    case Kind::flats_minus:
      return "over the flats";
    case Kind::zero:
      return "jaws closed";
    case Kind::gauge:
      return "gauge";
    case Kind::ring:
      return "ring";
  }
  return "";
}

}  // namespace

std::vector<std::string> before_printing(const Coupon& coupon) {
  return with_own(
      {"No automatic turning, no rescaling: FRONT faces the front of the machine.",
       "Copy the settings in force into the boxes above: what is switched on there is in the readings too.",
       "Seam to the marked corners or notches. No brim, or a brim on the outside only.",
       "Before the part leaves the bed: mark on it with a pen which copy it is and how it lay.", turning_words()},
      coupon, true);
}

std::vector<std::string> before_measuring(const Coupon& coupon) {
  return with_own({"Part and caliper at room temperature: half an hour after the bed is cold.",
                   "Wipe the jaws, close them, read zero.",
                   "The lightest thumb pressure that seats the jaws, always the same, at mid-height of the face.",
                   "2nd reading: take the jaws off and put them on again.", "Corners lifted? Write down which."},
                  coupon, false);
}

std::string taking_off_caution() {
  return "Hot end and bed burn, and stay hot. Let the bed cool before taking the part off, and never pry toward the "
         "hand.";
}

std::string lip_caution() {
  return "The lip of the first layers is sharp. Leave it on until all is read: it is a measurement.";
}

std::string turning_words() {
  return "A second copy? Turn it by 90 degrees on the bed: what the print file does (seam, ripple) then changes "
         "place, while the machine's axes stay. Laid the same way, both copies agree on something wrong.";
}

std::string kind_words(const Feature& feature) {
  // The pitch's label explains more than a row has room for.
  const bool own = feature.label.empty() || feature.kind == Kind::pitch;
  return own ? std::string(plain(feature)) : feature.label;
}

}  // namespace fitwright
