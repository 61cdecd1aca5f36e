#include "model/terms.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "model/estimates.hpp"

namespace fitwright {
namespace {

/// Least width between the jaws about which a hole is linearised, mm: below any that a jaw enters.
constexpr double least_chord_mm = 0.1;

/// Two-flat size that a circle of diameter `d` loses when drawn as an inscribed polygon.
double facet_loss_mm(double d, int facets) {
  return facets < 3 ? 0.0 : d * (1.0 - std::cos(std::numbers::pi / facets));
}

double get(const Values& v, Term t) { return v[index(t)]; }
void set(Coefficients& c, Term t, double value) { c[index(t)] = value; }

Term scale_of(Axis axis) {
  if (axis == Axis::x) return Term::scale_x;
  if (axis == Axis::y) return Term::scale_y;
  return Term::scale_z;
}

/// The two scales whose mean a round feature takes: standing X and Y; lying, the one across its axis and Z.
std::pair<Term, Term> round_scales(const MachinePlace& p) {
  if (p.kind != Kind::hole_h) return {Term::scale_x, Term::scale_y};
  return {p.axis == Axis::x ? Term::scale_y : Term::scale_x, Term::scale_z};
}

/// Real size of a standing or lying hole at `v`, mm, facets taken off.
double hole_size_mm(const MachinePlace& p, const Values& v) {
  const auto [a, b] = round_scales(p);
  const double d = p.nominal_mm;
  const double size = d * (1 + (get(v, a) + get(v, b)) / 2) - facet_loss_mm(d, p.facets);
  if (p.kind == Kind::hole_h) return size - get(v, Term::holeh_c0) - get(v, Term::holeh_c1) / d;
  return size - 2 * get(v, Term::edge) - get(v, Term::hole_c0) - get(v, Term::hole_c1) / d;
}

/// Real size of a diagonal at `v`, mm. Point to point: sides grow by scale and edge growth, the shear tilts the Y
/// side. Over flats: a flat is a line n.x = D0/2 of the drawing and transforms as a covector (docs/mathematics.md).
double diagonal_size_mm(const MachinePlace& p, const Values& v) {
  const double a = 1 + get(v, Term::scale_x), b = 1 + get(v, Term::scale_y);
  const double e = get(v, Term::edge), gamma = get(v, Term::skew);
  if (p.kind == Kind::diag_plus || p.kind == Kind::diag_minus) {
    const double sign = p.kind == Kind::diag_plus ? 1 : -1;
    const double la = p.side_a_mm * a + 2 * e, lb = p.side_b_mm * b + 2 * e;
    return std::hypot(la + sign * gamma * lb, lb);
  }
  const double h = std::hypot(p.side_a_mm, p.side_b_mm);
  const double nx = p.side_a_mm / h, ny = (p.kind == Kind::flats_plus ? 1 : -1) * p.side_b_mm / h;
  return p.nominal_mm / std::hypot(nx / a, ny / b - gamma * nx / a) + 2 * e;
}

/// A hole read by inside jaws with flats: reading = zero + inside + sqrt(t^2 - g^2).
Equation hole_equation(const MachinePlace& p, double mean_mm, const Values& at) {
  Equation q;
  Coefficients& c = q.coefficients;
  const double d = p.nominal_mm;
  const auto [a, b] = round_scales(p);
  set(c, a, d / 2);
  set(c, b, d / 2);
  q.copy_scale = d;
  if (p.kind == Kind::hole_h) {
    set(c, Term::holeh_c0, -1);
    set(c, Term::holeh_c1, -1 / d);
  } else {
    set(c, Term::edge, -2);
    set(c, Term::hole_c0, -1);
    set(c, Term::hole_c1, -1 / d);
    q.copy_edge = -2;
  }
  if (p.kind == Kind::pin) {
    // The largest shank that enters lies up to one step below the true size, evenly: mean step/2, variance step^2/12.
    q.y = mean_mm + p.step_mm / 2 - d + facet_loss_mm(d, p.facets);
    q.extra_variance_mm2 = p.step_mm * p.step_mm / 12;
    return q;
  }
  // Linearised about the model's size, not the reading's: slopes taken from the reading would carry its scatter, and
  // the fit would explain scatter by it.
  const double flat = get(at, Term::jaw_flat_term);
  const double size = hole_size_mm(p, at);
  const double chord = std::sqrt(std::max(size * size - 2 * flat, least_chord_mm * least_chord_mm));
  const double slope = chord / size;  // d size / d chord
  set(c, Term::zero, slope);
  set(c, Term::inside, slope);
  set(c, Term::jaw_flat_term, -1 / size);
  q.y = slope * (mean_mm - (get(at, Term::zero) + get(at, Term::inside) + chord)) + c.dot(at);
  return q;
}

/// The two diagonals of a rectangle differ by the shear alone: what they share (scale, edge growth, zero, blunt
/// corners) is left free as one common term. The readings are first brought to the form in which the shear enters
/// exactly linearly, still in mm (slope 1 at the present size D of a square rectangle):
///   points  D^2 / (2 D)            = common +- a b gamma / D        with the real sides a, b
///   flats   -D^3 / (2 (D -+ ..)^2) = common +- D0^3 nx ny gamma / (A B D0^2)
/// so that gamma = (D1^2 - D2^2)/(4ab), and over flats gamma = A B D0^2/(4 nx ny) (1/D2^2 - 1/D1^2).
Equation diagonal_equation(const MachinePlace& p, double mean_mm, const Values& at) {
  Equation q;
  Coefficients& c = q.coefficients;
  const double zero = get(at, Term::zero), e = get(at, Term::edge);
  Values square = at;
  square[index(Term::skew)] = 0;
  const double size = diagonal_size_mm(p, square);
  const double read = mean_mm - zero;
  const double a = p.side_a_mm, b = p.side_b_mm;
  double lever = 0;
  if (p.kind == Kind::diag_plus || p.kind == Kind::diag_minus) {
    const double la = a * (1 + get(at, Term::scale_x)) + 2 * e, lb = b * (1 + get(at, Term::scale_y)) + 2 * e;
    lever = la * lb / size;
    q.y = (read * read - size * size) / (2 * size);
  } else {
    const double h2 = a * a + b * b, d0 = p.nominal_mm;
    const double bare = size - 2 * e, read_bare = read - 2 * e;  // edge growth stands outside the transformed flats
    lever = bare * bare * bare * (a * b / h2) / ((1 + get(at, Term::scale_x)) * (1 + get(at, Term::scale_y)) * d0 * d0);
    q.y = bare * bare * bare / 2 * (1 / (bare * bare) - 1 / (read_bare * read_bare));
  }
  const double sign = p.kind == Kind::diag_plus || p.kind == Kind::flats_plus ? 1 : -1;
  set(c, Term::skew, sign * lever);
  set(c, Term::diagonal_common, 1);
  q.copy_edge = 2;
  q.copy_scale = p.nominal_mm;
  return q;
}

}  // namespace

std::string_view name_of(Term term) {
  switch (term) {
    case Term::zero:
      return name::caliper_zero;
    case Term::inside:
      return name::inside_bias;
    case Term::jaw_flat_term:
      return "";
    case Term::scale_x:
      return name::scale_x;
    case Term::scale_y:
      return name::scale_y;
    case Term::edge:
      return name::edge_growth;
    case Term::flare:
      return name::flare;
    case Term::scale_z:
      return name::scale_z;
    case Term::z0:
      return name::z0;
    case Term::hole_c0:
      return name::hole_c0;
    case Term::hole_c1:
      return name::hole_c1;
    case Term::peg_p0:
      return name::peg_p0;
    case Term::peg_p1:
      return name::peg_p1;
    case Term::holeh_c0:
      return name::holeh_c0;
    case Term::holeh_c1:
      return name::holeh_c1;
    case Term::skew:
      return name::skew_xy;
    case Term::diagonal_common:
      return "";
    case Term::wall:
      return name::wall;
    case Term::count_:
      break;
  }
  return "";
}

std::string_view unit_of(Term term) {
  switch (term) {
    case Term::scale_x:
    case Term::scale_y:
    case Term::scale_z:
      return "1";
    case Term::jaw_flat_term:
    case Term::hole_c1:
    case Term::peg_p1:
    case Term::holeh_c1:
      return "mm2";
    case Term::skew:
      return "rad";
    default:
      return "mm";
  }
}

Block block_of(Kind kind, Axis axis) {
  switch (kind) {
    case Kind::outer:
    case Kind::inner:
      return axis == Axis::z ? Block::heights : Block::lengths;
    case Kind::foot:
    case Kind::pitch:
      return Block::lengths;
    case Kind::peg:
    case Kind::hole:
    case Kind::pin:
      return Block::round;
    case Kind::hole_h:
      return Block::lying;
    case Kind::diag_plus:
    case Kind::diag_minus:
    case Kind::flats_plus:
    case Kind::flats_minus:
      return Block::diagonals;
    case Kind::wall:
      return Block::walls;
    case Kind::zero:
    case Kind::gauge:
    case Kind::ring:
      break;
  }
  throw std::logic_error("steel has no block");
}

const std::vector<Term>& terms_of(Block block) {
  static const std::vector<Term> of[block_count] = {
      {Term::zero, Term::inside, Term::scale_x, Term::scale_y, Term::edge, Term::flare},
      {Term::scale_z, Term::z0},
      {Term::jaw_flat_term, Term::hole_c0, Term::hole_c1, Term::peg_p0, Term::peg_p1},
      {Term::holeh_c0, Term::holeh_c1},
      {Term::skew, Term::diagonal_common},
      {Term::wall},
  };
  return of[static_cast<int>(block)];
}

Equation equation(const MachinePlace& p, double mean_mm, const Values& at) {
  if (p.kind == Kind::hole || p.kind == Kind::hole_h || p.kind == Kind::pin) return hole_equation(p, mean_mm, at);
  if (is_diagonal(p.kind)) return diagonal_equation(p, mean_mm, at);
  Equation q;
  Coefficients& c = q.coefficients;
  const double length = p.nominal_mm;
  q.y = mean_mm - length;
  q.copy_scale = length;
  switch (p.kind) {
    case Kind::outer:
      set(c, Term::zero, 1);
      set(c, scale_of(p.axis), length);
      if (p.axis == Axis::z) {
        set(c, Term::z0, 1);
      } else {
        set(c, Term::edge, 2);
        q.copy_edge = 2;
      }
      break;
    case Kind::inner:
      set(c, Term::zero, 1);
      set(c, Term::inside, 1);
      set(c, scale_of(p.axis), length);
      if (p.axis != Axis::z) {
        set(c, Term::edge, -2);
        q.copy_edge = -2;
      }
      break;
    case Kind::foot:
      set(c, Term::zero, 1);
      set(c, scale_of(p.axis), length);
      set(c, Term::edge, 2);
      set(c, Term::flare, 2);
      q.copy_edge = 2;
      break;
    case Kind::pitch:  // a difference of two readings at edges facing the same way: zero and edge growth cancel
      set(c, scale_of(p.axis), length);
      break;
    case Kind::peg: {
      const auto [a, b] = round_scales(p);
      set(c, Term::zero, 1);
      set(c, a, length / 2);
      set(c, b, length / 2);
      set(c, Term::edge, 2);
      set(c, Term::peg_p0, -1);
      set(c, Term::peg_p1, -1 / length);
      q.y += facet_loss_mm(length, p.facets);
      q.copy_edge = 2;
      break;
    }
    case Kind::wall:
      set(c, Term::zero, 1);
      set(c, Term::wall, 1);
      q.y = mean_mm;
      q.copy_scale = 0;
      break;
    default:
      throw std::logic_error("steel has no equation here");
  }
  return q;
}

double predicted_reading(const MachinePlace& p, const Values& v) {
  const double zero = get(v, Term::zero);
  if (p.kind == Kind::pin) return hole_size_mm(p, v) - p.step_mm / 2;
  if (p.kind == Kind::hole || p.kind == Kind::hole_h) {
    const double size = hole_size_mm(p, v);
    return zero + get(v, Term::inside) + std::sqrt(std::max(0.0, size * size - 2 * get(v, Term::jaw_flat_term)));
  }
  if (is_diagonal(p.kind)) return zero + diagonal_size_mm(p, v);
  const Equation q = equation(p, 0.0, v);  // linear kinds: y(0) is minus what is known
  return q.coefficients.dot(v) - q.y;
}

}  // namespace fitwright
