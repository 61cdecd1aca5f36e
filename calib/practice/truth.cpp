#include <array>
#include <cmath>
#include <span>

#include "base/json.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "practice/simulate.hpp"
#include "practice/truth_features.hpp"

namespace fitwright {
namespace {

using Type = JsonValue::Type;

constexpr double most_rows = 1e7;  // beyond it the readings would not fit into memory

/// What values a number may take, and its unit for messages.
struct Range {
  double low, high;
  std::string_view unit;
};

constexpr Range length{-100, 100, " mm"};
constexpr Range jaw_flat_range{0, 100, " mm"};
constexpr Range step_length{0.001, 100, " mm"};
constexpr Range area{-100, 100, " mm2"};
constexpr Range relative{-0.5, 0.5, ""};
constexpr Range ratio{0.01, 100, ""};
constexpr Range share{0, 1, ""};
constexpr Range scatter{0, 10, " mm"};
constexpr Range relative_scatter{0, 0.1, ""};
constexpr Range count{1, 1e6, ""};

/// A number in the truth: its name and where it goes (nowhere when the practice printer has no use for it).
struct Entry {
  std::string_view name;
  double* into;
  Range range;
};

class TruthReader {
 public:
  TruthReader(const std::string& source, Truth& truth) : source_(source), t_(truth) {}

  void read(const JsonValue& root) {
    if (!root.is(Type::object)) {
      tell(root, "a truth must be an object, this is " + std::string(word(root.type)), "begin it with {");
      return;
    }
    constexpr std::array<std::string_view, 21> names{
        "scale",   "machine", "shrink", "e",      "z0",       "skew",     "layer",
        "hole",    "hole_h",  "peg",    "flare",  "pin_step", "turned",   "wall",
        "caliper", "noise",   "typo",   "copies", "repeats",  "features", "complete_columns"};
    refuse_others(root, names);
    numbers(root, std::array<Entry, 6>{{{"e", &t_.edge_growth_mm, length},
                                        {"z0", &t_.z0_mm, length},
                                        {"skew", &t_.skew_rad, relative},
                                        {"layer", &t_.layer_mm, step_length},
                                        {"flare", &t_.flare_mm, length},
                                        {"pin_step", &t_.pin_step_mm, step_length}}});
    section(root, "scale",
            std::array<Entry, 3>{
                {{"x", &t_.scale.x, relative}, {"y", &t_.scale.y, relative}, {"z", &t_.scale.z, relative}}});
    section(root, "hole",
            std::array<Entry, 3>{{{"c0", &t_.hole_c0_mm, length},
                                  {"c1", &t_.hole_c1_mm2, area},
                                  {"facets_chord", &t_.facets_chord_mm, length}}});
    section(root, "hole_h", std::array<Entry, 2>{{{"c0", &t_.holeh_c0_mm, length}, {"c1", &t_.holeh_c1_mm2, area}}});
    section(root, "peg", std::array<Entry, 2>{{{"p0", &t_.peg_p0_mm, length}, {"p1", &t_.peg_p1_mm2, area}}},
            Null::allowed);
    section(root, "wall",
            std::array<Entry, 3>{
                {{"w", nullptr, step_length}, {"flow", &t_.wall_flow, ratio}, {"h", &t_.wall_layer_mm, step_length}}});
    section(root, "caliper",
            std::array<Entry, 5>{{{"zero", &t_.caliper_zero_mm, length},
                                  {"scale", &t_.caliper_scale, relative},
                                  {"inside_bias", &t_.inside_bias_mm, length},
                                  {"jaw_flat", &t_.jaw_flat_mm, jaw_flat_range},
                                  {"resolution", &t_.resolution_mm, scatter}}});
    section(root, "noise",
            std::array<Entry, 5>{{{"feature", &t_.sd_feature_mm, scatter},
                                  {"feature_copy", &t_.sd_feature_copy_mm, scatter},
                                  {"copy_e", &t_.sd_copy_edge_mm, scatter},
                                  {"copy_scale", &t_.sd_copy_scale, relative_scatter},
                                  {"reading", &t_.sd_reading_mm, scatter}}});
    section(root, "typo", std::array<Entry, 1>{{{"rate", &t_.typo_rate, share}}});
    machine_and_shrink(root);
    whole(root, "copies", t_.copies);
    whole(root, "repeats", t_.repeats);
    turned(root);
    complete_columns(root);
    features(root);
  }

  Problems take_problems() { return std::move(problems_); }

 private:
  enum class Null { refused, allowed };

  const std::string& source_;
  Truth& t_;
  Problems problems_;

  void tell(const JsonValue& where, std::string what, std::string remedy) {
    problems_.push_back({Code::bad_input, {source_, where.line, where.column}, std::move(what), std::move(remedy)});
  }

  void refuse_others(const JsonValue& object, std::span<const std::string_view> names) {
    for (const auto& member : object.members) {
      bool known = false;
      for (const auto name : names) known = known || member.name == name;
      if (known) continue;
      const auto guess = nearest(member.name, names);
      problems_.push_back(
          {Code::bad_input,
           {source_, member.line, member.column},
           quote(member.name) + " is not a key that belongs here",
           guess.empty() ? "use " + alternatives(names) + ", or take it out" : "did you mean " + quote(guess) + "?"});
    }
  }

