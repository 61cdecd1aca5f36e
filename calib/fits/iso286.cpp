#include "fits/iso286.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"
#include "fits/iso286_tables.hpp"

namespace fitwright {
namespace {

constexpr int first_grade = -1, last_grade = 18;
constexpr double greatest_mm = 500;
/// Up to it the grades from IT14 on are not used.
constexpr double no_coarse_up_to_mm = 1;
constexpr int first_coarse_grade = 14;
/// Up to it holes have no Delta.
constexpr double no_delta_up_to_mm = 3;

Problem wrong(std::string what, std::string remedy) { return {Code::usage, {}, std::move(what), std::move(remedy)}; }

/// Fundamental deviation of a shaft's letter, or empty when the table does not have it.
std::optional<int> shaft_deviation(double nominal_mm, char letter) {
  const auto row = std::find_if(iso286::letter_rows.begin(), iso286::letter_rows.end(),
                                [&](const auto& r) { return r.letter == letter; });
  if (row == iso286::letter_rows.end()) return std::nullopt;
  const auto at = std::lower_bound(iso286::deviation_up_to_mm.begin(), iso286::deviation_up_to_mm.end(), nominal_mm);
  return row->deviation_um[static_cast<std::size_t>(at - iso286::deviation_up_to_mm.begin())];
}

std::optional<int> grade_in(std::string_view digits) {
  if (digits == "01") return -1;
  if (digits.empty() || digits.size() > 2 || (digits.size() == 2 && digits.front() == '0')) return std::nullopt;
  for (const char c : digits)
    if (c < '0' || c > '9') return std::nullopt;
  const auto grade = parse_whole(digits);
  return grade && *grade <= last_grade ? grade : std::nullopt;
}

/// Upper deviation of the holes K to S: the mirrored shaft's, with Delta = ITn - IT(n-1) for the finer grades, so that
/// H7/p6 and P7/h6 have equal clearances (ISO 286-1:2010, 4.3.2.5 and tables 4 and 5).
std::optional<double> hole_upper(double nominal_mm, char letter, int grade, int shaft_um) {
  const bool small = nominal_mm <= no_delta_up_to_mm;
  const int last_with_delta = letter == 'k' || letter == 'm' || letter == 'n' ? 8 : 7;
  if (letter == 'k' && grade > 8) return small ? std::optional<double>(0) : std::nullopt;
  if (letter == 'n' && grade > 8) return small ? -shaft_um : 0.0;
  double delta = 0;
  if (!small && grade <= last_with_delta)
    delta =
        standard_tolerance_um(nominal_mm, grade).value_or(0) - standard_tolerance_um(nominal_mm, grade - 1).value_or(0);
  if (letter == 'm' && grade == 6 && nominal_mm > 250 && nominal_mm <= 315) return -9;  // an exception of the standard
  return -shaft_um + delta;
}

constexpr const char* letters_there = "the letters are c d e f g h js k m n p r s, capital for holes";

}  // namespace

std::optional<double> standard_tolerance_um(double nominal_mm, int grade) {
  if (!(nominal_mm > 0) || nominal_mm > greatest_mm || grade < first_grade || grade > last_grade) return std::nullopt;
  if (grade >= first_coarse_grade && nominal_mm <= no_coarse_up_to_mm) return std::nullopt;
  const auto row = std::find_if(iso286::grade_rows.begin(), iso286::grade_rows.end(),
                                [&](const auto& r) { return nominal_mm <= r.up_to_mm; });
  return row->tolerance_um[static_cast<std::size_t>(grade - first_grade)];
}

std::string grade_name(int grade) { return grade == -1 ? "IT01" : "IT" + std::to_string(grade); }

std::optional<int> grade_holding(double width_um, double nominal_mm) {
  for (int grade = first_grade; grade <= last_grade; ++grade) {
    const auto tolerance = standard_tolerance_um(nominal_mm, grade);
    if (tolerance && *tolerance >= width_um) return grade;
  }
  return std::nullopt;
}

Result<ClassLimits> class_limits(double nominal_mm, std::string_view name) {
  if (!(nominal_mm > 0) || nominal_mm > greatest_mm)
    return wrong(shortest(nominal_mm) + " mm is no size of the tables", "give a size above 0 up to 500 mm");
  const std::size_t digits = std::min(name.find_first_of("0123456789"), name.size());
  std::string letters(name.substr(0, digits));
  const auto grade = grade_in(name.substr(digits));
  if (letters.empty() || !grade)
    return wrong(quote(name) + " is no tolerance class", "write a letter and a grade from 01 to 18, like H7 or g6");
  const bool hole = std::isupper(static_cast<unsigned char>(letters.front())) != 0;
  const bool mixed = std::any_of(letters.begin(), letters.end(),
                                 [&](char c) { return (std::isupper(static_cast<unsigned char>(c)) != 0) != hole; });
  for (char& c : letters) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const bool symmetric = letters == "js";
  const auto deviation = letters == "h" || symmetric ? std::optional<int>(0)
                         : letters.size() == 1       ? shaft_deviation(nominal_mm, letters.front())
                                                     : std::nullopt;
  if (mixed || !deviation)
    return wrong(quote(name) + ": there is no letter " + quote(name.substr(0, digits)) + " in the table",
                 letters_there);
  const auto tolerance = standard_tolerance_um(nominal_mm, *grade);
  if (!tolerance)
    return wrong(quote(name) + ": " + grade_name(*grade) + " is not used up to 1 mm", "take a grade up to IT13");

  ClassLimits out{std::string(name), hole, 0, 0};
  const char letter = letters.front();
  if (symmetric) {
    out.upper_um = *tolerance / 2;
    out.lower_um = -*tolerance / 2;
  } else if (letter <= 'h') {  // away from the other part: clearance
    out.lower_um = hole ? -*deviation : *deviation - *tolerance;
    out.upper_um = hole ? -*deviation + *tolerance : *deviation;
  } else if (!hole) {
    const bool flat_k = letter == 'k' && (*grade <= 3 || *grade >= 8);
    out.lower_um = flat_k ? 0 : *deviation;
    out.upper_um = out.lower_um + *tolerance;
  } else {
    const auto upper = hole_upper(nominal_mm, letter, *grade, *deviation);
    if (!upper) return wrong(quote(name) + " is not in the standard above 3 mm", "take K8 or finer, or JS");
    out.upper_um = *upper;
    out.lower_um = *upper - *tolerance;
  }
  out.upper_um += 0.0;  // no -0
  out.lower_um += 0.0;
  return out;
}

std::string_view word(FitKind kind) {
  return kind == FitKind::clearance ? "clearance" : kind == FitKind::transition ? "transition" : "interference";
}

Result<GeneralTolerance> general_tolerance(double nominal_mm, char name) {
  // ISO 2768-1:1989, table 1: deviations of linear sizes, mm; 0: none is given.
  struct Row {
    double up_to_mm, f, m, c, v;
  };
  constexpr double least_mm = 0.5;
  static constexpr Row rows[] = {{3, .05, .1, .2, 0},     {6, .05, .1, .3, .5},    {30, .1, .2, .5, 1},
                                 {120, .15, .3, .8, 1.5}, {400, .2, .5, 1.2, 2.5}, {1000, .3, .8, 2, 4},
                                 {2000, .5, 1.2, 3, 6},   {4000, 0, 2, 4, 8}};
  const auto row =
      std::find_if(std::begin(rows), std::end(rows), [&](const Row& r) { return nominal_mm <= r.up_to_mm; });
  if (nominal_mm < least_mm || row == std::end(rows))
    return wrong("ISO 2768-1 gives no general tolerance for " + shortest(nominal_mm) + " mm",
                 "it goes from 0.5 to 4000 mm; smaller sizes get a tolerance of their own");
  const double value = name == 'f' ? row->f : name == 'm' ? row->m : name == 'c' ? row->c : name == 'v' ? row->v : -1;
  if (value < 0)
    return wrong(quote(std::string(1, name)) + " is no class of ISO 2768-1",
                 "give f (fine), m (medium), c (coarse) or v (very coarse)");
  if (value == 0)
    return wrong("ISO 2768-1 gives no class " + std::string(1, name) + " for " + shortest(nominal_mm) + " mm",
                 "take another class");
  return GeneralTolerance{name, value};
}

Result<ToleranceAnswer> tolerance_of(const std::string& text) {
  std::string_view rest = without_blanks(text);
  const std::size_t digits = std::min(rest.find_first_not_of("0123456789.,"), rest.size());
  std::string number(rest.substr(0, digits));
  const auto nominal = parse_number(number, number.find(',') != std::string::npos);
  if (!nominal)
    return wrong(quote(text) + " does not begin with a size in mm",
                 "write it like \"25 H7/g6\", \"25 H7\" or \"40 m\"");
  rest = without_blanks(rest.substr(digits));
  if (rest.starts_with("mm")) rest = without_blanks(rest.substr(2));
  if (rest.empty())
    return wrong(quote(text) + " has no tolerance class", "write it like \"25 H7/g6\", \"25 H7\" or \"40 m\"");
  ToleranceAnswer out;
  out.nominal_mm = *nominal;
  if (rest.size() == 1) {
    const auto general = general_tolerance(*nominal, rest.front());
    if (!general) return general.problems();
    out.general = *general;
    return out;
  }
  const std::size_t slash = rest.find('/');
  Problems problems;
  const auto take = [&](std::string_view name) {
    const auto limits = class_limits(*nominal, without_blanks(name));
    if (!limits) {
      problems.insert(problems.end(), limits.problems().begin(), limits.problems().end());
      return;
    }
    auto& place = limits->hole ? out.hole : out.shaft;
    if (place)
      problems.push_back(wrong(quote(text) + " names two " + (limits->hole ? "holes" : "shafts"),
                               "a fit is a hole (capital letter) and a shaft: 25 H7/g6"));
    place = *limits;
  };
  take(rest.substr(0, slash));
  if (slash != std::string_view::npos) take(rest.substr(slash + 1));
  if (!problems.empty()) return problems;
  if (out.hole && out.shaft) {
    out.clearance_max_um = out.hole->upper_um - out.shaft->lower_um;
    out.clearance_min_um = out.hole->lower_um - out.shaft->upper_um;
    // Zero counts as clearance, and as interference, where it is the extreme (ISO 286-1:2010, 3.3.4.1 and 3.3.4.2).
    out.fit = *out.clearance_min_um >= 0   ? FitKind::clearance
              : *out.clearance_max_um <= 0 ? FitKind::interference
                                           : FitKind::transition;
  }
  return out;
}

}  // namespace fitwright
