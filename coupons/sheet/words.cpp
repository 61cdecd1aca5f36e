#include "sheet/words.hpp"

#include <string_view>

namespace fitwright {
namespace {

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

std::string kind_words(const Feature& feature) {
  // The pitch's label explains more than a row has room for.
  const bool own = feature.label.empty() || feature.kind == Kind::pitch;
  return own ? std::string(plain(feature)) : feature.label;
}

}  // namespace fitwright
