#pragma once
// What the readings say: named estimates with their covariance, what they rest on, and what they cannot tell.

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "reading/checks.hpp"
#include "reading/reading.hpp"

namespace fitwright {

/// Names of the parameters of the error model; units are in the name (none = a ratio). Formulas: docs/mathematics.md.
namespace name {
inline constexpr const char* scale_x = "scale_x";  ///< relative length error along the machine's X
inline constexpr const char* scale_y = "scale_y";
inline constexpr const char* scale_z = "scale_z";
inline constexpr const char* edge_growth = "edge_growth_mm";    ///< outward shift of each outline edge
inline constexpr const char* z0 = "z0_mm";                      ///< height error common to all heights
inline constexpr const char* flare = "flare_mm";                ///< extra width per edge of the first layers
inline constexpr const char* caliper_zero = "caliper_zero_mm";  ///< reading with the jaws closed
inline constexpr const char* inside_bias = "inside_bias_mm";    ///< extra reading of the inside jaws
inline constexpr const char* hole_c0 = "hole_c0_mm";            ///< standing hole closes by c0 + c1/d
inline constexpr const char* hole_c1 = "hole_c1_mm2";
inline constexpr const char* holeh_c0 = "holeh_c0_mm";  ///< lying hole, not net of edge growth
inline constexpr const char* holeh_c1 = "holeh_c1_mm2";
inline constexpr const char* peg_p0 = "peg_p0_mm";  ///< peg comes out p0 + p1/d smaller than flats would
inline constexpr const char* peg_p1 = "peg_p1_mm2";
inline constexpr const char* skew_xy = "skew_xy_rad";  ///< shear: x += skew y on the machine
inline constexpr const char* wall = "wall_mm";         ///< mean real width of the one-bead wall
}  // namespace name

struct Parameter {
  std::string name;
  double value = 0;
  double u = 0;      ///< standard uncertainty, unit of the value
  double df = 0;     ///< effective degrees of freedom (Welch-Satterthwaite)
  double lower = 0;  ///< 95 % interval
  double upper = 0;
  std::string unit;          ///< "1", "mm", "mm2", "rad"
  bool established = false;  ///< interval excludes 0 and the value does not rest on a prior alone
  bool prior = false;        ///< a weak prior took part in this value or its uncertainty
};

/// A sum of parameters that the data fix although its members are not separable.
struct Combination {
  std::string expr;  ///< e.g. "2*edge_growth_mm + caliper_zero_mm"
  double value = 0;
  double u = 0;
};

/// A weak prior that was used: parameter ~ N(mean, sd^2), or for copy scatter a scale with its degrees of freedom.
struct PriorUsed {
  std::string parameter;
  double mean = 0;
  double sd = 0;
  std::string source;
};

struct NotSeparable {
  std::vector<std::string> parameters;
  std::string because;
  std::string would_need;
};

/// A suspicious reading and what became of it.
struct SuspectReading {
  Suspect suspect;
  bool used = false;  ///< whether the reading still counts in the estimates
};

/// One place on one copy: mean of the readings that count, and what the model makes of it.
struct Cell {
  Feature feature;          ///< as engraved
  Kind kind = Kind::outer;  ///< as the machine sees it (turned copies)
  Axis axis = Axis::x;      ///< as the machine sees it
  int copy = 1;
  int turned_deg = 0;
  int readings = 0;
  double mean_mm = 0;             ///< as read (nothing subtracted)
  double fitted_mm = 0;           ///< what the model predicts this reading to be
  double residual_mm = 0;         ///< mean - fitted
  double studentised = 0;         ///< externally studentised residual of the feature mean; 0 when not defined
  std::vector<std::size_t> rows;  ///< into ReadingSet::rows, the readings that count
};

struct Counts {
  int features = 0;
  int copies = 0;
  int readings = 0;
  int set_aside = 0;
};

/// One independent source of uncertainty of all parameters (or terms).
struct UncertaintyPart {
  Eigen::MatrixXd covariance;
  Eigen::VectorXd df;           ///< by diagonal entry; 1e9 and above = certain
  bool is_prior = false;        ///< a weak prior
  bool assumed_copies = false;  ///< scatter between copies, leaning on its prior
};

struct Estimates {
  std::string method;  ///< "two strata" or "REML, Kenward-Roger", with "moderated": "two strata, moderated", ...
  Counts counts;
  std::vector<Parameter> parameters;
  std::vector<Combination> combinations;
  Eigen::MatrixXd covariance;          ///< of `parameters`, in their order
  std::vector<UncertaintyPart> parts;  ///< independent sources that add up to `covariance`; empty if not known
  std::vector<PriorUsed> priors;
  std::vector<NotSeparable> not_separable;
  std::vector<SuspectReading> suspects;
  std::map<std::string, double>
      scatter;  ///< standard deviations found: "reading_mm", "feature_mm", "copy_edge_mm", "copy_scale", ...
  std::vector<Cell> cells;

  /// The parameter of that name, or nullptr when it could not be estimated.
  [[nodiscard]] const Parameter* find(const std::string& parameter) const;
  /// Value of a parameter, or `otherwise`.
  [[nodiscard]] double value_or(const std::string& parameter, double otherwise) const;
  /// Covariance of two parameters; 0 when either is absent.
  [[nodiscard]] double cov(const std::string& a, const std::string& b) const;
};

}  // namespace fitwright
