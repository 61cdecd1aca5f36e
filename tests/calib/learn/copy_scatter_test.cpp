// Scatter between copies from a printer's past: what comes back, what noise does, and what the next copy is told.

#include "learn/copy_scatter.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "calib/learn/learning.hpp"
#include "model/estimate.hpp"
#include "practice/simulate.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using learning::margin;
using learning::Random;

namespace {

/// Copies with given edge growth and scale, everything else alike, read without noise; the second lies turned.
ReadingSet made(const std::vector<double>& edge_mm, const std::vector<double>& scale, bool turned) {
  ReadingSet set;
  const double lengths[] = {10, 20, 40, 100};
  for (std::size_t c = 0; c < edge_mm.size(); ++c)
    for (const Axis axis : {Axis::x, Axis::y})
      for (const Kind kind : {Kind::outer, Kind::inner})
        for (const double length : lengths) {
          Reading r;
          r.feature.kind = kind;
          r.feature.axis = axis;
          r.feature.nominal_mm = length;
          r.feature.id = (kind == Kind::inner ? "S" : "") + std::string(axis == Axis::x ? "X" : "Y") +
                         std::to_string(static_cast<int>(length));
          r.copy = static_cast<int>(c) + 1;
          if (turned && c == 1) r.turned_deg = 90;
          const double z = kind == Kind::inner ? -2 : 2;
          r.reading_mm = 0.02 + length * (1 - 0.004 + scale[c]) + z * (0.08 + edge_mm[c]);
          set.rows.push_back(r);
        }
  return set;
}

CopyEffects effects_of(const ReadingSet& set) { return copy_effects(estimate(set).value()).value(); }

}  // namespace

TEST_CASE("copy scatter: the copies' own edge growth and scale come back, about their mean") {
  for (const bool turned : {false, true}) {
    const CopyEffects e = effects_of(made({0.01, -0.02, 0.04}, {0.0003, 0.0001, -0.0007}, turned));
    REQUIRE(e.edge_mm.size() == 3);
    const double edge[] = {0, -0.03, 0.03}, scale[] = {0.0004, 0.0002, -0.0006};
    for (std::size_t c = 0; c < 3; ++c) {
      CHECK(e.edge_mm[c] == Approx(edge[c]).margin(1e-12));
      CHECK(e.scale[c] == Approx(scale[c]).margin(1e-14));
    }
    CHECK(e.noise_df == (16 - 2) * 2);
    CHECK(e.edge_noise_mm2 > 0);  // the display's rounding stays
  }
}

TEST_CASE("copy scatter: what cannot be compared is said") {
  Problems told = copy_effects(estimate(made({0.01}, {0}, false)).value()).problems();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == Code::unanswerable);
  CHECK(told[0].what == "one copy alone cannot show how much copies differ");

  ReadingSet few = made({0.01, 0.02}, {0, 0}, false);
  std::erase_if(few.rows, [](const Reading& r) { return r.feature.nominal_mm != 40 || r.feature.axis == Axis::y; });
  told = copy_effects(estimate(few).value()).problems();
  CHECK(told[0].what == "only 2 lengths were read on every copy, too few to compare the copies");

  Estimates one_length = estimate(made({0.01, 0.02}, {0, 0}, false)).value();
  for (Cell& c : one_length.cells) {
    c.kind = Kind::outer;
    c.feature.nominal_mm = 20;
  }
  told = copy_effects(one_length).problems();
  CHECK(told[0].what == "lengths of one kind and size cannot tell edge growth and scale of a copy apart");
}

TEST_CASE("copy scatter: places that one copy lacks do not count") {
  ReadingSet set = made({0.01, -0.02, 0.04}, {0.0003, 0.0001, -0.0007}, false);
  std::erase_if(set.rows, [](const Reading& r) { return r.copy == 2 && r.feature.id == "X40"; });
  const CopyEffects e = effects_of(set);
  CHECK(e.noise_df == (15 - 2) * 2);
  CHECK(e.edge_mm[2] - e.edge_mm[0] == Approx(0.03).margin(1e-12));
}

TEST_CASE("pooled scatter: against the posterior integrated elsewhere") {
  // Gauss-Legendre panels in another language, sixteen digits; the last is the pooled standard deviation itself.
  CHECK(pool_scatter({{4e-4, 4, 1e-4}}).sd == Approx(0.018960492254102346).epsilon(1e-7));
  CHECK(pool_scatter({{4e-4, 2, 1e-4}, {1e-4, 3, 2e-4}}).sd == Approx(0.014507284608423278).epsilon(1e-7));
  CHECK(pool_scatter({{0.5e-4, 4, 1e-4}}).sd == Approx(0.00853305747794669).epsilon(1e-7));
  CHECK(pool_scatter({{4e-4, 4, 0}}).sd == Approx(0.02).epsilon(1e-7));
}

