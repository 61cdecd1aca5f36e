// Scatter between copies as assumed: typical, or what a printer's own history says.

#include "model/copy_prior.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "model/estimate.hpp"
#include "practice/simulate.hpp"

using namespace fitwright;

namespace {

const PriorUsed* listed(const Estimates& e, const std::string& parameter) {
  const auto at =
      std::find_if(e.priors.begin(), e.priors.end(), [&](const PriorUsed& p) { return p.parameter == parameter; });
  return at == e.priors.end() ? nullptr : &*at;
}

/// Readings of so many copies; without every seventh row when `gaps`.
ReadingSet readings(int copies, bool gaps) {
  Truth t = default_truth();
  t.copies = copies;
  ReadingSet set = simulate(t, 5);
  if (!gaps) return set;
  ReadingSet out;
  for (std::size_t i = 0; i < set.rows.size(); ++i)
    if (i % 7 != 0) out.rows.push_back(set.rows[i]);
  return out;
}

}  // namespace

TEST_CASE("copy prior: a history replaces the typical scatter, and is listed by its source") {
  for (const bool gaps : {false, true})
    for (const int copies : {1, 2}) {
      INFO(copies << " copies" << (gaps ? ", places missing" : ""));
      const ReadingSet set = readings(copies, gaps);
      const Estimates typical = estimate(set).value();
      REQUIRE(listed(typical, "copy_edge_mm"));
      CHECK(listed(typical, "copy_edge_mm")->sd == prior::copy_edge_sd_mm);
      CHECK(listed(typical, "copy_scale")->sd == prior::copy_scale_sd);
      EstimateOptions options;
      options.copy_prior = {0.030, 0.0012, 9, "pooled from 12 copies of this printer"};
      const Estimates own = estimate(set, options).value();
      CHECK(listed(own, "copy_edge_mm")->sd == 0.030);
      CHECK(listed(own, "copy_scale")->sd == 0.0012);
      CHECK(listed(own, "copy_scale")->source == "pooled from 12 copies of this printer");
      for (const char* parameter : {name::scale_x, name::scale_y, name::edge_growth})
        CHECK(own.find(parameter)->u > typical.find(parameter)->u);
    }
}

TEST_CASE("copy prior: one copy's uncertainty takes its scatter and degrees of freedom") {
  // Complete table, one copy: u^2 = v1 + sd^2 for edge growth and scale alike, whatever v1 is.
  const ReadingSet set = readings(1, false);
  const Estimates typical = estimate(set).value();
  EstimateOptions options;
  options.copy_prior = {0.020, 0.0004, 7, "history"};
  const Estimates own = estimate(set, options).value();
  const auto grown = [&](const char* p) { return std::pow(own.find(p)->u, 2) - std::pow(typical.find(p)->u, 2); };
  CHECK(grown(name::edge_growth) == Approx(std::pow(0.020, 2) - std::pow(prior::copy_edge_sd_mm, 2)).epsilon(1e-9));
  CHECK(grown(name::scale_x) == Approx(std::pow(0.0004, 2) - std::pow(prior::copy_scale_sd, 2)).epsilon(1e-9));
  CHECK(own.find(name::scale_x)->df > typical.find(name::scale_x)->df);
}

TEST_CASE("copy prior: three copies speak for themselves") {
  for (const bool gaps : {false, true}) {
    const ReadingSet set = readings(3, gaps);
    EstimateOptions options;
    options.copy_prior = {0.030, 0.0012, 9, "history"};
    const Estimates own = estimate(set, options).value(), typical = estimate(set).value();
    CHECK_FALSE(listed(own, "copy_edge_mm"));
    CHECK(own.find(name::edge_growth)->u == typical.find(name::edge_growth)->u);
  }
}
