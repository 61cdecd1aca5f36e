#include "report/wording.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "model/estimates.hpp"

using namespace fitwright;

namespace {

std::string pair(double value, double u, int most = 5) {
  const ValueAndU shown = value_and_u(value, u, most);
  return shown.u.empty() ? shown.value : shown.value + " | " + shown.u;
}

}  // namespace

TEST_CASE("uncertainties are shown with two significant digits, values to the same place (GUM 7.2.6)") {
  // JCGM 100:2008, 7.2.2: m_s = 100,021 47 g with u_c = 0,35 mg.
  CHECK(pair(100.02147, 0.00035) == "100.02147 | 0.00035");
  // JCGM 100:2008, 7.2.6: y = 10,057 62 ohm with u_c = 27 mohm is rounded to 10,058 ohm.
  CHECK(pair(10.05762, 0.027) == "10.058 | 0.027");
  CHECK(pair(-0.3512, 0.0479) == "-0.351 | 0.048");
  CHECK(pair(12.34, 1.6) == "12.3 | 1.6");
  CHECK(pair(12.34, 16) == "12 | 16");
}

TEST_CASE("an uncertainty that rounds up to the next power of ten keeps two digits") {
  CHECK(pair(0.5, 0.0996) == "0.50 | 0.10");
  CHECK(pair(0.5, 0.0994) == "0.500 | 0.099");
  CHECK(pair(3.0, 0.996) == "3.0 | 1.0");
}

TEST_CASE("without a usable uncertainty the value stands alone") {
  CHECK(pair(1.25, 0, 2) == "1.25");
  CHECK(pair(1.25, std::numeric_limits<double>::infinity(), 3) == "1.250");
  CHECK(pair(1.25, std::numeric_limits<double>::quiet_NaN(), 2) == "1.25");
  CHECK(plus_minus(1.25, 0, 5, 2) == "1.25");
}

TEST_CASE("after the sign stands half of the 95 % interval, for the degrees of freedom there are") {
  // JCGM 100:2008, 7.2.4: 100,021 47 g, u_c = 0,35 mg, nine degrees of freedom: k = 2,26, U = 0,79 mg.
  CHECK(plus_minus(100.02147, 0.00035, 9) == "100.02147 ± 0.00079");
  CHECK(plus_minus(0.165, 0.0211) == "0.165 ± 0.041");  // 1.96 u
}

TEST_CASE("a value that rounds to zero has no sign") {
  CHECK(pair(-0.0001, 0.012) == "0.000 | 0.012");
  CHECK(with_sign(-0.001, 2) == "0.00");
  CHECK(with_sign(0.001, 2) == "0.00");
  CHECK(with_sign(0.126, 2) == "+0.13");
  CHECK(with_sign(-0.126, 2) == "-0.13");
}

TEST_CASE("every parameter of the model has plain words and a unit it reads well in") {
  for (const char* parameter : {name::scale_x, name::scale_y, name::scale_z, name::edge_growth, name::z0, name::flare,
                                name::caliper_zero, name::inside_bias, name::hole_c0, name::hole_c1, name::holeh_c0,
                                name::holeh_c1, name::peg_p0, name::peg_p1, name::skew_xy, name::wall}) {
    INFO(parameter);
    const Wording w = wording(parameter);
    CHECK(w.name != parameter);
    CHECK(w.name.find('_') == std::string::npos);
    CHECK_FALSE(w.unit.empty());
  }
  CHECK(wording(name::scale_x).per_unit == 100);
  CHECK(wording(name::skew_xy).per_unit == Approx(57.29577951308232));  // degrees in a radian
  CHECK(wording("scatter of heights (mm)").name == "scatter of heights");
  CHECK(wording("scatter of heights (mm)").unit == "mm");
  CHECK(wording("new_thing_mm2").unit == "mm²");
  CHECK(wording("new_thing_mm").name == "new_thing_mm");
}

TEST_CASE("sums of parameters read as words") {
  CHECK(plain_expression("2*edge_growth_mm + caliper_zero_mm") == "2 × edge growth + caliper zero");
  CHECK(plain_expression("hole_c1_mm2 - 0.5 * z0_mm") == "hole closing, by 1/diameter - 0.5 × height offset");
  CHECK(unit_of_expression("2*edge_growth_mm + caliper_zero_mm") == "mm");
  CHECK(unit_of_expression("40*scale_x + 2*edge_growth_mm") == "mm");
  CHECK(unit_of_expression("hole_c1_mm2") == "mm²");
  CHECK(unit_of_expression("scale_x - scale_y").empty());
}
