#pragma once
// What the record teaches beyond one evening: what to expect of a new spool, machine and material apart, whether a
// setup or a caliper is still what it was. The methods are those of calib/learn; here is what is fed to them.

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "learn/caliper.hpp"
#include "learn/chart.hpp"
#include "learn/split.hpp"
#include "learn/spools.hpp"
#include "record/record.hpp"
#include "record/store.hpp"

namespace fitwright::record {

/// One error as it is with the settings taken out.
struct BareValue {
  double value = 0;
  double u = 0;  ///< standard uncertainty, unit of the value
};

/// What copies printed in one state say of printer and spool alone: as if printed with size factor 1, outline offset 0
/// and the printer's steps as they were when it was entered. So what was read before and after a correction compares.
struct BareErrors {
  Id setup;
  std::string setup_name, printer, material, spool;
  std::vector<Id> copies;
  std::string printed_on;  ///< of the newest copy
  std::optional<BareValue> scale_x, scale_y, scale_z;
  std::optional<BareValue> shrink;                       ///< 1 - mean gain of X and Y: what a length in plane loses
  std::optional<BareValue> edge_mm;                      ///< edge growth per edge with the outline offset out
  Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  ///< of scale_x, scale_y, scale_z; 0 where not known
};

enum class Together {
  state,  ///< all copies of one state: as sure as they can tell
  print,  ///< print by print, for charts
};

struct BareSets {
  std::vector<BareErrors> sets;    ///< oldest first
  std::vector<std::string> notes;  ///< what could not be estimated, and why
};

/// Those of some copies of a setup, printed in one state. Errors: those of readings_for() and estimate().
Result<BareErrors> bare_errors_of(Record& record, const Id& setup, const std::vector<Id>& copies);

/// The bare errors of a setup. Never fails for lack of readings: then there are none.
Result<BareSets> bare_errors(Record& record, const Id& setup, Together together);

/// What to expect of a setup from earlier spools of its material.
struct ExpectedOfSpool {
  SpoolForecast forecast;           ///< of the shrink factor; its sentence says that it is expected, not measured
  std::vector<SpoolValue> earlier;  ///< what it rests on
  double size_factor = 1;           ///< to begin with, at the steps in force
  double size_factor_lower = 1, size_factor_upper = 1;  ///< 95 % interval for what it will turn out to be
  std::vector<std::string> notes;
};

/// Errors: Code::unanswerable when no other spool of the material was measured.
Result<ExpectedOfSpool> expected_of_spool(Record& record, const Id& setup);

/// Printers and spools apart, from the surest prints of every setup and the travels measured; each spool has a factor
/// of its own. Errors: those of split_scales().
Result<Split> machine_and_material(Record& record, const SplitOptions& options = {});

struct SetupCharts {
  std::optional<Chart> shrink, edge;
  std::vector<std::string> notes;  ///< why one is not there, which prints could not be used
};

/// Control charts of a setup, print by print, of the coupon file that was printed most often: only then what is bound
/// to the file cancels.
Result<SetupCharts> setup_charts(Record& record, const Id& setup);

/// The log of a caliper: all its readings of steel, with the day of their sessions.
/// Errors: Code::unanswerable when nothing was read.
Result<CaliperState> caliper_log(Record& record, const Id& caliper);

}  // namespace fitwright::record
