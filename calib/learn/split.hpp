#pragma once
// Printers and materials apart: s(p, j) = m(p) - k(j), one scale error a printer and axis, one shrink factor a
// material.
//
// A constant added to all m and all k changes no scale, so the level is never in the readings, however many printers
// and materials there are; only differences are, where the table of printers and materials hangs together. The level
// comes from outside: from a travel measured on a machine, or from the assumption that machines move as their steps
// say. That assumption stands beside every value.
//
//     minimise  sum (s - m + k)^2/u^2 + sum (m/theory_sd)^2  (or (m - travel)^2/u_travel^2 where travel was measured)
//
// with k free. Formulas and limits: docs/mathematics.md, 27.

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// The scale found of one axis of one printer with one material.
struct SplitCell {
  std::string printer;
  std::string material;
  char axis = 'x';   ///< 'x', 'y', 'z'
  double scale = 0;  ///< s, relative to the settings' steps and with the shrink compensation taken out
  double u = 0;      ///< standard uncertainty, > 0
};

/// Travel of an axis measured on the machine: travelled/commanded - 1.
struct TravelScale {
  std::string printer;
  char axis = 'x';
  double scale = 0;
  double u = 0;  ///< > 0
};

/// How far machines leave what belt pitch and teeth or the lead of a screw say: standard deviation (common practice,
/// no source).
inline constexpr double theory_scale_sd = 0.0005;

struct SplitOptions {
  bool use_theory = true;  ///< false: nothing is assumed of machines whose travel was not measured
  double theory_sd = theory_scale_sd;
  std::vector<TravelScale> travel;
  Eigen::MatrixXd covariance;  ///< of the cells' scales; empty: independent, u^2 each
};

/// What fixes the level of a value.
enum class Level {
  theory,  ///< the assumption that machines move as their steps say
  travel,  ///< a measured travel, theory for the machines not measured
};

struct PrinterScale {
  std::string printer;
  char axis = 'x';
  double value = 0;  ///< m, relative
  double u = 0;
  Level level = Level::theory;
  std::string assumption;  ///< the words that belong beside the value
};

struct MaterialShrink {
  std::string material;
  bool in_plane = true;  ///< X and Y; false: Z, which shrinks by its own factor
  double value = 0;      ///< k: what a length loses, relative
  double u = 0;
  Level level = Level::theory;
  std::string assumption;
};

struct Split {
  std::vector<PrinterScale> machines;  ///< in order of first appearance; those whose level is known
  std::vector<MaterialShrink> materials;
  bool connected = true;           ///< every comparison rests on readings (X and Y together, Z apart)
  std::vector<std::string> notes;  ///< what must be known beside the values, in sentences
  double chi_squared = 0;          ///< of the cells and the assumptions about the fit
  double df = 0;
  double chance = 1;  ///< of a chi-squared as large

  /// For split_difference: all values, group by group; unknown levels are held at an arbitrary one.
  struct Unknown {
    bool machine = false;
    std::string name;
    char axis = 'x';  ///< materials: 'x' in plane, 'z'
    int group = 0;    ///< printers and materials connected by cells
    bool level_known = true;
  };
  std::vector<Unknown> unknowns;
  Eigen::VectorXd values;
  Eigen::MatrixXd covariance;
};

/// Splits the cells. X and Y share a material's factor; Z has its own.
/// Errors: Code::unanswerable without cells, or when some of the travel's printers and axes are not among the cells;
/// Code::bad_input, all at once, for values not finite, uncertainties not above zero, an unknown axis.
/// Throws std::invalid_argument for a covariance that does not fit the cells.
Result<Split> split_scales(const std::vector<SplitCell>& cells, const SplitOptions& options = {});

/// A difference with its uncertainty. `rests_on_theory`: no readings connect the two, only the assumption.
struct SplitDifference {
  double value = 0;
  double u = 0;
  bool rests_on_theory = false;
};

/// m of one machine's axis less that of another; empty for unknown names, or when nothing connects the two.
std::optional<SplitDifference> machine_difference(const Split& split, const std::string& printer_a, char axis_a,
                                                  const std::string& printer_b, char axis_b);
/// k of one material less that of another.
std::optional<SplitDifference> material_difference(const Split& split, const std::string& material_a,
                                                   const std::string& material_b, bool in_plane = true);

}  // namespace fitwright
