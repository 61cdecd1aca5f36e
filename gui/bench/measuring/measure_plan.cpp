#include "bench/measuring/measure_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/measuring/measure_order.hpp"
#include "design/plan.hpp"

namespace fitwright {
namespace {

constexpr double straight_mm = 1e-9;  ///< jaw lines shorter than this along an axis do not run along it

JawLine line_between(const JawPlace& place) {
  const double dx = place.bx - place.ax, dy = place.by - place.ay;
  const bool x = std::abs(dx) > straight_mm, y = std::abs(dy) > straight_mm;
  if (x && y) return (dx > 0) == (dy > 0) ? JawLine::diagonal_plus : JawLine::diagonal_minus;
  return x ? JawLine::along_x : y ? JawLine::along_y : JawLine::up;
}

JawLine line_from(const Feature& feature) {
  switch (feature.kind) {
    case Kind::diag_plus:
    case Kind::flats_plus:
      return JawLine::diagonal_plus;
    case Kind::diag_minus:
    case Kind::flats_minus:
      return JawLine::diagonal_minus;
    case Kind::peg:
    case Kind::hole:
      return JawLine::along_x;
    case Kind::outer:
    case Kind::inner:
    case Kind::foot:
    case Kind::pitch:
      return feature.axis == Axis::x ? JawLine::along_x : feature.axis == Axis::y ? JawLine::along_y : JawLine::up;
    default:
      return JawLine::none;
  }
}

Grip grip_from(const Feature& feature, const JawPlace* place) {
  if (place) {
    const Tool tool = tool_of(*place, &feature);
    return tool == Tool::shank ? Grip::shank : tool == Tool::inside_jaws ? Grip::inside : Grip::outside;
  }
  if (feature.kind == Kind::pin) return Grip::shank;
  if (feature.kind == Kind::pitch) return Grip::depth;  // from edge to edge facing the same way
  return uses_inside_jaws(feature.kind) ? Grip::inside : Grip::outside;
}

class Planner {
 public:
  Planner(const std::vector<PartCopy>& parts, const std::vector<SteelPiece>& steel, const MeasureOptions& options)
      : steel_(steel), options_(options) {
    plan_.parts = parts;
    plan_.inches = options.inches;
  }

  Result<MeasurePlan> run() {
    if (options_.repeats < 1) wrong(said("each place is read {} times", options_.repeats), tr("read once"));
    for (const SteelPiece& piece : steel_) add_steel(piece);
    for (std::size_t i = 0; i < plan_.parts.size(); ++i) add_part(i);
    if (plan_.spots.empty() && problems_.empty())
      problems_.push_back(
          {Code::unanswerable, {}, tr("there is nothing to measure"), tr("choose a coupon under Make")});
    if (!problems_.empty()) return problems_;
    plan_.order = sparing_order(plan_.spots, plan_.parts.size());
    return std::move(plan_);
  }

 private:
  std::vector<SteelPiece> steel_;
  MeasureOptions options_;
  MeasurePlan plan_;
  Problems problems_;
  std::map<std::string, Feature> known_;
  std::set<std::pair<std::string, int>> taken_;  // feature and copy

  void wrong(std::string what, std::string remedy) {
    problems_.push_back({Code::bad_input, {}, std::move(what), std::move(remedy)});
  }

  void add_steel(const SteelPiece& piece) {
    const Feature& f = piece.feature;
    if (!is_steel(f.kind)) {
      wrong(said("{} is not steel of known size", quote(f.id)), tr("take it out, or set its kind"));
    } else if (f.kind == Kind::zero ? f.nominal_mm != 0 : !(f.nominal_mm > 0)) {
      wrong(said("the true size of {} is {} mm", quote(f.id), said_shortest(f.nominal_mm)),
            f.kind == Kind::zero ? tr("closed jaws are 0 apart") : tr("give the size marked on it"));
    }
    if (piece.times < 1) wrong(said("{} is read {} times", quote(f.id), piece.times), tr("read it once"));
    MeasureSpot spot;
    spot.feature = f;
    spot.grip = grip_from(f, nullptr);
    spot.times = piece.times;
    claim(f, 1, tr("steel"));
    plan_.spots.push_back(std::move(spot));
  }

  void add_part(std::size_t index) {
    const PartCopy& part = plan_.parts[index];
    if (part.copy < 1) wrong(said("copy {} of {}", part.copy, part.name), tr("number copies 1, 2, 3, ..."));
    if (part.turned_deg % 90 != 0 || part.turned_deg < 0 || part.turned_deg > 270)
      wrong(said("copy {} of {} lay at {}", part.copy, part.name, part.turned_deg),
            tr("say 0, 90, 180 or 270 degrees"));
    if (!part.coupon) {
      for (const Feature& f : part.features) add_spots(index, f, none_there);
      return;
    }
    for (std::size_t i = 0; i < part.coupon->places.size(); ++i)
      if (const Feature* f = find_feature(*part.coupon, part.coupon->places[i].feature_id)) add_spots(index, *f, i);
  }

