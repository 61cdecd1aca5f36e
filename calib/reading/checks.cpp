#include "reading/checks.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

// Limits of the checks, from a simulation of slips at 2 % of the readings (docs/accuracy.md): common practice for the
// scatter of caliper readings, no other source.
constexpr double gate_least_mm = 0.5, gate_per_mm = 0.015;
constexpr double wall_gate_least_mm = 0.15, wall_gate_per_mm = 0.4;
constexpr double repeat_limit_mm = 0.08;
/// Holes or pegs of a print that are all off alike by more than this have no law, they have a slip in all of them.
constexpr double most_common_mm = 1;
constexpr std::size_t least_places = 3;  ///< of a kind, before what they have in common is looked at
constexpr double proposal_limit_mm = 0.15, proposal_per_mm = 0.006;
/// Readings are decimal fractions: a difference that equals a limit must not exceed it by the last binary digit.
constexpr double rounding_mm = 1e-9;

constexpr double mm_per_inch = 25.4;
constexpr int mm_decimals = 2, inch_decimals = 4;  ///< as calipers show
constexpr std::string_view in_inches = noted("read in inches"), in_millimetres = noted("read in millimetres");
constexpr std::string_view swapped_digits = noted("two digits swapped");

constexpr double counting_error = 1e-6;  ///< of counted thousandths: binary digits of sizes below absurd_size_mm

/// A reading that another reading may have been meant to be.
struct Variant {
  double value_mm;
  std::string slip;
};

/// The text of a reading with two neighbouring digits the other way round, each way there is.
std::vector<double> swaps_of(const std::string& text) {
  std::vector<double> out;
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (!digit(i) || !digit(i + 1) || text[i] == text[i + 1]) continue;
    std::string swapped = text;
    std::swap(swapped[i], swapped[i + 1]);
    if (const auto value = parse_number(swapped)) out.push_back(*value);
  }
  return out;
}

std::vector<Variant> variants_of(double r, Digits digits) {
  const std::string point = noted("decimal point shifted");
  std::vector<Variant> out{{r * 10, point}, {r / 10, point}};
  if (digits == Digits::mm) {
    out.push_back({r * mm_per_inch, std::string(in_inches)});
    for (const double off : {1.0, -1.0}) out.push_back({r + off, noted("one millimetre off")});
    for (const double mm : swaps_of(fixed(r, mm_decimals))) out.push_back({mm, std::string(swapped_digits)});
    return out;
  }
  out.push_back({r / mm_per_inch, std::string(in_millimetres)});
  // A dial for inches has a turn to the tenth, so that a whole turn is miscounted.
  for (const double off : {0.1, -0.1}) out.push_back({r + off * mm_per_inch, noted("a tenth of an inch off")});
  for (const double inches : swaps_of(fixed(r / mm_per_inch, inch_decimals)))
    out.push_back({inches * mm_per_inch, std::string(swapped_digits)});
  return out;
}

/// Sets the proposal of `suspect` when exactly one slip brings `r` to within `limit_mm` of `target_mm`.
void propose(Suspect& suspect, double r, double target_mm, double limit_mm, Digits usual) {
  const Variant* only = nullptr;
  const Digits digits = digits_of(r, usual);
  const auto variants = variants_of(r, digits);
  for (const Variant& v : variants) {
    if (std::abs(v.value_mm - target_mm) > limit_mm + rounding_mm) continue;
    if (only) return;
    only = &v;
  }
  if (!only) return;
  suspect.slip = only->slip;
  if (digits == Digits::inches && only->slip != in_millimetres) {
    // What was meant is so many ten-thousandths of an inch.
    suspect.proposal_mm = *parse_number(fixed(only->value_mm / mm_per_inch, inch_decimals)) * mm_per_inch;
    return;
  }
  // Inches are typed with two decimals, so more than hundredths of a millimetre cannot come back; elsewhere only the
  // last binary digits are cleaned away.
  suspect.proposal_mm = parse_number(fixed(only->value_mm, only->slip == in_inches ? 2 : 4));
}

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

