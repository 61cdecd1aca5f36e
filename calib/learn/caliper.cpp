#include "learn/caliper.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>
#include <tuple>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "learn/words.hpp"
#include "stats/intervals.hpp"
#include "stats/summary.hpp"

namespace fitwright {
namespace {

constexpr double certain = std::numeric_limits<double>::infinity();
/// Mean length of a month.
constexpr double days_a_month = 365.25 / 12;
/// Sessions from which on their own scatter, and a line through them, is told.
constexpr std::size_t fewest_sessions = 3;

Problems faults_of(const std::vector<SteelReading>& log, const CaliperOptions& options) {
  Problems out;
  std::map<std::pair<Kind, std::string>, double> sizes;
  for (const SteelReading& r : log) {
    const std::string who = said("caliper reading of {}, {}", date_of(r.day), quote(r.reference));
    const auto tell = [&](const std::string& what, const std::string& remedy) {
      out.push_back({Code::bad_input, {}, who + ": " + what, remedy});
    };
    if (!is_steel(r.kind)) tell(tr("only closed jaws, gauges and rings belong in the log"), tr("leave it out"));
    if (!std::isfinite(r.reading_mm) || !std::isfinite(r.true_mm))
      tell(tr("reading and true size must be numbers"), tr("correct it or leave it out"));
    const auto [at, fresh] = sizes.try_emplace({r.kind, r.reference}, r.true_mm);
    if (!fresh && at->second != r.true_mm)
      tell(said("the same reference is {} mm elsewhere and {} mm here", said_shortest(at->second),
                said_shortest(r.true_mm)),
           tr("give each gauge and ring a name of its own"));
  }
  if (!(options.resolution_mm > 0) || !(options.reference_u_mm >= 0))
    out.push_back(
        {Code::bad_input, {}, tr("the step of the display must be above 0"), tr("most calipers show 0.01 mm")});
  if (log.empty())
    out.push_back({Code::unanswerable,
                   {},
                   tr("nothing of this caliper was read on steel yet"),
                   tr("close the jaws and read them, then a gauge or a drill shank")});
  return out;
}

std::optional<SteelDrift> drift_of(const std::vector<SteelSession>& sessions, double level) {
  if (sessions.size() < fewest_sessions) return std::nullopt;
  const auto n = static_cast<double>(sessions.size());
  double day = 0, error = 0;
  for (const SteelSession& s : sessions) {
    day += s.day / n;
    error += s.error_mm / n;
  }
  double xx = 0, xy = 0, yy = 0;
  for (const SteelSession& s : sessions) {
    const double x = (s.day - day) / days_a_month, y = s.error_mm - error;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  SteelDrift out;
  out.df = n - 2;
  out.per_month_mm = xy / xx;
  // Sessions that lie on a line to the last digit still carry the rounding of the display.
  const double floor = prior::resolution_sd_mm * prior::resolution_sd_mm;
  out.u = std::sqrt(std::max((yy - xy * xy / xx) / out.df, floor) / xx);
  const double half = coverage_factor(level, out.df) * out.u;
  out.lower = out.per_month_mm - half;
  out.upper = out.per_month_mm + half;
  out.established = out.lower > 0 || out.upper < 0;
  return out;
}

/// Sessions of every reference, and the repeats within them.
std::vector<SteelSeries> series_of(const std::vector<SteelReading>& log, const CaliperOptions& options,
                                   std::vector<std::vector<double>>& repeats) {
  const auto rank = [](Kind k) { return k == Kind::zero ? 0 : k == Kind::gauge ? 1 : 2; };
  std::map<std::tuple<int, double, std::string>, std::map<int, std::vector<double>>> errors;
  std::map<std::tuple<int, double, std::string>, Kind> kinds;
  for (const SteelReading& r : log) {
    const std::tuple key(rank(r.kind), r.true_mm, r.reference);
    errors[key][r.day].push_back(r.reading_mm - r.true_mm);
    kinds[key] = r.kind;
  }
  std::vector<SteelSeries> out;
  for (const auto& [key, days] : errors) {
    SteelSeries s{kinds[key], std::get<2>(key), std::get<1>(key), {}, {}};
    for (const auto& [day, values] : days) {
      s.sessions.push_back({day, static_cast<int>(values.size()), mean(std::span<const double>(values))});
      repeats.push_back(values);
    }
    s.drift = drift_of(s.sessions, options.level);
    out.push_back(std::move(s));
  }
  return out;
}

double scatter_of(const std::vector<SteelSession>& sessions) {
  std::vector<double> means;
  for (const SteelSession& s : sessions) means.push_back(s.error_mm);
  return standard_deviation(std::span<const double>(means));
}

/// What the zero adds to a reading: its scatter from session to session; with fewer than three sessions the
/// uncertainty of the latest one; unread, the typical error of a zero set by hand.
CaliperContribution zero_part(const SteelSeries* zero, const CaliperState& state, double display_u) {
  if (!zero)
    return {noted("zero"), prior::caliper_zero_mm.sd, certain, tr("not read, set by hand (common practice, no source)")};
  if (zero->sessions.size() >= fewest_sessions)
    return {noted("zero"), std::max(scatter_of(zero->sessions), display_u), static_cast<double>(zero->sessions.size() - 1),
            said("standard deviation of {} sessions", zero->sessions.size())};
  return {noted("zero"), state.latest_zero_u_mm, state.repeatability_df,
          tr("as last read, too few sessions to see it change")};
}

void add_notes(const CaliperOptions& options, CaliperState& out) {
  if (out.latest_zero && std::abs(out.latest_zero->error_mm) >= options.resolution_mm / 2)
    out.notes.push_back(said("Closed, the jaws last read {} ({}): wipe them and set the zero.",
                             learn::signed_mm_text(out.latest_zero->error_mm), date_of(out.latest_zero->day)));
  for (const SteelSeries& s : out.series) {
    if (!s.drift || !s.drift->established) continue;
    const std::string drift = learn::signed_mm_text(s.drift->per_month_mm);
    const std::string half = learn::mm_text(s.drift->upper - s.drift->per_month_mm);
    out.notes.push_back(s.kind == Kind::zero ? said("The zero drifts by {} a month (± {}).", drift, half)
                                             : said("What the caliper reads on {} drifts by {} a month (± {}).",
                                                    s.reference, drift, half));
  }
  if (!out.latest_zero) {
    out.notes.push_back(tr("The zero was never read: close the jaws and read them before each session."));
    return;
  }
  for (const SteelSeries& s : out.series) {
    if (s.kind != Kind::gauge) continue;
    const SteelSession& last = s.sessions.back();
    const double off = last.error_mm - out.latest_zero->error_mm;
    const double display_u = options.resolution_mm / std::sqrt(12.0);
    const double u = std::hypot(std::max(out.repeatability_mm / std::sqrt(last.readings), display_u),
                                out.latest_zero_u_mm, options.reference_u_mm);
    if (std::abs(off) <= coverage_factor(options.level, out.repeatability_df) * u) continue;
    out.notes.push_back(
        said("Zero taken off, {} reads {} on {} mm: an error of the caliper that grows with length looks "
             "like scale.",
             s.reference, learn::signed_mm_text(off), said_shortest(s.true_mm)));
  }
}

}  // namespace

std::optional<int> day_number(std::string_view date) {
  if (date.size() < 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
  if (date.size() > 10 && date[10] != 'T' && date[10] != ' ') return std::nullopt;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (date[i] < '0' || date[i] > '9') return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t count) { return *parse_whole(date.substr(from, count)); };
  const std::chrono::year_month_day ymd{std::chrono::year{number(0, 4)},
                                        std::chrono::month{static_cast<unsigned>(number(5, 2))},
                                        std::chrono::day{static_cast<unsigned>(number(8, 2))}};
  if (!ymd.ok()) return std::nullopt;
  return static_cast<int>(std::chrono::sys_days{ymd}.time_since_epoch().count());
}

std::string date_of(int day) {
  const std::chrono::year_month_day ymd{std::chrono::sys_days{std::chrono::days{day}}};
  const auto padded = [](int value, std::size_t width) {
    std::string text = std::to_string(value);
    return text.size() < width ? std::string(width - text.size(), '0') + text : text;
  };
  return padded(static_cast<int>(ymd.year()), 4) + '-' +
         padded(static_cast<int>(static_cast<unsigned>(ymd.month())), 2) + '-' +
         padded(static_cast<int>(static_cast<unsigned>(ymd.day())), 2);
}

Result<CaliperState> caliper_state(const std::vector<SteelReading>& log, const CaliperOptions& options) {
  if (Problems faults = faults_of(log, options); !faults.empty()) return faults;
  CaliperState out;
  std::vector<std::vector<double>> repeats;
  out.series = series_of(log, options, repeats);
  const double display_u = options.resolution_mm / std::sqrt(12.0);
  const PooledSd pooled = pooled_sd(repeats);
  out.repeatability_assumed = pooled.df == 0;
  out.repeatability_mm = pooled.df == 0 ? prior::reading_sd_mm : std::max(pooled.sd, display_u);
  out.repeatability_df = pooled.df == 0 ? prior::reading_df : pooled.df;

  const SteelSeries* zero = out.series.front().kind == Kind::zero ? &out.series.front() : nullptr;
  if (zero) {
    out.latest_zero = zero->sessions.back();
    out.latest_zero_u_mm = std::max(out.repeatability_mm / std::sqrt(out.latest_zero->readings), display_u);
    out.drift = zero->drift;
  }
  const std::string repeated = out.repeatability_assumed ? tr("nothing was read twice (common practice, no source)")
                                                         : tr("pooled standard deviation of repeats within a session");
  out.budget = {
      {noted("display"), display_u, certain,
       said("rounding to {} mm, JCGM 100:2008, 4.3.7", said_shortest(options.resolution_mm))},
      {noted("repeatability"), out.repeatability_mm, out.repeatability_df, repeated},
      zero_part(zero, out, display_u),
      {noted("reference"), options.reference_u_mm, certain, tr("true size of gauges and rings (common practice, no source)")}};
  out.zero_scatter_mm = out.budget[2].u_mm;
  std::vector<Contribution> parts;
  for (const CaliperContribution& c : out.budget) parts.push_back({c.u_mm, c.df});
  out.u_mm = combined_uncertainty(parts);
  out.df = welch_satterthwaite_df(parts);
  out.factor = coverage_factor(options.level, out.df);
  out.expanded_mm = out.factor * out.u_mm;
  add_notes(options, out);
  return out;
}

CaliperVerdict judge(const CaliperState& state, double tolerance_mm) {
  if (!(tolerance_mm > 0)) throw std::invalid_argument("judge: the tolerance must be above zero");
  CaliperVerdict out;
  out.capability = measuring_capability(state.expanded_mm, tolerance_mm);
  const std::string half = learn::mm_text(state.expanded_mm);
  const std::string wanted = "± " + learn::mm_text(tolerance_mm);
  switch (out.capability.answer) {
    case Capability::can:
      out.sentence = said("This caliper (± {}) can judge {}.", half, wanted);
      out.advice = tr("nothing");
      break;
    case Capability::just:
      out.sentence = said(
          "This caliper (± {}) can just judge {}: a reading within ± {} of the middle is good, one "
          "beyond ± {} is not, and between them it cannot say.",
          half, wanted, learn::mm_text(out.capability.accept_within_mm),
          learn::mm_text(out.capability.reject_beyond_mm));
      out.advice = tr("more copies do not help against the caliper; read the zero each time, or use a micrometer");
      break;
    case Capability::cannot:
      out.sentence = said("This caliper (± {}) cannot judge {}: no reading would prove a part good.", half, wanted);
      out.advice = tr("a micrometer, or a go and no-go trial with the mating part");
      break;
  }
  std::string parts;
  for (std::size_t i = 0; i < state.budget.size(); ++i)
    parts +=
        (i ? ", " : "") + std::string(tr(state.budget[i].what.c_str())) + ' ' + said_fixed(state.budget[i].u_mm, 4);
  out.because = said("U = {} x {} from {} mm (JCGM 100:2008); C_m = {}. Rule: {}", said_fixed(state.factor, 2),
                     learn::mm_text(state.u_mm), parts, said_fixed(out.capability.index, 1), tr(capability_rule));
  return out;
}

Result<Chart> steel_chart(const SteelSeries& series) {
  std::vector<ChartPoint> points;
  for (const SteelSession& s : series.sessions) points.push_back({date_of(s.day), s.error_mm});
  ChartOptions options = caliper_chart();
  options.what = series.kind == Kind::zero ? tr("the caliper's zero") : said("the caliper on {}", series.reference);
  return ewma_chart_of(points, options);
}

}  // namespace fitwright
