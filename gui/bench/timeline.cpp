#include "bench/timeline.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <map>
#include <utility>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr double hours_a_day = 24, minutes_a_day = 24 * 60;
constexpr double shared_mark = 0.012;     ///< of the time shown: closer than this, marks would cover each other
constexpr double shortest_span_days = 1;  ///< a single evening still gets an axis
constexpr double margin = 0.03;           ///< of the time shown, left and right of the marks
constexpr double lane_margin = 0.6;       ///< lanes stand one apart
constexpr int most_ticks = 7;
constexpr std::array<int, 9> tick_days{1, 2, 7, 14, 28, 91, 182, 365, 1825};

struct Lane {
  HistoryLane lane;
  const char* name;
  Ink ink;
  Shape shape;
};

/// From above to below, in the order of the work.
const std::array<Lane, 5>& lanes() {
  static const std::array<Lane, 5> all{{
      {HistoryLane::setup, noted("Setup"), Ink::quiet, Shape::diamond},
      {HistoryLane::printed, noted("Printed"), Ink::text, Shape::square},
      {HistoryLane::measured, noted("Measured"), Ink::x, Shape::disc},
      {HistoryLane::understood, noted("Estimated"), Ink::z, Shape::diamond},
      {HistoryLane::corrected, noted("Corrected"), Ink::y, Shape::triangle},
  }};
  return all;
}

double height_of(std::size_t lane) { return static_cast<double>(lanes().size() - 1 - lane); }

/// "2026-11-25" of whole days since 1970-01-01.
std::string date_of(int days) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{days}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

PlotAxis time_axis(double first, double last) {
  const double span = std::max(last - first, shortest_span_days);
  PlotAxis axis{first - margin * span, first + (1 + margin) * span, {}, {}};
  int step = tick_days.back();
  for (const int days : tick_days)
    if (span / days < most_ticks) {
      step = days;
      break;
    }
  for (int day = static_cast<int>(std::floor(first)); day <= axis.to; day += step)
    if (day >= axis.from) axis.ticks.push_back({static_cast<double>(day), date_of(day)});
  return axis;
}

}  // namespace

std::optional<double> days_of(std::string_view at) {
  const auto part = [&](std::size_t from, std::size_t length) {
    return at.size() >= from + length ? parse_whole(at.substr(from, length)) : std::nullopt;
  };
  const auto year = part(0, 4), month = part(5, 2), day = part(8, 2);
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  const double days = static_cast<double>(std::chrono::sys_days{date}.time_since_epoch().count());
  const auto hour = part(11, 2), minute = part(14, 2);
  return days + (hour ? *hour / hours_a_day : 0) + (minute ? *minute / minutes_a_day : 0);
}

PlotScene timeline_plot(const HistoryView& view) {
  PlotScene scene;
  scene.title = tr("What happened when");
  struct Event {
    double at;
    std::size_t row;
  };
  std::map<HistoryLane, std::vector<Event>> events;
  double first = 0, last = 0;
  bool any = false;
  for (std::size_t row = view.rows.size(); row-- > 0;) {  // the oldest first
    const auto at = days_of(view.rows[row].at);
    if (!at) continue;
    first = any ? std::min(first, *at) : *at;
    last = any ? std::max(last, *at) : *at;
    any = true;
    events[view.rows[row].lane].push_back({*at, row});
  }
  if (!any) {
    scene.empty = tr("Prints, readings and corrections will stand here along time.");
    return scene;
  }
  scene.x = time_axis(first, last);
  scene.y = {-lane_margin, static_cast<double>(lanes().size()) - 1 + lane_margin, {}, {}};
  const double apart = shared_mark * (scene.x.to - scene.x.from);
  for (std::size_t i = 0; i < lanes().size(); ++i) {
    const Lane& lane = lanes()[i];
    scene.y.ticks.push_back({height_of(i), tr(lane.name)});
    PlotMark* open = nullptr;
    for (const Event& event : events[lane.lane]) {
      const HistoryRow& row = view.rows[event.row];
      const std::string told = said("{}, {}: {}", row.date, row.what, row.detail);
      if (open != nullptr && event.at - open->at.x < apart) {
        open->said += "\n" + told;
        open->rows.insert(open->rows.begin(), event.row);
        continue;
      }
      scene.marks.push_back({{event.at, height_of(i)}, lane.ink, lane.shape, told, {event.row}});
      open = &scene.marks.back();
    }
  }
  std::stable_sort(scene.marks.begin(), scene.marks.end(),
                   [](const PlotMark& a, const PlotMark& b) { return a.at.x < b.at.x; });
  for (const HistoryRow& row : view.rows)
    if (row.settings_changed)
      if (const auto at = days_of(row.at))
        scene.lines.push_back({{{*at, scene.y.from}, {*at, scene.y.to}}, Ink::y, true});
  scene.said = said("{} from {} to {}; a dashed line wherever the settings changed.",
                    fmt::format(fmt::runtime(tr("{} event", "{} events", view.rows.size())), view.rows.size()),
                    view.rows.back().date, view.rows.front().date);
  return scene;
}

}  // namespace fitwright
