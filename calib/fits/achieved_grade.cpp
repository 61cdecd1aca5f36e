#include "fits/achieved_grade.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/words.hpp"
#include "fits/iso286.hpp"
#include "fits/tolerance_interval.hpp"

namespace fitwright {
namespace {

constexpr double content = 0.95, confidence = 0.95;
/// Size ranges told apart, mm: upper ends.
constexpr double range_ends[] = {10, 30, 80, 180, 500};

enum class Group { in_plane, heights, holes, pegs, none };

Group group_of(const Cell& c) {
  switch (c.kind) {
    case Kind::outer:
    case Kind::inner:
      return c.axis == Axis::z ? Group::heights : Group::in_plane;
    case Kind::hole:
    case Kind::pin:
      return Group::holes;
    case Kind::peg:
      return Group::pegs;
    default:
      return Group::none;
  }
}

const char* group_words(Group g) {
  switch (g) {
    case Group::in_plane:
      return noted("in plane");
    case Group::heights:
      return noted("heights");
    case Group::holes:
      return noted("holes");
    default:
      return noted("pegs");
  }
}

std::string sentence(const AchievedGrade& a) {
  const std::string range = said("{} to {} mm", said_shortest(a.over_mm), said_shortest(a.up_to_mm));
  const std::string what = tr(a.what.c_str());
  if (a.df < least_grade_df) return said("{}, {}: too few places to tell a grade ({} read).", what, range, a.places);
  if (!a.grade)
    return said("{}, {}: within ± {} mm, wider than any grade.", what, range, said_fixed(a.plus_minus_mm, 2));
  return said(
      "{}, {}: this setup holds {} once corrected: ± {} mm for 95 % of parts, with 95 % confidence, from {} "
      "places.",
      what, range, grade_name(*a.grade), said_fixed(a.plus_minus_mm, 2), a.places);
}

}  // namespace

std::vector<AchievedGrade> achieved_grades(const Estimates& estimates) {
  struct Collected {
    double squares = 0;
    int cells = 0;
    std::map<std::string, int> places;
  };
  std::map<std::pair<Group, std::size_t>, Collected> by;
  std::map<Group, int> cells_of, parameters_of;
  for (const Cell& c : estimates.cells) {
    const Group g = group_of(c);
    if (g == Group::none || c.readings == 0) continue;
    const auto range = static_cast<std::size_t>(
        std::lower_bound(std::begin(range_ends), std::end(range_ends), c.feature.nominal_mm) - std::begin(range_ends));
    if (range >= std::size(range_ends)) continue;
    Collected& one = by[{g, range}];
    one.squares += c.residual_mm * c.residual_mm;
    ++one.cells;
    ++one.places[c.feature.id];
    ++cells_of[g];
  }
  // Parameters that each group's own places had to determine: their share of freedom is lost evenly.
  parameters_of[Group::in_plane] = 3;  // two scales, edge growth (the zero is told by steel)
  parameters_of[Group::heights] = 2;   // scale, z0
  parameters_of[Group::holes] = 2;     // c0, c1
  parameters_of[Group::pegs] = 2;      // p0, p1
  std::vector<AchievedGrade> out;
  for (const auto& [key, c] : by) {
    const auto& [g, range] = key;
    AchievedGrade a;
    a.what = group_words(g);
    a.over_mm = range == 0 ? 0 : range_ends[range - 1];
    a.up_to_mm = range_ends[range];
    a.places = static_cast<int>(c.places.size());
    // Places repeated on copies share what is bound to them: only places count as free.
    const double lost = static_cast<double>(parameters_of[g]) * c.cells / cells_of[g];
    const double free_share = std::max(0.0, 1 - lost / c.cells);
    a.df = std::max(0.0, a.places - lost * a.places / c.cells);
    if (free_share > 0) a.sd_mm = std::sqrt(c.squares / (c.cells * free_share));
    if (a.df >= least_grade_df) {
      a.factor = tolerance_factor(a.places, a.df, content, confidence);
      a.plus_minus_mm = a.factor * a.sd_mm;
      const double middle = std::sqrt(std::max(a.over_mm, 3.0) * a.up_to_mm);
      a.grade = grade_holding(2000 * a.plus_minus_mm, middle);
    }
    a.text = sentence(a);
    out.push_back(std::move(a));
  }
  return out;
}

}  // namespace fitwright
