#include "bench/measuring/measure_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

std::string joined(const std::string& a, const std::string& b) { return a.empty() || b.empty() ? a + b : a + ", " + b; }

std::string name_of(const PartCopy& part) {
  if (part.name.empty()) return tr("Part");
  const std::string design = folded(part.name), word = tr(design.c_str());
  return word == design ? part.name : capitalised(word);
}

}  // namespace

std::string feature_words(const MeasureSpot& spot, int repeat) {
  const Feature& f = spot.feature;
  const std::string kind(spoken(f.kind));
  const auto in_label = [&f] {
    const InFileWords plain;
    return std::string(spoken(f.kind));
  };
  switch (f.kind) {
    case Kind::zero:
      return tr("jaws wiped and closed");
    case Kind::gauge:
    case Kind::ring:
      return joined(kind, label_words(f.label));
    case Kind::peg:
    case Kind::hole:
      return joined(kind, line_words(line_of(spot, repeat)));
    case Kind::hole_h:
      return joined(kind, tr(spot.note.c_str()));
    default:
      break;
  }
  if (f.label.empty()) return f.kind == Kind::outer && f.axis == Axis::z ? tr("height") : kind;
  // A label that says the kind itself needs no other word for it.
  const bool says_it = f.label.starts_with(in_label()) || f.kind == Kind::pin || f.kind == Kind::wall ||
                       f.kind == Kind::pitch || f.kind == Kind::foot || is_diagonal(f.kind) || f.axis == Axis::z ||
                       f.label.starts_with("outside");
  const std::string words = label_words(f.label);
  const std::string label = words.substr(0, words.find(':'));  // what follows explains more than a line has room for
  return says_it ? label : joined(kind, label);
}

std::string coming_words(const MeasureSpot& spot) {
  return spot.feature.id + " " + std::string(spoken(spot.feature.kind));
}

std::string part_words(const MeasurePlan& plan, const MeasureSpot& spot) {
  if (spot.part == none_there) return tr("Caliper");
  const PartCopy& part = plan.parts[spot.part];
  int copies = 0, highest = 0;
  for (const PartCopy& other : plan.parts) {
    if (other.name != part.name) continue;
    ++copies;
    highest = std::max(highest, other.copy);
  }
  std::string words = name_of(part);
  // Copies are numbered by their prints: those left out here leave gaps, and "4 of 3" would be said.
  if (copies > 1 && highest == copies)
    words = said("{}, copy {} of {}", words, part.copy, copies);
  else if (copies > 1 || part.copy > 1)
    words = said("{}, copy {}", words, part.copy);
  return part.turned_deg != 0 ? said("{} (turned {}\u00b0)", words, part.turned_deg) : words;
}

std::string how_words(const MeasureSpot& spot, int repeat) {
  if (spot.feature.kind == Kind::zero) return tr("jaws wiped and closed");
  return joined(grip_words(spot.grip), line_words(line_of(spot, repeat)));
}

}  // namespace fitwright