TEST_CASE("pooled scatter: laws") {
  const std::vector<ScatterEvidence> sets{{4e-4, 2, 1e-4}, {1e-4, 3, 2e-4}, {3e-4, 1, 1e-4}};
  const PooledScatter p = pool_scatter(sets);
  CHECK(p.df == 6);
  CHECK(p.observed_sd == Approx(std::sqrt((4e-4 * 2 + 1e-4 * 3 + 3e-4) / 6)));
  CHECK(p.noise_sd == Approx(std::sqrt((1e-4 * 2 + 2e-4 * 3 + 1e-4) / 6)));

  // The order of sets does not matter, nor the unit; equal sets pool like one.
  CHECK(pool_scatter({sets[2], sets[0], sets[1]}).sd == Approx(p.sd).epsilon(1e-9));
  std::vector<ScatterEvidence> micrometres = sets;
  for (ScatterEvidence& s : micrometres) {
    s.variance *= 1e6;
    s.noise_variance *= 1e6;
  }
  CHECK(pool_scatter(micrometres).sd == Approx(1000 * p.sd).epsilon(1e-9));
  CHECK(pool_scatter({{4e-4, 2, 1e-4}, {4e-4, 3, 1e-4}}).sd ==
        Approx(pool_scatter({{4e-4, 5, 1e-4}}).sd).epsilon(1e-9));

  // Noise that is small beside the scatter takes its part away; noise that drowns it leaves the scatter unknown, so the
  // answer grows with it. Never nothing.
  double last = pool_scatter({{1e-4, 4, 0}}).sd;
  for (const double noise : {1e-7, 1e-6, 1e-5}) {
    const double sd = pool_scatter({{1e-4, 4, noise}}).sd;
    CHECK(sd < last);
    CHECK(sd > std::sqrt(1e-4 - noise) * 0.99);
    last = sd;
  }
  CHECK(pool_scatter({{1e-4, 4, 1e-2}}).sd > pool_scatter({{1e-4, 4, 1e-3}}).sd);
  CHECK(pool_scatter({{0, 4, 1e-4}}).sd > 0);
  CHECK_THROWS_AS(pool_scatter({}), std::invalid_argument);
  CHECK_THROWS_AS(pool_scatter({{0, 4, 0}}), std::invalid_argument);
  CHECK_THROWS_AS(pool_scatter({{-1, 4, 1}}), std::invalid_argument);
}

TEST_CASE("pooled scatter: the next copy lies in its interval as often as promised") {
  // Copies scatter by 1, their estimates by the noise besides; histories of five copies and of seven in three prints.
  constexpr int runs = 1000;
  Random random(27);
  for (const double noise : {0.3, 1.0, 3.0})
    for (const std::vector<int>& prints : {std::vector<int>{5}, std::vector<int>{3, 2, 2}}) {
      int held = 0;
      for (int run = 0; run < runs; ++run) {
        std::vector<ScatterEvidence> sets;
        for (const int n : prints) {
          double sum = 0, squares = 0;
          for (int c = 0; c < n; ++c) {
            const double found = random.normal() + noise * random.normal();
            sum += found;
            squares += found * found;
          }
          sets.push_back({(squares - sum * sum / n) / (n - 1), n - 1.0, noise * noise});
        }
        const PooledScatter p = pool_scatter(sets);
        held += std::abs(random.normal()) <= coverage_factor(0.95, p.df) * p.sd;
      }
      INFO("noise " << noise << ", " << prints.size() << " prints: " << held << " of " << runs);
      CHECK(held >= (0.95 - margin(0.95, runs)) * runs);
      if (noise < 2) CHECK(held <= (0.95 + margin(0.95, runs) + 0.02) * runs);  // more noise errs to the safe side
    }
}

TEST_CASE("copy scatter: the practice printer's scatter comes back from many prints") {
  Truth t = default_truth();
  t.copies = 3;
  t.sd_copy_edge_mm = 0.02;
  t.sd_copy_scale = 0.0006;
  std::vector<CopyEffects> sets;
  double edge = 0, scale = 0;
  constexpr int prints = 60;
  for (unsigned seed = 1; seed <= prints; ++seed) {
    sets.push_back(effects_of(simulate(t, seed)));
    for (const double v : sets.back().edge_mm) edge += v * v / 2 / prints;
    for (const double v : sets.back().scale) scale += v * v / 2 / prints;
    edge -= sets.back().edge_noise_mm2 / prints;
    scale -= sets.back().scale_noise / prints;
  }
  const CopyScatter found = copy_scatter(sets);
  CHECK(found.copies == 3 * prints);
  CHECK(found.sets == prints);
  CHECK(found.edge_mm.df == 2 * prints);
  // Four standard errors of a standard deviation with 120 degrees of freedom: 4/sqrt(240).
  const double four = 4 / std::sqrt(4.0 * prints);
  CHECK(found.edge_mm.sd == Approx(0.02).epsilon(four));
  CHECK(found.scale.sd == Approx(0.0006).epsilon(four));
  // So many copies leave the prior nothing to say: the posterior's answer is the simple difference.
  CHECK(found.edge_mm.sd == Approx(std::sqrt(edge)).epsilon(0.02));
  CHECK(found.scale.sd == Approx(std::sqrt(scale)).epsilon(0.02));
}

