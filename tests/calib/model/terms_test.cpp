// Equations of single places against worked cases (numpy) and against the exact model they are linearised from.

#include "model/terms.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "model/estimate.hpp"

using namespace fitwright;

namespace {

MachinePlace place(Kind kind, Axis axis, double nominal) {
  MachinePlace p;
  p.kind = kind;
  p.axis = axis;
  p.nominal_mm = nominal;
  return p;
}

Reading reading(const std::string& id, Kind kind, Axis axis, double nominal, double value) {
  Reading r;
  r.feature.id = id;
  r.feature.kind = kind;
  r.feature.axis = axis;
  r.feature.nominal_mm = nominal;
  r.reading_mm = value;
  return r;
}

/// Outsides and slots printed with the given scales and edge growth, and the zero read as 0.
ReadingSet flat_faces(double sx, double sy, double e) {
  ReadingSet set;
  for (double length : {10.0, 20.0, 40.0, 100.0}) {
    const std::string n = std::to_string(static_cast<int>(length));
    set.rows.push_back(reading("X" + n, Kind::outer, Axis::x, length, length * (1 + sx) + 2 * e));
    set.rows.push_back(reading("Y" + n, Kind::outer, Axis::y, length, length * (1 + sy) + 2 * e));
    set.rows.push_back(reading("SX" + n, Kind::inner, Axis::x, length, length * (1 + sx) - 2 * e));
    set.rows.push_back(reading("SY" + n, Kind::inner, Axis::y, length, length * (1 + sy) - 2 * e));
  }
  set.rows.push_back(reading("Z0", Kind::zero, Axis::n, 0, 0));
  return set;
}

}  // namespace

TEST_CASE("terms: flats of the inside jaws make small holes read low") {
  Values v = Values::Zero();
  v[index(Term::jaw_flat_term)] = 0.4 * 0.4 / 2;
  const double wanted[4] = {1.9595918, 2.9732137, 4.9839743, 9.9919968};
  const double d[4] = {2, 3, 5, 10};
  for (int k = 0; k < 4; ++k)
    CHECK(predicted_reading(place(Kind::hole, Axis::z, d[k]), v) == Approx(wanted[k]).epsilon(1e-7));
  // And back: the equation takes the flats off again.
  const Equation q = equation(place(Kind::hole, Axis::z, 4.80 + 0.0166378), 4.80, v);
  CHECK(q.y - q.coefficients[index(Term::jaw_flat_term)] * 0.08 == Approx(4.8166378 - 4.8166378).margin(1e-6));
}

TEST_CASE("terms: skew from diagonals, point to point") {
  // gamma = (D1^2 - D2^2) / (4 a b) with the real sides.
  ReadingSet set;
  for (const auto& [kind, value] : {std::pair{Kind::diag_plus, 85.02}, {Kind::diag_minus, 84.79}}) {
    Reading r = reading(kind == Kind::diag_plus ? "D1" : "D2", kind, Axis::xy, std::hypot(59.95, 60.07), value);
    r.feature.side_a_mm = 59.95;
    r.feature.side_b_mm = 60.07;
    set.rows.push_back(r);
  }
  const Estimates e = estimate(set).value();
  REQUIRE(e.find(name::skew_xy));
  CHECK(e.find(name::skew_xy)->value == Approx(0.0027113419).epsilon(1e-6));
}

TEST_CASE("terms: skew over flats normal to the diagonals, exactly") {
  // A 100 x 100 square with flats 6 mm short of the corners; the point formula would read 8.5 % low here.
  ReadingSet set = flat_faces(-0.0035, -0.0015, 0.08);
  for (const auto& [kind, value] :
       {std::pair{Kind::flats_plus, 135.37774873445025}, {Kind::flats_minus, 135.1075842157912}})
    set.rows.push_back(reading(kind == Kind::flats_plus ? "D1" : "D2", kind, Axis::xy, 135.4213562373095, value));
  const Estimates e = estimate(set).value();
  CHECK(e.find(name::skew_xy)->value == Approx(0.002).epsilon(1e-6));
}

TEST_CASE("terms: linearised equations hold for the exact model about its own values") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int k = 0; k < 200; ++k) {
    Values v = Values::Zero();
    for (Term t : {Term::scale_x, Term::scale_y, Term::scale_z}) v[index(t)] = 0.005 * u(random);
    for (Term t : {Term::edge, Term::flare, Term::z0, Term::zero, Term::inside}) v[index(t)] = 0.1 * u(random);
    v[index(Term::hole_c0)] = v[index(Term::holeh_c0)] = 0.1 * u(random);
    v[index(Term::hole_c1)] = v[index(Term::peg_p1)] = 0.15 * u(random);
    v[index(Term::peg_p0)] = 0.1 * u(random);
    v[index(Term::jaw_flat_term)] = 0.06 + 0.03 * u(random);
    v[index(Term::skew)] = 0.003 * u(random);
    v[index(Term::wall)] = 0.45 + 0.05 * u(random);
    for (Kind kind : {Kind::outer, Kind::inner, Kind::foot, Kind::pitch, Kind::peg, Kind::hole, Kind::hole_h, Kind::pin,
                      Kind::wall}) {
      MachinePlace p = place(kind, axes_of(kind)[0], kind == Kind::wall ? 0.45 : 8);
      p.facets = kind == Kind::hole || kind == Kind::peg ? 32 : 0;
      const double read = predicted_reading(p, v);
      const Equation q = equation(p, read, v);
      INFO(std::string(word(kind)));
      CHECK(q.coefficients.dot(v) == Approx(q.y).margin(1e-9));
    }
  }
}

TEST_CASE("terms: facets are taken off at their exact value") {
  // Inscribed polygon of 32 sides at 10 mm: 0.0482 mm over two flats.
  MachinePlace p = place(Kind::hole, Axis::z, 10);
  const double round = predicted_reading(p, Values::Zero());
  p.facets = 32;
  CHECK(round - predicted_reading(p, Values::Zero()) ==
        Approx(10 * (1 - std::cos(std::numbers::pi / 32))).epsilon(1e-12));
  CHECK(round - predicted_reading(p, Values::Zero()) == Approx(0.0482).margin(5e-5));
}
