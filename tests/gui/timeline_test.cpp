// The life of a setup along time: every event has its mark, in its lane, at its date.

#include "bench/timeline.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace fitwright;

namespace {

HistoryRow event(const std::string& at, const std::string& what, HistoryLane lane) {
  HistoryRow row{at, at.substr(0, 10), what, "as told", {}};
  row.lane = lane;
  return row;
}

}  // namespace

TEST_CASE("days are counted from 1970-01-01, leap years and hours included") {
  CHECK(days_of("1970-01-01") == Approx(0).margin(1e-12));
  CHECK(*days_of("2000-03-01") == 11017);  // `date -u -d 2000-03-01 +%s` / 86400
  CHECK(*days_of("2024-03-01T00:00:00.000Z") - *days_of("2024-02-28") == 2);
  CHECK(*days_of("2026-11-25T18:00:00.000Z") - *days_of("2026-11-25") == 0.75);
  for (const char* bad : {"", "yesterday", "2026-13-01", "2026-02-30", "2026-1"}) CHECK_FALSE(days_of(bad));
}

TEST_CASE("every event stands once in its lane; what falls together shares a mark") {
  HistoryView view;
  view.rows = {event("2026-11-20T18:30:00.000Z", "Correction applied", HistoryLane::corrected),
               event("2026-11-20T18:05:00.000Z", "Measured", HistoryLane::measured),
               event("2026-11-20T18:00:00.000Z", "Measured", HistoryLane::measured),
               event("2026-10-20", "Copy printed", HistoryLane::printed),
               event("2026-10-19", "Setup begun", HistoryLane::setup)};
  view.rows.front().settings_changed = true;
  const PlotScene scene = timeline_plot(view);
  std::multiset<std::size_t> rows;
  for (const PlotMark& mark : scene.marks) rows.insert(mark.rows.begin(), mark.rows.end());
  CHECK(rows == std::multiset<std::size_t>{0, 1, 2, 3, 4});
  CHECK(scene.marks.size() == 4);  // the two evenings five minutes apart are one mark
  CHECK(scene.lines.size() == 1);
  std::set<double> heights;
  for (const PlotMark& mark : scene.marks) {
    heights.insert(mark.at.y);
    CHECK(mark.at.x > scene.x.from);
    CHECK(mark.at.x < scene.x.to);
    CHECK_FALSE(mark.said.empty());
  }
  CHECK(heights.size() == 4);
  CHECK(scene.said.find("5 events from 2026-10-19 to 2026-11-20") != std::string::npos);
}

TEST_CASE("a history of one moment, and none") {
  HistoryView view;
  CHECK_FALSE(timeline_plot(view).empty.empty());
  view.rows = {event("2026-10-19T10:00:00.000Z", "Setup begun", HistoryLane::setup)};
  const PlotScene scene = timeline_plot(view);
  CHECK(scene.marks.size() == 1);
  CHECK(scene.x.to - scene.x.from > 1);
  CHECK_FALSE(scene.x.ticks.empty());
}