TEST_CASE("prior from history: five copies make it, and say so") {
  const auto set_of = [](int copies) {
    CopyEffects e;
    for (int c = 0; c < copies; ++c) {
      e.edge_mm.push_back(0.02 * (c - 0.5 * (copies - 1)));
      e.scale.push_back(0.0004 * (c - 0.5 * (copies - 1)));
    }
    e.edge_noise_mm2 = 1e-6;
    e.scale_noise = 1e-10;
    e.noise_df = 20;
    return e;
  };
  const CopyPrior typical;
  for (const auto& sets : {std::vector<CopyEffects>{}, {set_of(4)}, {set_of(2), set_of(2)}, {set_of(4), set_of(1)}}) {
    const CopyPrior p = prior_from_history(copy_scatter(sets));
    CHECK(p.edge_sd_mm == typical.edge_sd_mm);
    CHECK(p.scale_sd == typical.scale_sd);
    CHECK(p.df == 4);
    CHECK(p.source == typical.source);
  }
  const CopyScatter history = copy_scatter({set_of(3), set_of(2), set_of(2)});
  const CopyPrior own = prior_from_history(history);
  CHECK(own.edge_sd_mm == history.edge_mm.sd);
  CHECK(own.scale_sd == history.scale.sd);
  CHECK(own.df == 4);
  CHECK(own.source == "pooled from 7 copies of this printer in 3 prints, worth 4 degrees of freedom");
  CHECK(prior_from_history(copy_scatter({set_of(5)})).source ==
        "pooled from 5 copies of this printer, worth 4 degrees of freedom");

  EstimateOptions options;
  options.copy_prior = own;
  Truth t = default_truth();
  t.copies = 1;
  const Estimates e = estimate(simulate(t, 3), options).value();
  const auto used =
      std::find_if(e.priors.begin(), e.priors.end(), [](const PriorUsed& p) { return p.parameter == "copy_edge_mm"; });
  REQUIRE(used != e.priors.end());
  CHECK(used->source == own.source);
}

TEST_CASE("prior from history: one copy's intervals hold the truth on printers unlike the typical one") {
  // Copies that scatter twice as much as the practice printer's (and more than is assumed), and half as much. History:
  // seven copies in three prints; then one copy of the same coupon. At least 95 % within four standard errors, and on
  // the steady printer narrower than the typical scatter makes it.
  constexpr int runs = 80;
  for (const double factor : {2.0, 0.5}) {
    int held_scale = 0, held_edge = 0;
    double own_width = 0, typical_width = 0;
    for (unsigned run = 0; run < runs; ++run) {
      Truth t = default_truth();
      t.sd_copy_edge_mm *= factor;
      t.sd_copy_scale *= factor;
      std::vector<CopyEffects> sets;
      unsigned print = 1000 + 10 * run;
      for (const int copies : {3, 2, 2}) {
        t.copies = copies;
        sets.push_back(effects_of(simulate(t, print++)));
      }
      EstimateOptions options;
      options.copy_prior = prior_from_history(copy_scatter(sets));
      t.copies = 1;
      const ReadingSet one = simulate(t, print);
      const Estimates own = estimate(one, options).value(), typical = estimate(one).value();
      const Parameter *scale = own.find(name::scale_x), *edge = own.find(name::edge_growth);
      held_scale += scale->lower <= t.scale.x && t.scale.x <= scale->upper;
      held_edge += edge->lower <= t.edge_growth_mm && t.edge_growth_mm <= edge->upper;
      own_width += edge->upper - edge->lower;
      typical_width += typical.find(name::edge_growth)->upper - typical.find(name::edge_growth)->lower;
    }
    INFO("scatter x " << factor << ": scale " << held_scale << ", edge " << held_edge << " of " << runs << ", width "
                      << own_width / typical_width);
    CHECK(held_scale >= (0.95 - margin(0.95, runs)) * runs);
    CHECK(held_edge >= (0.95 - margin(0.95, runs)) * runs);
    if (factor < 1) CHECK(own_width < 0.85 * typical_width);
  }
}
