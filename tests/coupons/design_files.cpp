// The list of features and the plan that go with a coupon.

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "base/number.hpp"
#include "design/plan_places.hpp"
#include "design_helpers.hpp"

using namespace fitwright;
using namespace fitwright::design_test;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("features.csv: header of the format, one row a feature, numbers that read back") {
  for (const DesignInfo& info : designs()) {
    const Coupon coupon = made(info.name);
    std::istringstream lines(features_csv(coupon));
    std::string line;
    std::getline(lines, line);
    CHECK(line == "feature_id,kind,axis,nominal_mm,side_a_mm,side_b_mm,facets,edge_a,edge_b,label");
    for (const Feature& f : coupon.features) {
      REQUIRE(std::getline(lines, line));
      CHECK(line.rfind(f.id + ',' + std::string(word(f.kind)) + ',' + std::string(word(f.axis)) + ',' +
                           shortest(f.nominal_mm) + ',',
                       0) == 0);
    }
    CHECK_FALSE(std::getline(lines, line));
  }
}

TEST_CASE("features.csv: rows as they stand in the file") {
  const std::string frame = features_csv(made("frame"));
  CHECK(count(frame, "X10a,outer,x,10,,,,x2,x3,block\n") == 1);
  CHECK(count(frame, "SX40,inner,x,40,,,,x1,x2,slot\n") == 1);
  CHECK(count(frame,
              "D1,flats+,xy,135.76450198781714,100,100,,front left,back right,\"over the flats, front left to "
              "back right\"\n") == 1);
  CHECK(count(features_csv(made("bores")), "H5,hole,z,5,,,320,,,\"hole, first reading along X, second along Y\"\n") ==
        1);
}

TEST_CASE("plan: well-formed, complete, in the colours of the axes") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    const std::string svg = plan_svg(coupon);
    CHECK(svg.rfind("<svg ", 0) == 0);
    CHECK(svg.substr(svg.size() - 7) == "</svg>\n");
    CHECK(count(svg, "<text") == count(svg, "</text>"));
    CHECK(count(svg, "nan") == 0);
    CHECK(count(svg, "inf") == 0);
    for (const Feature& f : coupon.features) CHECK(count(svg, '>' + f.id + '<') >= 1);
    for (const JawPlace& p : coupon.places)
      CHECK(count(svg, '>' + std::to_string(p.number) + '<') >= 2);  // plan and list
    CHECK(count(svg, ">front") == 1);
    CHECK(count(svg, ">X<") == 1);
    CHECK(count(svg, ">Y<") == 1);
    const auto uses = [&](Axis axis) {
      return std::any_of(coupon.features.begin(), coupon.features.end(),
                         [&](const Feature& f) { return f.axis == axis; });
    };
    CHECK(count(svg, "#0072B2") > 0);  // Okabe and Ito (2008): blue, vermilion, bluish green
    CHECK(count(svg, "#D55E00") > 0);
    if (uses(Axis::z)) CHECK(count(svg, "#009E73") > 0);
    // Every element is closed: as many ends as beginnings.
    CHECK(count(svg, "<") == count(svg, ">"));
  }
}

TEST_CASE("plan: numbers do not cover one another") {
  for (const Case& c : cases()) {
    INFO(c.text());
    const Coupon coupon = made(c.design, c.overrides);
    const PlanLayout layout = plan_layout(coupon, {1.3, 0, 0});
    std::vector<std::pair<int, Spot2>> spots;
    for (const PlanMark& m : layout.marks)
      for (const Spot2& s : m.numbers) spots.emplace_back(m.place->number, s);
    for (std::size_t i = 0; i < spots.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        INFO(spots[i].first << " and " << spots[j].first);
        CHECK(std::hypot(spots[i].second.x - spots[j].second.x, spots[i].second.y - spots[j].second.y) >=
              2 * number_radius_mm);
      }
  }
}

TEST_CASE("labels: a long line keeps its last letters") {
  // Letters far from the start were once lost: the drawing surface dropped those beyond ten times their size.
  const std::string line = "turned 0 90 180 270";
  double right = 0;
  for (const Ring& ring : text(line, 0, 0, 3))
    for (const Point& p : ring) right = std::max(right, mm(p.x));
  CHECK(right > 0.97 * text_width_mm(line, 3));
}
