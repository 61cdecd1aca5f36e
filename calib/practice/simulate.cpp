#include "practice/simulate.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <numbers>
#include <optional>

#include "base/number.hpp"
#include "practice/stream.hpp"
#include "practice/true_size.hpp"

namespace fitwright {
namespace {

constexpr double assumed_step_mm = Reading{}.step_mm;

/// As C's %.*f and %.*g in the "C" locale; unlike fixed() it keeps a minus before zeros.
std::string formatted(double value, std::chars_format format, int precision) {
  char buffer[400];
  return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value, format, precision).ptr};
}

std::string with_decimals(double value, int decimals) { return formatted(value, std::chars_format::fixed, decimals); }

double value_of(const std::string& text) { return parse_number(text).value_or(0); }

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string out;
  for (const auto part : parts) {
    if (!out.empty()) out += '|';
    out += part;
  }
  return out;
}

/// A slip of the hand at typing reading `r`: shifted point, swapped digits, inches, or a whole millimetre off.
double with_slip(std::uint64_t seed, const std::string& label, double r) {
  constexpr double mm_per_inch = 25.4;
  const double which = stream_uniform(seed, label + "|which");
  if (which < .25) return r * 10;
  if (which < .40) return r / 10;
  if (which < .75) {
    std::string text = with_decimals(r, 2);
    std::vector<std::size_t> places;
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    for (std::size_t i = 0; i + 1 < text.size(); ++i)
      if (digit(i) && digit(i + 1) && text[i] != text[i + 1]) places.push_back(i);
    if (!places.empty()) {
      const double u = stream_uniform(seed, label + "|pos");
      const std::size_t i = places[static_cast<std::size_t>(u * static_cast<double>(places.size()))];
      std::swap(text[i], text[i + 1]);
    }
    return value_of(text);
  }
  if (which < .85) return r / mm_per_inch;
  return r + (stream_uniform(seed, label + "|sg") < .5 ? 1 : -1);
}

/// One reading as it goes into the file.
struct Row {
  const TrueFeature* feature;
  int copy, repeat, turned_deg;
  std::string reading;
};

class Printer {
 public:
  Printer(const Truth& truth, std::uint64_t seed) : truth_(truth), seed_(seed), scale_(scales_of(truth)) {
    for (int c = 1; c <= truth.copies; ++c) {
      const std::string copy = std::to_string(c);
      copies_.push_back({truth.edge_growth_mm + truth.sd_copy_edge_mm * stream_normal(seed, "E|" + copy),
                         truth.sd_copy_scale * stream_normal(seed, "S|" + copy)});
    }
  }

  void rows_of(const TrueFeature& feature, const std::function<void(Row)>& give) const {
    for (int c = 1; c <= truth_.copies; ++c) {
      const double size = size_mm(feature, c);
      for (int k = 1; k <= truth_.repeats; ++k) give({&feature, c, k, turned(c), reading(feature, size, c, k)});
    }
  }

 private:
  const Truth& truth_;
  std::uint64_t seed_;
  AxisValues scale_;
  std::vector<CopyErrors> copies_;

  [[nodiscard]] int turned(int copy) const {
    const auto& t = truth_.turned_deg;
    return t.empty() ? 0 : t[static_cast<std::size_t>(copy - 1) % t.size()];
  }

  /// A fresh draw for each way a copy lies: turning moves seam and ripple.
  [[nodiscard]] double effect(std::string_view family, const std::string& name, int copy) const {
    if (truth_.turned_deg.empty()) return stream_normal(seed_, joined({family, name}));
    return stream_normal(seed_, joined({family, name, std::to_string(turned(copy))}));
  }

  [[nodiscard]] double feature_effect_mm(const TrueFeature& feature, int copy) const {
    if (!shares_edges(feature)) return truth_.sd_feature_mm * effect("F", feature.id, copy);
    const double sd_edge_mm = truth_.sd_feature_mm / std::numbers::sqrt2;
    const double sum =
        sd_edge_mm * effect("EDGE", feature.edge_a, copy) + sd_edge_mm * effect("EDGE", feature.edge_b, copy);
    return feature.kind == Kind::inner ? -sum : sum;
  }

  /// Real size of a copy's feature.
  [[nodiscard]] double size_mm(const TrueFeature& feature, int copy) const {
    Reading lying;
    lying.feature.kind = feature.kind;
    lying.feature.axis = feature.axis;
    lying.turned_deg = turned(copy);
    const double size = true_size_mm(truth_, scale_, feature, machine_kind(lying), machine_axis(lying),
                                     copies_[static_cast<std::size_t>(copy - 1)]);
    if (is_steel(feature.kind)) return size;
    return size + feature_effect_mm(feature, copy) +
           truth_.sd_feature_copy_mm * stream_normal(seed_, joined({"FC", feature.id, std::to_string(copy)}));
  }

