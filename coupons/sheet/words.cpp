#include "sheet/words.hpp"

#include <string_view>

#include "base/words.hpp"

namespace fitwright {
namespace {

std::string_view plain(const Feature& feature) {
  switch (feature.kind) {
    case Kind::outer:
      return feature.axis == Axis::z ? tr("height") : tr("outside length");
    case Kind::inner:
      return tr("slot");
    case Kind::foot:
      return tr("width at the bed");
    case Kind::pitch:
      return tr("two-bead wall, less the one-bead wall beside it");
    case Kind::peg:
      return tr("peg, 1st along X, 2nd along Y");
    case Kind::hole:
      return tr("hole, 1st along X, 2nd along Y");
    case Kind::hole_h:
      return tr("lying hole");
    case Kind::pin:
      return tr("hole, largest shank that enters");
    case Kind::wall:
      return tr("wall");
    case Kind::diag_plus:
    case Kind::diag_minus:
      return tr("corner to corner");
    case Kind::flats_plus:
    case Kind::flats_minus:
      return tr("over the flats");
    case Kind::zero:
      return tr("jaws closed");
    case Kind::gauge:
      return tr("gauge");
    case Kind::ring:
      return tr("ring");
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
