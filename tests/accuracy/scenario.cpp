#include "accuracy/scenario.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "base/number.hpp"
#include "design/design.hpp"
#include "model/estimates.hpp"
#include "model/priors.hpp"
#include "practice/stream.hpp"
#include "practice/true_size.hpp"

namespace fitwright::accuracy {
namespace {

/// Uniform ranges that cover what desktop printers do: common practice, no source.
struct Range {
  const char* what;
  double low, high;
  const char* unit;
};
constexpr Range scale_range{"scale of X, Y and Z, each", -0.006, 0.003, ""};
constexpr Range edge_range{"edge growth", -0.05, 0.15, "mm"};
constexpr Range z0_range{"height error common to all heights", -0.1, 0.1, "mm"};
constexpr Range skew_range{"skew", -0.003, 0.003, "rad"};
constexpr Range hole_c0_range{"hole closing c0", 0.0, 0.12, "mm"};
constexpr Range flare_range{"flare of the first layers, per edge", 0.0, 0.15, "mm"};
constexpr Range flow_range{"flow of the walls", 0.92, 1.08, ""};

double uniform(const Range& range, std::uint64_t seed) {
  return range.low + (range.high - range.low) * stream_uniform(seed, std::string("truth|") + range.what);
}

double normal(const prior::Normal& p, std::uint64_t seed, const char* what) {
  return p.mean + p.sd * stream_normal(seed, std::string("truth|") + what);
}

/// A standard deviation from the scaled inverse chi-squared law of `df` degrees of freedom about `sd`.
double scattered_sd(double sd, int df, std::uint64_t seed, const std::string& what) {
  double chi_squared = 0;
  for (int k = 0; k < df; ++k)
    chi_squared += std::pow(stream_normal(seed, "truth|" + what + "|" + std::to_string(k)), 2);
  return sd * std::sqrt(df / chi_squared);
}

TrueFeature as_true(const Feature& f) {
  TrueFeature out{f.id, f.kind, f.axis, {f.nominal_mm}, f.edge_a, f.edge_b};
  const double a = f.side_a_mm.value_or(100), b = f.side_b_mm.value_or(a);
  if (f.kind == Kind::flats_plus || f.kind == Kind::flats_minus) out.lengths_mm = {f.nominal_mm, a, b};
  if (f.kind == Kind::diag_plus || f.kind == Kind::diag_minus) out.lengths_mm = {a, b};
  return out;
}

/// Frame and bores, and stair for the heights where that design exists; else the heights of the practice list.
std::vector<TrueFeature> coupon_features() {
  std::vector<TrueFeature> out;
  const auto has_heights = [&] {
    return std::any_of(out.begin(), out.end(),
                       [](const TrueFeature& f) { return f.axis == Axis::z && f.kind == Kind::outer; });
  };
  for (const DesignInfo& design : designs()) {
    if (design.name != "frame" && design.name != "bores" && design.name != "stair") continue;
    const auto coupon = make_coupon(design.name);
    if (!coupon) throw std::runtime_error(coupon.problems()[0].text());
    for (const Feature& f : coupon->features) {
      TrueFeature t = as_true(f);
      t.id = design.name + ' ' + t.id;
      for (std::string* edge : {&t.edge_a, &t.edge_b})
        if (!edge->empty()) *edge = design.name + ' ' + *edge;
      out.push_back(std::move(t));
    }
  }
  if (!has_heights())
    for (const TrueFeature& f : default_truth().features)
      if (f.axis == Axis::z && f.kind == Kind::outer) out.push_back(f);
  return out;
}

constexpr double gauge_mm = 10;
constexpr double ring_mm = 3;

/// The references are a little off what they are marked, as far as the estimator allows for.
void add_steel(Truth& truth, std::uint64_t seed) {
  const auto off = [&](const char* id) {
    return prior::reference_u_mm * stream_normal(seed, std::string("steel|") + id);
  };
  truth.features.push_back({"Z0", Kind::zero, Axis::n, {0}, {}, {}});
  truth.features.push_back({"G10", Kind::gauge, Axis::n, {gauge_mm + off("G10")}, {}, {}});
  truth.features.push_back({"R3", Kind::ring, Axis::n, {ring_mm + off("R3")}, {}, {}});
}

ReadingSet read(const Truth& truth, std::uint64_t seed) {
  ReadingSet set = simulate(truth, seed);
  for (Reading& r : set.rows) {  // what the steel is marked, not what it is
    if (r.feature.kind == Kind::gauge) r.feature.nominal_mm = gauge_mm;
    if (r.feature.kind == Kind::ring) r.feature.nominal_mm = ring_mm;
  }
  return set;
}

}  // namespace

std::vector<TrueFeature> features_of(Places places) {
  static const std::vector<TrueFeature> list = default_truth().features, coupons = coupon_features();
  return places == Places::list ? list : coupons;
}

Truth draw_truth(Truths truths, std::uint64_t seed) {
  Truth t = default_truth();
  t.features.clear();
  if (truths == Truths::fixed) return t;
  t.scale = {uniform({"scale x", scale_range.low, scale_range.high, ""}, seed),
             uniform({"scale y", scale_range.low, scale_range.high, ""}, seed),
             uniform({"scale z", scale_range.low, scale_range.high, ""}, seed)};
  t.edge_growth_mm = uniform(edge_range, seed);
  t.z0_mm = uniform(z0_range, seed);
  t.skew_rad = uniform(skew_range, seed);
  t.hole_c0_mm = uniform(hole_c0_range, seed);
  t.flare_mm = uniform(flare_range, seed);
  t.wall_flow = uniform(flow_range, seed);
  t.hole_c1_mm2 = normal(prior::hole_c1_mm2, seed, "hole c1");
  t.peg_p0_mm = normal(prior::peg_p0_mm, seed, "peg p0");
  t.peg_p1_mm2 = normal(prior::peg_p1_mm2, seed, "peg p1");
  t.caliper_zero_mm = normal(prior::caliper_zero_mm, seed, "caliper zero");
  t.inside_bias_mm = normal(prior::inside_bias_mm, seed, "inside bias");
  t.jaw_flat_mm = std::sqrt(2 * std::max(0.0, normal(prior::jaw_flat_term_mm2, seed, "jaw flat")));
  if (truths == Truths::drawn_scatter) {
    const int df = static_cast<int>(prior::copy_df);
    t.sd_copy_edge_mm = scattered_sd(prior::copy_edge_sd_mm, df, seed, "copy edge");
    t.sd_copy_scale = scattered_sd(prior::copy_scale_sd, df, seed, "copy scale");
  }
  return t;
}

std::vector<std::string> drawn_ranges() {
  std::vector<std::string> out;
  for (const Range& r : {scale_range, edge_range, z0_range, skew_range, hole_c0_range, flare_range, flow_range})
    out.push_back(std::string(r.what) + ": even from " + shortest(r.low) + " to " + shortest(r.high) +
                  (*r.unit ? std::string(" ") + r.unit : ""));
  const auto say = [&](const char* what, const prior::Normal& p, const char* unit) {
    out.push_back(std::string(what) + ": normal, mean " + shortest(p.mean) + ", sd " + shortest(p.sd) + ' ' + unit);
  };
  say("hole closing c1", prior::hole_c1_mm2, "mm2");
  say("peg p0", prior::peg_p0_mm, "mm");
  say("peg p1", prior::peg_p1_mm2, "mm2");
  say("caliper zero", prior::caliper_zero_mm, "mm");
  say("inside bias", prior::inside_bias_mm, "mm");
  say("half the square of the jaws' flats (0 where that gives less)", prior::jaw_flat_term_mm2, "mm2");
  return out;
}

Run make_run(const Scenario& s, int run, int repeats) {
  const std::uint64_t seed = s.first_seed + static_cast<std::uint64_t>(run);
  Run out;
  out.truth = draw_truth(s.truths, seed);
  out.truth.features = features_of(s.places);
  out.truth.copies = s.lay.copies;
  out.truth.repeats = repeats;
  out.truth.turned_deg = s.lay.turned_deg;
  if (s.steel) add_steel(out.truth, seed);
  out.without_slips = read(out.truth, seed);
  out.truth.typo_rate = s.typo_rate;
  out.readings = s.typo_rate > 0 ? read(out.truth, seed) : out.without_slips;
  return out;
}

std::map<std::string, double> true_values(const Truth& t) {
  const AxisValues scale = scales_of(t);
  std::map<std::string, double> out{{name::scale_x, scale.x},
                                    {name::scale_y, scale.y},
                                    {name::scale_z, scale.z},
                                    {name::edge_growth, t.edge_growth_mm},
                                    {name::z0, t.z0_mm},
                                    {name::caliper_zero, t.caliper_zero_mm},
                                    {name::inside_bias, t.inside_bias_mm},
                                    {name::hole_c0, t.hole_c0_mm},
                                    {name::hole_c1, t.hole_c1_mm2},
                                    {name::peg_p0, t.peg_p0_mm},
                                    {name::peg_p1, t.peg_p1_mm2},
                                    {name::skew_xy, t.skew_rad},
                                    {name::flare, t.flare_mm}};
  double walls = 0, sum_mm = 0;
  for (const TrueFeature& f : t.features) {
    if (f.kind != Kind::wall) continue;
    walls += 1;
    sum_mm += true_size_mm(t, scale, f, f.kind, f.axis, {});
  }
  if (walls > 0) out[name::wall] = sum_mm / walls;
  return out;
}

}  // namespace fitwright::accuracy
