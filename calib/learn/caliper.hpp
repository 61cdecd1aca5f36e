#pragma once
// What a caliper's own log says of it: dated readings of closed jaws, gauges and rings.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "learn/chart.hpp"
#include "model/priors.hpp"
#include "reading/feature.hpp"
#include "stats/capability.hpp"

namespace fitwright {

/// One reading of steel.
struct SteelReading {
  int day = 0;             ///< whole days, any origin; readings of one reference on one day are one session
  Kind kind = Kind::zero;  ///< zero, gauge (outside jaws) or ring (inside jaws)
  std::string reference;   ///< which gauge or ring; "" for closed jaws
  double true_mm = 0;      ///< its size; 0 for closed jaws
  double reading_mm = 0;
};

/// Days since 1970-01-01 of "2026-11-25", also with a time behind it. Empty for anything else, or no such day.
std::optional<int> day_number(std::string_view date);
/// "2026-11-25" of a day number.
std::string date_of(int day);

/// One reference on one day.
struct SteelSession {
  int day = 0;
  int readings = 0;
  double error_mm = 0;  ///< mean of reading - true size
};

/// Straight line through the sessions of one reference.
struct SteelDrift {
  double per_month_mm = 0;
  double u = 0;
  double df = 0;
  double lower = 0;  ///< 95 % interval
  double upper = 0;
  bool established = false;  ///< the interval excludes 0
};

/// One reference over time, sessions in order of days.
struct SteelSeries {
  Kind kind = Kind::zero;
  std::string reference;
  double true_mm = 0;
  std::vector<SteelSession> sessions;
  std::optional<SteelDrift> drift;  ///< from three sessions on different days on
};

/// One contribution to the uncertainty of a reading.
struct CaliperContribution {
  std::string what;
  double u_mm = 0;
  double df = 0;  ///< infinity for what is taken as certain
  std::string source;
};

struct CaliperOptions {
  double resolution_mm = 0.01;                    ///< step of the display
  double reference_u_mm = prior::reference_u_mm;  ///< of gauges and rings
  double level = 0.95;
};

struct CaliperState {
  std::vector<SteelSeries> series;  ///< zero first, then gauges, then rings, each by size and name
  double repeatability_mm = 0;      ///< pooled standard deviation of repeats within sessions
  double repeatability_df = 0;
  bool repeatability_assumed = false;  ///< nothing was read twice
  std::optional<SteelSession> latest_zero;
  double latest_zero_u_mm = 0;      ///< max(repeatability/sqrt(n), display)
  double zero_scatter_mm = 0;       ///< standard deviation of the zero from session to session, or what stands for it
  std::optional<SteelDrift> drift;  ///< of the zero
  std::vector<CaliperContribution> budget;
  double u_mm = 0;                 ///< combined standard uncertainty of one reading
  double df = 0;                   ///< effective (Welch-Satterthwaite)
  double factor = 0;               ///< k, Student's t
  double expanded_mm = 0;          ///< U = k u
  std::vector<std::string> notes;  ///< sentences worth telling: zero off, drift, a gauge that disagrees with the zero
};

/// Drift, repeatability, zero and the expanded uncertainty of one reading, by JCGM 100:2008 (5.1.2, G.4; display
/// 4.3.7). Contributions: rounding of the display, repeatability, zero from session to session, reference.
/// Errors: Code::unanswerable without readings; Code::bad_input, all at once, for a kind that is not steel, numbers not
/// finite, or one reference with two sizes.
Result<CaliperState> caliper_state(const std::vector<SteelReading>& log, const CaliperOptions& options = {});

/// Whether this caliper can judge a tolerance of +- `tolerance_mm`.
struct CaliperVerdict {
  CapabilityAnswer capability;
  std::string sentence;  ///< "This caliper (± 0.03 mm) can just judge ± 0.10 mm: ..."
  std::string because;   ///< what the uncertainty is made of, and the rule with its source
  std::string advice;    ///< what would help
};

/// Precondition: tolerance_mm > 0, else std::invalid_argument.
CaliperVerdict judge(const CaliperState& state, double tolerance_mm);

/// The control chart of one series: its sessions' mean errors.
/// Errors: as ewma_chart_of.
Result<Chart> steel_chart(const SteelSeries& series);

}  // namespace fitwright
