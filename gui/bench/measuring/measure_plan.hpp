#pragma once
// What is to be measured in one evening: the places for the jaws, and the order that spares moves.

#include <compare>
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "reading/reading.hpp"

namespace fitwright {

struct Coupon;

inline constexpr std::size_t none_there = static_cast<std::size_t>(-1);

/// One printed specimen to be measured. Without a coupon (readings opened from a file) `features` says what is on it.
struct PartCopy {
  std::string name;  ///< "Frame"; empty: called a part
  std::shared_ptr<const Coupon> coupon;
  std::vector<Feature> features;
  int copy = 1;
  int turned_deg = 0;  ///< 0, 90, 180, 270
};

/// Closed jaws are read so many times: the mean of three is good to a hundredth (common practice, no source).
inline constexpr int steel_times = 3;

/// Jaws closed, or steel of known size (`feature.nominal_mm`).
struct SteelPiece {
  Feature feature;
  int times = steel_times;
};

struct MeasureOptions {
  int repeats = 2;      ///< how often the jaws are put on each place; a further reading comes only where two differ
  bool inches = false;  ///< what a number without a unit means
};

/// What the hand holds at a place.
enum class Grip { outside, inside, shank, depth };
/// "outside jaws", "inside jaws", "drill shank", "depth rod".
std::string grip_words(Grip grip);

/// How the line between the jaws runs on the part, as engraved.
enum class JawLine { along_x, along_y, diagonal_plus, diagonal_minus, up, none };
/// "along X", "corner to corner", "upright"; empty for none.
std::string line_words(JawLine line);

/// One place of one copy (or of steel) where jaws are put, some times over.
struct MeasureSpot {
  Feature feature;
  std::size_t part = none_there;  ///< into MeasurePlan::parts; none_there for steel
  int copy = 1;
  int turned_deg = 0;
  std::string note;  ///< goes with its readings: "up" or "across" of a lying hole
  Grip grip = Grip::outside;
  JawLine line = JawLine::none;         ///< of odd repeats
  JawLine second_line = JawLine::none;  ///< of even repeats: round ones are read along X, then along Y
  std::size_t jaw_place = none_there;   ///< into Coupon::places
  int times = 2;
  int first_repeat = 1, repeat_step = 1;  ///< the two ways to read a lying hole share the repeat numbers of its name
};
JawLine line_of(const MeasureSpot& spot, int repeat);

/// What a reading is known by. Steel that was planned has copy 1.
struct ReadingKey {
  int copy = 1;
  std::string feature_id;
  int repeat = 1;
  auto operator<=>(const ReadingKey&) const = default;
};
ReadingKey key_of(const Reading& reading);

/// One reading to be taken. Between sections the hand changes: another part, other jaws.
struct Due {
  std::size_t spot = 0;
  int repeat = 1;
  std::size_t section = 0;
};

struct MeasurePlan {
  std::vector<PartCopy> parts;
  std::vector<MeasureSpot> spots;
  std::vector<Due> order;
  bool inches = false;
};
ReadingKey key_of(const MeasurePlan& plan, const Due& due);

/// What is due, in the order to read it (measure_order.hpp says which and why). Errors, all at once: Code::bad_input
/// for names that would mix up two readings and for numbers out of range; Code::unanswerable when nothing is given.
Result<MeasurePlan> plan_measuring(const std::vector<PartCopy>& parts, const std::vector<SteelPiece>& steel,
                                   const MeasureOptions& options = {});

/// The same for the places that a set of readings names, where nobody made the coupon here.
Result<MeasurePlan> plan_from_readings(const ReadingSet& readings, const MeasureOptions& options = {});

/// Whether the same places of the same copies are due in the same order, in whatever unit.
bool same_plan(const MeasurePlan& a, const MeasurePlan& b);

/// Whether two features are the same in all that a readings file says of them.
bool same_feature(const Feature& a, const Feature& b);

}  // namespace fitwright
