#include "reading/feature.hpp"

#include <array>
#include <utility>

namespace fitwright {
namespace {

constexpr std::array<std::pair<Kind, std::string_view>, 16> kind_words{{
    {Kind::outer, "outer"}, {Kind::inner, "inner"}, {Kind::foot, "foot"}, {Kind::pitch, "pitch"},
    {Kind::peg, "peg"}, {Kind::hole, "hole"}, {Kind::hole_h, "hole_h"}, {Kind::pin, "pin"},
    {Kind::wall, "wall"}, {Kind::diag_plus, "diag+"}, {Kind::diag_minus, "diag-"},
    {Kind::flats_plus, "flats+"}, {Kind::flats_minus, "flats-"},
    {Kind::zero, "zero"}, {Kind::gauge, "gauge"}, {Kind::ring, "ring"},
}};

constexpr std::array<std::pair<Axis, std::string_view>, 5> axis_words{{
    {Axis::x, "x"}, {Axis::y, "y"}, {Axis::z, "z"}, {Axis::n, "n"}, {Axis::xy, "xy"},
}};

template <class Table, class Key>
std::string_view word_in(const Table& table, Key key) {
  for (const auto& [k, text] : table)
    if (k == key) return text;
  return "?";
}

}  // namespace

std::string_view word(Kind kind) { return word_in(kind_words, kind); }
std::string_view word(Axis axis) { return word_in(axis_words, axis); }

std::optional<Kind> kind_from(std::string_view text) {
  for (const auto& [k, name] : kind_words)
    if (name == text) return k;
  return std::nullopt;
}

std::optional<Axis> axis_from(std::string_view text) {
  for (const auto& [a, name] : axis_words)
    if (name == text) return a;
  return std::nullopt;
}

bool is_steel(Kind kind) { return kind == Kind::zero || kind == Kind::gauge || kind == Kind::ring; }

bool uses_inside_jaws(Kind kind) {
  return kind == Kind::inner || kind == Kind::hole || kind == Kind::hole_h || kind == Kind::ring;
}

bool is_diagonal(Kind kind) {
  return kind == Kind::diag_plus || kind == Kind::diag_minus || kind == Kind::flats_plus || kind == Kind::flats_minus;
}

std::vector<Axis> axes_of(Kind kind) {
  switch (kind) {
    case Kind::outer:
    case Kind::inner: return {Axis::x, Axis::y, Axis::z};
    case Kind::foot:
    case Kind::pitch:
    case Kind::hole_h: return {Axis::x, Axis::y};
    case Kind::peg:
    case Kind::hole:
    case Kind::pin: return {Axis::z};
    case Kind::diag_plus:
    case Kind::diag_minus:
    case Kind::flats_plus:
    case Kind::flats_minus: return {Axis::xy};
    case Kind::wall:
    case Kind::zero:
    case Kind::gauge:
    case Kind::ring: return {Axis::n};
  }
  return {};
}

}  // namespace fitwright
