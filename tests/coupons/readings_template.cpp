// The readings file to fill in: sound as it is, a row for each time the jaws are put on.

#include "design/readings_template.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <stdexcept>

#include "design_helpers.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

TEST_CASE("template: every design's is a sound readings file in which nothing is read") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Coupon coupon = made(info.name);
    const auto parsed = parse_partly_read(readings_template(coupon, {3, 2}), info.name);
    REQUIRE(parsed);
    CHECK(parsed->read.rows.empty());
    CHECK(parsed->unread.size() == 2 + 3 * 2 * coupon.places.size());

    // Every feature with all that the drawing says of it; the second copy turned, the third not.
    std::set<std::string> ids;
    for (const Reading& r : parsed->unread) {
      if (r.feature.kind == Kind::zero) continue;
      ids.insert(r.feature.id);
      const Feature& f = feature(coupon, r.feature.id);
      CHECK(r.feature.kind == f.kind);
      CHECK(r.feature.nominal_mm == f.nominal_mm);
      CHECK(r.feature.facets == f.facets);
      CHECK(r.feature.side_a_mm == f.side_a_mm);
      CHECK(r.feature.edge_b == f.edge_b);
      CHECK(r.turned_deg == (r.copy == 2 ? 90 : 0));
    }
    CHECK(ids.size() == coupon.features.size());
  }
}

TEST_CASE("template: rows of a place follow each other, in the order of the plan") {
  const Coupon frame = made("frame");
  const auto parsed = parse_partly_read(readings_template(frame), "frame");
  REQUIRE(parsed);
  for (std::size_t i = 0; i < frame.places.size(); ++i)
    for (std::size_t repeat = 0; repeat < 2; ++repeat) {
      const Reading& r = parsed->unread[2 + 2 * i + repeat];
      CHECK(r.feature.id == frame.places[i].feature_id);
      CHECK(r.repeat == static_cast<int>(repeat) + 1);
      CHECK(r.note.starts_with("place " + std::to_string(frame.places[i].number)));
    }
  CHECK_THROWS_AS(readings_template(frame, {0, 2}), std::logic_error);
}