  void number(std::string_view name, const JsonValue& value, const Range& range, double* into) {
    const std::string unit(range.unit);
    const std::string remedy = "give a number from " + shortest(range.low) + " to " + shortest(range.high) + unit;
    if (!value.is(Type::number))
      tell(value, quote(name) + " is " + std::string(word(value.type)), remedy);
    else if (!(value.number >= range.low && value.number <= range.high))
      tell(value, quote(name) + " is " + shortest(value.number) + unit, remedy);
    else if (into)
      *into = value.number;
  }

  void numbers(const JsonValue& object, std::span<const Entry> entries) {
    for (const Entry& entry : entries)
      if (const JsonValue* value = object.find(entry.name)) number(entry.name, *value, entry.range, entry.into);
  }

  /// The object called `name`, or null when it is absent, null (where allowed) or wrong (told).
  const JsonValue* object(const JsonValue& root, std::string_view name, Null null) {
    const JsonValue* value = root.find(name);
    if (!value || (null == Null::allowed && value->is(Type::null))) return nullptr;
    if (value->is(Type::object)) return value;
    tell(*value, quote(name) + " is " + std::string(word(value->type)), "give an object { ... }");
    return nullptr;
  }

  void section(const JsonValue& root, std::string_view name, std::span<const Entry> entries,
               Null null = Null::refused) {
    const JsonValue* value = object(root, name, null);
    if (!value) return;
    std::vector<std::string_view> names;
    for (const Entry& entry : entries) names.push_back(entry.name);
    refuse_others(*value, names);
    numbers(*value, entries);
  }

  /// As section(), and every entry must be there.
  bool full_section(const JsonValue& root, std::string_view name, std::span<const Entry> entries) {
    const JsonValue* value = object(root, name, Null::allowed);
    if (!value) return false;
    section(root, name, entries);
    for (const Entry& entry : entries)
      if (!value->find(entry.name)) tell(*value, quote(name) + " lacks " + quote(entry.name), "give it as well");
    return true;
  }

  void machine_and_shrink(const JsonValue& root) {
    AxisValues m;
    double xy = 0, z = 0;
    const bool machine = full_section(
        root, "machine", std::array<Entry, 3>{{{"x", &m.x, relative}, {"y", &m.y, relative}, {"z", &m.z, relative}}});
    const bool shrink =
        full_section(root, "shrink", std::array<Entry, 2>{{{"xy", &xy, relative}, {"z", &z, relative}}});
    if (machine != shrink && problems_.empty())
      tell(*root.find(machine ? "machine" : "shrink"),
           machine ? "\"machine\" is given without \"shrink\"" : "\"shrink\" is given without \"machine\"",
           "give both, or neither and \"scale\"");
    if (machine && shrink) {
      t_.machine = m;
      t_.shrink_xy = xy;
      t_.shrink_z = z;
    }
  }

  void whole(const JsonValue& root, std::string_view name, int& into) {
    const JsonValue* value = root.find(name);
    if (!value) return;
    double number_read = into;
    if (value->is(Type::number) && !value->whole)
      tell(*value, quote(name) + " is not a whole number", "give one from 1 to " + shortest(count.high));
    else
      number(name, *value, count, &number_read);
    into = static_cast<int>(number_read);
  }

  void turned(const JsonValue& root) {
    const JsonValue* value = root.find("turned");
    if (!value || value->is(Type::null)) return;
    const std::string remedy = "list how copy 1, 2, ... lies on the bed: 0, 90, 180 or 270, like [0, 90]";
    if (!value->is(Type::array)) {
      tell(*value, "\"turned\" is " + std::string(word(value->type)), remedy);
      return;
    }
    for (const JsonValue& item : value->items) {
      const bool quarter = item.is(Type::number) && item.whole &&
                           (item.number == 0 || item.number == 90 || item.number == 180 || item.number == 270);
      if (quarter)
        t_.turned_deg.push_back(static_cast<int>(item.number));
      else
        tell(item,
             "an entry of \"turned\" is " +
                 (item.is(Type::number) ? shortest(item.number) : std::string(word(item.type))),
             remedy);
    }
  }

  void complete_columns(const JsonValue& root) {
    const JsonValue* value = root.find("complete_columns");
    if (!value) return;
    if (value->is(Type::boolean))
      t_.complete_columns = value->boolean;
    else
      tell(*value, "\"complete_columns\" is " + std::string(word(value->type)), "give true or false");
  }

  void features(const JsonValue& root) {
    if (const JsonValue* value = root.find("features")) {
      if (!value->is(Type::array))
        tell(*value, "\"features\" is " + std::string(word(value->type)), "give a list [ ... ] of features");
      else if (value->items.empty())
        tell(*value, "\"features\" is empty", "list at least one feature, or leave the key out");
      else
        t_.features = parse_true_features(*value, source_, problems_);
    }
    const double rows = static_cast<double>(t_.features.size()) * t_.copies * t_.repeats;
    if (rows > most_rows)
      tell(root, "this asks for " + fixed(rows, 0) + " readings",
           "ask for fewer copies or repeats: at most " + fixed(most_rows, 0) + " readings");
  }
};

}  // namespace

Result<Truth> parse_truth(const std::string& json, const std::string& source) {
  Truth truth = default_truth();
  const auto first = json.find_first_not_of(" \t\r\n");
  const auto last = json.find_last_not_of(" \t\r\n");
  if (first != std::string::npos && std::string_view(json).substr(first, last - first + 1) == "default") return truth;
  const auto root = parse_json(json, source);
  if (!root) return root.problems();
  TruthReader reader(source, truth);
  reader.read(*root);
  if (Problems problems = reader.take_problems(); !problems.empty()) return problems;
  return truth;
}

}  // namespace fitwright