/// Shanks come in steps, so two right readings may be a whole step apart.
double at_least_one_step(double limit_mm, const Reading& r) {
  return r.feature.kind == Kind::pin ? std::max(limit_mm, r.step_mm) : limit_mm;
}

double deviation_mm(const Reading& r) { return r.reading_mm - r.feature.nominal_mm; }

/// By how much cylinders of one kind are off in common: the median over their places of the places' medians.
std::map<Kind, double> common_deviations(const ReadingSet& set) {
  std::map<Kind, std::map<PlaceKey, std::vector<double>>> places;
  for (const Reading& r : set.rows)
    if (r.feature.kind == Kind::peg || r.feature.kind == Kind::hole || r.feature.kind == Kind::hole_h)
      places[r.feature.kind][place_of(r)].push_back(deviation_mm(r));
  std::map<Kind, double> common;
  for (auto& [kind, of_kind] : places) {
    if (of_kind.size() < least_places) continue;
    std::vector<double> medians;
    for (auto& [place, deviations] : of_kind) medians.push_back(median_of(std::move(deviations)));
    common[kind] = median_of(std::move(medians));
  }
  return common;
}

/// Whether a slip that can be in all readings of a print (unlike swapped digits) brings this one to its drawn size.
bool slip_of_all_explains(const Reading& r, Digits usual) {
  const double nominal = r.feature.nominal_mm, limit = proposal_limit_mm + proposal_per_mm * nominal;
  const auto variants = variants_of(r.reading_mm, digits_of(r.reading_mm, usual));
  return std::any_of(variants.begin(), variants.end(), [&](const Variant& v) {
    return v.slip != swapped_digits && std::abs(v.value_mm - nominal) <= limit + rounding_mm;
  });
}

/// For each row, whether it passes: within the gate, or a cylinder that is as far off as the others of its kind are and
/// that no slip in all of them explains.
std::vector<bool> passing(const ReadingSet& set, Digits usual) {
  const std::map<Kind, double> common = common_deviations(set);
  std::vector<bool> passes(set.rows.size());
  for (std::size_t i = 0; i < set.rows.size(); ++i) {
    const Reading& r = set.rows[i];
    passes[i] = passes_gate(r);
    const auto off = common.find(r.feature.kind);
    if (passes[i] || off == common.end() || std::abs(off->second) > most_common_mm) continue;
    passes[i] = std::abs(deviation_mm(r) - off->second) <= gate_half_width_mm(r.feature) + rounding_mm &&
                !slip_of_all_explains(r, usual);
  }
  return passes;
}

/// Indices of the passing rows of each place.
std::map<PlaceKey, std::vector<std::size_t>> passing_by_place(const ReadingSet& set, const std::vector<bool>& passes) {
  std::map<PlaceKey, std::vector<std::size_t>> places;
  for (std::size_t i = 0; i < set.rows.size(); ++i)
    if (passes[i]) places[place_of(set.rows[i])].push_back(i);
  return places;
}

std::vector<double> readings_at(const ReadingSet& set, const std::vector<std::size_t>& indices) {
  std::vector<double> values;
  for (const std::size_t i : indices) values.push_back(set.rows[i].reading_mm);
  return values;
}

}  // namespace

std::string_view word(Rule rule) {
  return rule == Rule::entry ? "entry" : rule == Rule::repeat ? "repeat" : "residual";
}

Digits digits_of(double reading_mm, Digits usual) {
  const auto whole = [](double value) { return std::abs(value - std::round(value)) < counting_error; };
  const bool mm = whole(reading_mm * 1e3), inches = whole(reading_mm / mm_per_inch * 1e4);
  return mm == inches ? usual : mm ? Digits::mm : Digits::inches;
}