  void add_spots(std::size_t part, const Feature& f, std::size_t jaw_place) {
    const PartCopy& p = plan_.parts[part];
    const JawPlace* place = jaw_place == none_there ? nullptr : &p.coupon->places[jaw_place];
    MeasureSpot spot;
    spot.feature = f;
    spot.part = part;
    spot.copy = p.copy;
    spot.turned_deg = p.turned_deg;
    spot.grip = grip_from(f, place);
    spot.jaw_place = jaw_place;
    spot.times = options_.repeats;
    spot.line = spot.second_line = place && f.kind != Kind::pin ? line_between(*place) : line_from(f);
    if (f.kind == Kind::peg || f.kind == Kind::hole) spot.line = JawLine::along_x, spot.second_line = JawLine::along_y;
    claim(f, p.copy, p.name);
    if (f.kind != Kind::hole_h) {
      plan_.spots.push_back(std::move(spot));
      return;
    }
    spot.repeat_step = 2;  // height and width differ most: both are read
    spot.note = "up", spot.first_repeat = 1, spot.line = spot.second_line = JawLine::up;
    plan_.spots.push_back(spot);
    spot.note = "across", spot.first_repeat = 2;
    spot.line = spot.second_line = f.axis == Axis::x ? JawLine::along_y : JawLine::along_x;
    plan_.spots.push_back(std::move(spot));
  }

  /// Names tell readings apart in every file: one name is one feature, and stands once on a copy.
  void claim(const Feature& f, int copy, const std::string& owner) {
    const auto [known, is_new] = known_.emplace(f.id, f);
    if (!is_new && !same_feature(known->second, f))
      wrong(said("two different features are called {} (drawn {} and {} mm)", quote(f.id),
                 said_shortest(known->second.nominal_mm), said_shortest(f.nominal_mm)),
            tr("measure the two coupons one after the other"));
    else if (!taken_.emplace(f.id, copy).second)
      wrong(said("{} of copy {} is there twice ({})", quote(f.id), copy, owner),
            tr("give every printed specimen a copy number of its own"));
  }
};

}  // namespace

std::string grip_words(Grip grip) {
  switch (grip) {
    case Grip::outside:
      return tool_words(Tool::outside_jaws);
    case Grip::inside:
      return tool_words(Tool::inside_jaws);
    case Grip::shank:
      return tool_words(Tool::shank);
    case Grip::depth:
      return tr("depth rod");
  }
  return {};
}

std::string line_words(JawLine line) {
  switch (line) {
    case JawLine::along_x:
      return tr("along X");
    case JawLine::along_y:
      return tr("along Y");
    case JawLine::diagonal_plus:
    case JawLine::diagonal_minus:
      return tr("corner to corner");
    case JawLine::up:
      return tr("upright");
    case JawLine::none:
      return {};
  }
  return {};
}

JawLine line_of(const MeasureSpot& spot, int repeat) { return repeat % 2 == 1 ? spot.line : spot.second_line; }

ReadingKey key_of(const Reading& reading) { return {reading.copy, reading.feature.id, reading.repeat}; }

ReadingKey key_of(const MeasurePlan& plan, const Due& due) {
  const MeasureSpot& spot = plan.spots[due.spot];
  return {spot.copy, spot.feature.id, due.repeat};
}

bool same_plan(const MeasurePlan& a, const MeasurePlan& b) {
  const auto same_part = [](const PartCopy& x, const PartCopy& y) {
    return x.name == y.name && x.copy == y.copy && x.turned_deg == y.turned_deg && !x.coupon == !y.coupon &&
           (!x.coupon || (x.coupon->design == y.coupon->design && x.coupon->values == y.coupon->values));
  };
  const auto same_spot = [](const MeasureSpot& x, const MeasureSpot& y) {
    return same_feature(x.feature, y.feature) && x.part == y.part && x.copy == y.copy && x.note == y.note &&
           x.times == y.times && x.first_repeat == y.first_repeat && x.repeat_step == y.repeat_step;
  };
  const auto same_due = [](const Due& x, const Due& y) {
    return x.spot == y.spot && x.repeat == y.repeat && x.section == y.section;
  };
  return std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(), same_part) &&
         std::equal(a.spots.begin(), a.spots.end(), b.spots.begin(), b.spots.end(), same_spot) &&
         std::equal(a.order.begin(), a.order.end(), b.order.begin(), b.order.end(), same_due);
}

bool same_feature(const Feature& a, const Feature& b) {
  return a.id == b.id && a.kind == b.kind && a.axis == b.axis && a.nominal_mm == b.nominal_mm &&
         a.side_a_mm == b.side_a_mm && a.side_b_mm == b.side_b_mm && a.facets == b.facets && a.edge_a == b.edge_a &&
         a.edge_b == b.edge_b;
}

Result<MeasurePlan> plan_measuring(const std::vector<PartCopy>& parts, const std::vector<SteelPiece>& steel,
                                   const MeasureOptions& options) {
  return Planner(parts, steel, options).run();
}

Result<MeasurePlan> plan_from_readings(const ReadingSet& readings, const MeasureOptions& options) {
  std::vector<SteelPiece> steel;
  std::vector<PartCopy> parts;
  const auto has = [](const std::vector<Feature>& features, const std::string& id) {
    return std::any_of(features.begin(), features.end(), [&](const Feature& f) { return f.id == id; });
  };
  for (const Reading& r : readings.rows) {
    if (is_steel(r.feature.kind)) {
      const auto piece =
          std::find_if(steel.begin(), steel.end(), [&](const SteelPiece& s) { return s.feature.id == r.feature.id; });
      if (piece == steel.end()) steel.push_back({r.feature});
      continue;
    }
    auto part = std::find_if(parts.begin(), parts.end(),
                             [&](const PartCopy& p) { return p.copy == r.copy && p.turned_deg == r.turned_deg; });
    if (part == parts.end()) {
      PartCopy fresh;
      fresh.copy = r.copy, fresh.turned_deg = r.turned_deg;
      part = parts.insert(parts.end(), std::move(fresh));
    }
    if (!has(part->features, r.feature.id)) part->features.push_back(r.feature);
  }
  return plan_measuring(parts, steel, options);
}

}  // namespace fitwright
