#include "practice/truth_features.hpp"

#include <algorithm>
#include <unordered_map>

#include "base/number.hpp"
#include "base/text.hpp"

namespace fitwright {
namespace {

using Type = JsonValue::Type;

constexpr double least_length_mm = 0.001;  // below it c1/d would leave all sense
constexpr double most_length_mm = 1e4;     // no desktop printer is larger

std::vector<std::string_view> kind_names() {
  std::vector<std::string_view> names;
  for (int k = 0; k <= static_cast<int>(Kind::ring); ++k) names.push_back(word(static_cast<Kind>(k)));
  return names;
}

/// Reads one feature: ["X40", "outer", "x", 40] or with two named faces after the length.
class FeatureReader {
 public:
  FeatureReader(const std::string& source, Problems& problems) : source_(source), problems_(problems) {}

  std::optional<TrueFeature> read(const JsonValue& row) {
    const std::size_t before = problems_.size();
    if (!row.is(Type::array) || (row.items.size() != 4 && row.items.size() != 6)) {
      tell(row, "a feature must be a list of four entries, or six with named faces",
           "write it like [\"X40\", \"outer\", \"x\", 40]");
      return std::nullopt;
    }
    TrueFeature feature;
    feature.id = name_at(row.items[0], "the feature_id");
    const auto kind = kind_at(row.items[1]);
    if (kind) {
      feature.kind = *kind;
      read_axis(row.items[2], feature);
      read_lengths(row.items[3], feature);
    }
    if (row.items.size() == 6) {
      feature.edge_a = name_at(row.items[4], "the first face");
      feature.edge_b = name_at(row.items[5], "the second face");
      if (!feature.edge_a.empty() && feature.edge_a == feature.edge_b)
        tell(row.items[5], "both faces are called " + quote(feature.edge_a), "name two different faces");
    }
    if (problems_.size() != before) return std::nullopt;
    return feature;
  }

 private:
  const std::string& source_;
  Problems& problems_;

  void tell(const JsonValue& where, std::string what, std::string remedy) {
    problems_.push_back({Code::bad_input, {source_, where.line, where.column}, std::move(what), std::move(remedy)});
  }

  /// A name that can stand in a CSV field as it is.
  std::string name_at(const JsonValue& value, const std::string& what) {
    if (!value.is(Type::string)) {
      tell(value, what + " is " + std::string(word(value.type)), "give a short name in quotes");
      return {};
    }
    const auto unfit = [](char c) { return c == ',' || c == '"' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
    const std::string& name = value.string;
    if (name.empty() || std::any_of(name.begin(), name.end(), unfit) || name != without_blanks(name)) {
      tell(value, what + " " + quote(name) + " is not a usable name",
           "give a name without commas, quotes, line breaks and blanks at its ends");
      return {};
    }
    return name;
  }

  std::optional<Kind> kind_at(const JsonValue& value) {
    const auto kind = value.is(Type::string) ? kind_from(value.string) : std::nullopt;
    if (kind) return kind;
    const auto names = kind_names();
    const auto guess = value.is(Type::string) ? nearest(value.string, names) : std::string_view();
    tell(value,
         value.is(Type::string) ? quote(value.string) + " is not a kind"
                                : "the kind is " + std::string(word(value.type)),
         guess.empty() ? "use one of " + alternatives(names) : "did you mean " + quote(guess) + "?");
    return std::nullopt;
  }

  void read_axis(const JsonValue& value, TrueFeature& feature) {
    const auto axis = value.is(Type::string) ? axis_from(value.string) : std::nullopt;
    const auto allowed = axes_of(feature.kind);
    if (axis && std::find(allowed.begin(), allowed.end(), *axis) != allowed.end()) {
      feature.axis = *axis;
      return;
    }
    std::vector<std::string_view> names;
    for (const Axis a : allowed) names.push_back(word(a));
    const std::string found = value.is(Type::string) ? quote(value.string) : std::string(word(value.type));
    tell(value, "the axis of " + quote(word(feature.kind)) + " cannot be " + found, "use " + alternatives(names));
  }

  void read_lengths(const JsonValue& value, TrueFeature& feature) {
    const bool diagonal = feature.kind == Kind::diag_plus || feature.kind == Kind::diag_minus;
    const std::size_t wanted = !is_diagonal(feature.kind) ? 1 : diagonal ? 2 : 3;
    const std::string remedy = wanted == 1   ? "give one length in mm"
                               : wanted == 2 ? "give [side along X, side along Y] in mm"
                                             : "give [width over the flats, side along X, side along Y] in mm";
    if (wanted == 1 ? !value.is(Type::number) : !value.is(Type::array) || value.items.size() != wanted) {
      tell(value, "the length of " + quote(word(feature.kind)) + " is not what this kind needs", remedy);
      return;
    }
    if (wanted == 1) {
      read_length(value, feature, remedy);
    } else {
      for (const JsonValue& item : value.items) read_length(item, feature, remedy);
    }
  }

  void read_length(const JsonValue& value, TrueFeature& feature, const std::string& remedy) {
    if (!value.is(Type::number)) {
      tell(value, "a length is " + std::string(word(value.type)), remedy);
    } else if (feature.kind == Kind::zero) {
      if (value.number != 0)
        tell(value, "the size of \"zero\" is " + shortest(value.number), "closed jaws are 0 mm apart");
    } else if (!(value.number >= least_length_mm && value.number <= most_length_mm)) {
      tell(value, "a length is " + shortest(value.number) + " mm",
           "give one from " + shortest(least_length_mm) + " to " + shortest(most_length_mm) + " mm");
    }
    feature.lengths_mm.push_back(value.number);
  }
};

}  // namespace

std::vector<TrueFeature> parse_true_features(const JsonValue& list, const std::string& source, Problems& problems) {
  std::vector<TrueFeature> features;
  FeatureReader reader(source, problems);
  std::unordered_map<std::string, int> line_of;
  for (const JsonValue& row : list.items) {
    auto feature = reader.read(row);
    if (!feature) continue;
    const auto [known, is_new] = line_of.emplace(feature->id, row.line);
    if (!is_new)
      problems.push_back({Code::bad_input,
                          {source, row.line, row.column},
                          "feature " + quote(feature->id) + " is already on line " + std::to_string(known->second),
                          "give each feature a name of its own"});
    features.push_back(std::move(*feature));
  }
  return features;
}

}  // namespace fitwright