double gate_half_width_mm(const Feature& feature) {
  if (feature.kind == Kind::wall) return std::max(wall_gate_least_mm, wall_gate_per_mm * feature.nominal_mm);
  return std::max(gate_least_mm, gate_per_mm * feature.nominal_mm);
}

bool passes_gate(const Reading& reading) {
  return std::abs(reading.reading_mm - reading.feature.nominal_mm) <= gate_half_width_mm(reading.feature) + rounding_mm;
}

bool can_be_read(const Feature& feature, double reading_mm) {
  if (!std::isfinite(reading_mm) || std::abs(reading_mm) > absurd_size_mm) return false;
  if (reading_mm > 0 || feature.kind == Kind::zero) return true;
  Reading meant;
  meant.feature = feature;
  meant.reading_mm = reading_mm + 1;
  return passes_gate(meant);
}

bool need_a_third(const Reading& a, const Reading& b) {
  return std::abs(a.reading_mm - b.reading_mm) > at_least_one_step(third_limit_mm, a) + rounding_mm;
}

std::optional<Suspect> check_entry(const Reading& reading, std::optional<double> expected_mm, Digits usual) {
  if (passes_gate(reading)) return std::nullopt;
  Suspect suspect;
  suspect.rule = Rule::entry;
  const double nominal = reading.feature.nominal_mm;
  suspect.against_mm = nominal;
  const double limit = expected_mm ? proposal_limit_mm : proposal_limit_mm + proposal_per_mm * nominal;
  propose(suspect, reading.reading_mm, expected_mm.value_or(nominal), limit, usual);
  return suspect;
}

PlaceKey place_of(const Reading& reading) {
  PlaceKey key{reading.feature.id, is_steel(reading.feature.kind) ? 0 : reading.copy, {}};
  if (reading.feature.kind == Kind::hole_h && (reading.note == "up" || reading.note == "across"))
    key.direction = reading.note;
  return key;
}

std::vector<Suspect> check_readings(const ReadingSet& set, Digits usual) {
  const std::vector<bool> passes = passing(set, usual);
  const auto places = passing_by_place(set, passes);
  std::vector<Suspect> suspects;
  for (std::size_t i = 0; i < set.rows.size(); ++i) {
    if (passes[i]) continue;
    const auto place = places.find(place_of(set.rows[i]));
    std::optional<double> expected;
    if (place != places.end()) expected = median_of(readings_at(set, place->second));
    Suspect suspect = *check_entry(set.rows[i], expected, usual);
    suspect.index = i;
    suspects.push_back(std::move(suspect));
  }
  for (const auto& [key, indices] : places) {
    if (indices.size() < 3) continue;
    const double median = median_of(readings_at(set, indices));
    for (const std::size_t i : indices) {
      const double r = set.rows[i].reading_mm;
      const double limit = at_least_one_step(repeat_limit_mm, set.rows[i]);
      if (std::abs(r - median) <= limit + rounding_mm) continue;
      Suspect suspect;
      suspect.index = i;
      suspect.rule = Rule::repeat;
      suspect.against_mm = median;
      propose(suspect, r, median, limit, usual);
      suspects.push_back(std::move(suspect));
    }
  }
  std::sort(suspects.begin(), suspects.end(), [](const Suspect& a, const Suspect& b) { return a.index < b.index; });
  return suspects;
}

std::vector<std::pair<std::string, int>> places_wanting_a_third(const ReadingSet& set) {
  std::vector<std::size_t> first_rows;
  for (const auto& [key, indices] : passing_by_place(set, passing(set, Digits::mm))) {
    if (indices.size() != 2) continue;
    if (need_a_third(set.rows[indices[0]], set.rows[indices[1]])) first_rows.push_back(indices[0]);
  }
  std::sort(first_rows.begin(), first_rows.end());
  std::vector<std::pair<std::string, int>> out;
  for (const std::size_t i : first_rows) out.emplace_back(set.rows[i].feature.id, set.rows[i].copy);
  return out;
}

}  // namespace fitwright
