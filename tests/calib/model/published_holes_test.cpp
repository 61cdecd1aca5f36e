// A real print: eight holes of 3 to 10 mm read back from a published chart (tests/reference/prints/README.md).

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "model/estimate.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;

namespace {

struct PublishedHole {
  double nominal_mm, measured_mm, other_measured_mm;  // the chart's two series
};

std::vector<PublishedHole> published_holes() {
  std::ifstream in(std::string(FW_REFERENCE) + "/prints/published_holes_3_to_10mm.csv");
  REQUIRE(in);
  std::vector<PublishedHole> out;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::vector<std::string> fields;
    std::istringstream row(line);
    for (std::string f; std::getline(row, f, ',');) fields.push_back(f);
    if (fields.size() < 7) continue;
    const double d = *parse_number(fields[3]);
    out.push_back({d, *parse_number(fields[4]), d + *parse_number(fields[5])});
  }
  return out;
}

/// The holes, mean of the two series, beside flat faces taken as perfect: the chart says nothing of them, so all that
/// the holes lose counts as their own closing.
ReadingSet readings_of(const std::vector<PublishedHole>& holes) {
  ReadingSet set;
  const auto add = [&](const std::string& id, Kind kind, Axis axis, double nominal, double value) {
    Reading r;
    r.feature.id = id;
    r.feature.kind = kind;
    r.feature.axis = axis;
    r.feature.nominal_mm = nominal;
    r.reading_mm = value;
    set.rows.push_back(r);
  };
  for (const PublishedHole& h : holes)
    add("H" + shortest(h.nominal_mm), Kind::hole, Axis::z, h.nominal_mm, (h.measured_mm + h.other_measured_mm) / 2);
  for (Axis axis : {Axis::x, Axis::y})
    for (double length : {10.0, 20.0, 40.0, 100.0}) {
      add(std::string(word(axis)) + shortest(length), Kind::outer, axis, length, length);
      if (length < 100) add("S" + std::string(word(axis)) + shortest(length), Kind::inner, axis, length, length);
    }
  add("Z0", Kind::zero, Axis::n, 0, 0);
  return set;
}

}  // namespace

TEST_CASE("published holes: closing law with intervals, and predictions that hold both series") {
  const auto holes = published_holes();
  REQUIRE(holes.size() == 8);
  const Estimates e = estimate(readings_of(holes)).value();
  const Parameter *c0 = e.find(name::hole_c0), *c1 = e.find(name::hole_c1);
  REQUIRE(c0);
  REQUIRE(c1);
  // The chart itself: closing falls from 0.40 at 3 mm to 0.12 at 10 mm, steeper than any flat jaw could feign.
  CHECK(c1->established);
  CHECK(c1->value > 0.5);
  CHECK(c0->lower < c0->upper);
  const double scatter = e.scatter.at("round_mm");
  const double bias2 = std::pow(e.find(name::inside_bias)->u, 2);
  for (const PublishedHole& h : holes) {
    const double d = h.nominal_mm;
    const double predicted = d - c0->value - c1->value / d;
    // One new reading of such a hole by such jaws: closing law with its covariance, and the scatter of holes about it.
    const double var = c0->u * c0->u + c1->u * c1->u / (d * d) + 2 * e.cov(name::hole_c0, name::hole_c1) / d +
                       scatter * scatter + bias2;
    const double half = coverage_factor(0.95, 6) * std::sqrt(var);
    INFO("hole " << d << ": predicted " << predicted << " +- " << half << ", charted " << h.measured_mm << " and "
                 << h.other_measured_mm);
    CHECK(std::abs(h.measured_mm - predicted) <= half);
    CHECK(std::abs(h.other_measured_mm - predicted) <= half);
    CHECK(half > 0.039 / 2);
    CHECK(half < 0.25);  // and it is not empty talk
  }
}

TEST_CASE("published holes: alone they give the closing only together with edge growth") {
  ReadingSet set = readings_of(published_holes());
  std::erase_if(set.rows, [](const Reading& r) { return r.feature.kind != Kind::hole; });
  const Estimates e = estimate(set).value();
  CHECK_FALSE(e.find(name::hole_c0));
  CHECK_FALSE(e.find(name::edge_growth));
  CHECK(e.find(name::hole_c1));
  bool told = false;
  for (const NotSeparable& n : e.not_separable)
    for (const std::string& p : n.parameters) told = told || p == name::edge_growth;
  CHECK(told);
  CHECK_FALSE(e.combinations.empty());
}