  [[nodiscard]] std::string reading(const TrueFeature& feature, double size, int copy, int repeat) const {
    if (feature.kind == Kind::pin) {  // the largest shank of a graded set that enters; no caliper is involved
      const double step = truth_.pin_step_mm;
      return with_decimals(std::floor(size / step + 1e-9) * step + 0.0, 2);
    }
    const std::string label = joined({"R", feature.id, std::to_string(copy), std::to_string(repeat)});
    const double resolution = truth_.resolution_mm;
    double r = size;
    if (uses_inside_jaws(feature.kind)) {
      const double g = truth_.jaw_flat_mm;
      if (feature.kind != Kind::inner) r = std::sqrt(std::max(r * r - g * g, 0.0));
      r += truth_.inside_bias_mm;
    }
    const double zero = feature.kind == Kind::pitch ? 0 : truth_.caliper_zero_mm;
    r = r * (1 + truth_.caliper_scale) + zero + truth_.sd_reading_mm * stream_normal(seed_, label);
    if (resolution > 0) r = std::floor(r / resolution + 0.5) * resolution;
    if (truth_.typo_rate > 0 && stream_uniform(seed_, label + "|typo") < truth_.typo_rate)
      r = with_slip(seed_, label, r);
    return with_decimals(r, resolution < 0.01 ? 3 : 2);
  }
};

void for_each_row(const Truth& truth, std::uint64_t seed, const std::function<void(Row)>& give) {
  const Printer printer(truth, seed);
  for (const TrueFeature& feature : truth.features) printer.rows_of(feature, give);
}

bool names_edges(const TrueFeature& f) { return !f.edge_a.empty() && !f.edge_b.empty(); }

bool is_square(const TrueFeature& f) {
  if (!is_diagonal(f.kind)) return true;
  const auto n = f.lengths_mm.size();
  return f.lengths_mm[n - 2] == f.lengths_mm[n - 1];
}

/// Which optional columns the readings of a truth want.
struct Wanted {
  bool turned, edges, sides, step;
};

Wanted wanted_columns(const Truth& truth) {
  const auto& f = truth.features;
  const bool pins = std::any_of(f.begin(), f.end(), [](const auto& x) { return x.kind == Kind::pin; });
  return {!truth.turned_deg.empty(), std::any_of(f.begin(), f.end(), names_edges),
          !std::all_of(f.begin(), f.end(), is_square), pins && truth.pin_step_mm != assumed_step_mm};
}

std::string nominal_text(const TrueFeature& f) {
  const bool diagonal = f.kind == Kind::diag_plus || f.kind == Kind::diag_minus;
  const double nominal = diagonal ? hypotenuse(f.lengths_mm[0], f.lengths_mm[1]) : f.lengths_mm[0];
  return formatted(nominal, std::chars_format::general, 6);
}

}  // namespace

bool shares_edges(const TrueFeature& feature) {
  const bool flat = feature.kind == Kind::outer || feature.kind == Kind::foot || feature.kind == Kind::inner;
  return flat && names_edges(feature);
}

Feature drawn_feature(const TrueFeature& f) {
  Feature out;
  out.id = f.id;
  out.kind = f.kind;
  out.axis = f.axis;
  out.nominal_mm = value_of(nominal_text(f));
  if (!is_square(f)) {
    const auto n = f.lengths_mm.size();
    out.side_a_mm = f.lengths_mm[n - 2];
    out.side_b_mm = f.lengths_mm[n - 1];
  }
  out.edge_a = f.edge_a;
  out.edge_b = f.edge_b;
  return out;
}

ReadingSet simulate(const Truth& truth, std::uint64_t seed) {
  ReadingSet set;
  set.source = "simulated";
  Reading r;
  const TrueFeature* last = nullptr;
  for_each_row(truth, seed, [&](const Row& row) {
    if (row.feature != last) {
      last = row.feature;
      r.feature = drawn_feature(*last);
      r.step_mm = last->kind == Kind::pin ? truth.pin_step_mm : assumed_step_mm;
    }
    r.copy = row.copy;
    r.repeat = row.repeat;
    r.turned_deg = row.turned_deg;
    r.reading_mm = value_of(row.reading);
    set.rows.push_back(r);
  });
  return set;
}

bool csv_is_incomplete(const Truth& truth) {
  const Wanted w = wanted_columns(truth);
  return (w.sides || w.step) && !w.edges && !truth.complete_columns;
}

std::string simulate_csv(const Truth& truth, std::uint64_t seed) {
  Wanted columns = wanted_columns(truth);
  if (!columns.edges && !truth.complete_columns) columns.sides = columns.step = false;
  std::string out = "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm";
  if (columns.turned) out += ",turned_deg";
  if (columns.edges) out += ",edge_a,edge_b";
  if (columns.sides) out += ",side_a_mm,side_b_mm";
  if (columns.step) out += ",step_mm";
  out += '\n';
  for_each_row(truth, seed, [&](const Row& row) {
    const TrueFeature& f = *row.feature;
    const auto add = [&](std::string_view text) { (out += text) += ','; };
    add(f.id);
    add(word(f.kind));
    add(word(f.axis));
    add(nominal_text(f));
    add(std::to_string(row.copy));
    add(std::to_string(row.repeat));
    add(row.reading);
    if (columns.turned) add(std::to_string(row.turned_deg));
    if (columns.edges) {
      add(f.edge_a);
      add(f.edge_b);
    }
    if (columns.sides) {
      const Feature drawn = drawn_feature(f);
      add(drawn.side_a_mm ? shortest(*drawn.side_a_mm) : "");
      add(drawn.side_b_mm ? shortest(*drawn.side_b_mm) : "");
    }
    if (columns.step) add(f.kind == Kind::pin ? shortest(truth.pin_step_mm) : "");
    out.back() = '\n';
  });
  return out;
}

}  // namespace fitwright
