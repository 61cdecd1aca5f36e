// Features to CSV and back.

#include "reading/features_csv.hpp"

#include <catch2/catch.hpp>

using namespace fitwright;

TEST_CASE("features read back from their CSV text") {
  Feature a;
  a.id = "X40, \"left\"";
  a.kind = Kind::outer;
  a.nominal_mm = 40;
  a.edge_a = "a";
  a.edge_b = "d";
  a.label = "over both blocks";
  Feature b;
  b.id = "D1";
  b.kind = Kind::flats_plus;
  b.axis = Axis::xy;
  b.nominal_mm = 132.935;
  b.side_a_mm = 100;
  b.side_b_mm = 100;
  Feature c;
  c.id = "H5";
  c.kind = Kind::hole;
  c.axis = Axis::z;
  c.nominal_mm = 5;
  c.facets = 128;
  const std::string csv = to_features_csv({a, b, c});
  const auto back = parse_features(csv, "frame.features.csv");
  REQUIRE(back.ok());
  CHECK(to_features_csv(*back) == csv);
  CHECK((*back)[0].id == a.id);
  CHECK((*back)[1].side_b_mm == 100);
  CHECK((*back)[2].facets == 128);
}

TEST_CASE("defects of a list of features are told with their places") {
  const auto bad = parse_features("feature_id,kind,axis,nominal_mm\nX40,outer,x,forty\nX40,box,q,-1\n", "f.csv");
  REQUIRE_FALSE(bad.ok());
  CHECK(bad.problems().front().text().starts_with("f.csv:2:"));
  CHECK(parse_features("", "f.csv").problems().size() == 1);
  CHECK(parse_features("id\n", "f.csv").problems().size() == 5);
}
