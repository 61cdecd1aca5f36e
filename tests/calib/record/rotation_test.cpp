// Which backups stay: cases worked out by hand with a calendar of 2026, and laws over years.

#include "record/rotation.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>

using namespace fitwright::record;
using Dates = std::vector<std::string>;

namespace {

std::string text_of(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  const auto two = [](unsigned n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(static_cast<int>(date.year())) + '-' + two(static_cast<unsigned>(date.month())) + '-' +
         two(static_cast<unsigned>(date.day()));
}

}  // namespace

TEST_CASE("few backups all stay") {
  CHECK(to_keep({}, "2026-11-25").empty());
  CHECK(to_keep({"2026-11-25"}, "2026-11-25") == Dates{"2026-11-25"});
  const Dates five{"2026-11-21", "2026-11-22", "2026-11-23", "2026-11-24", "2026-11-25"};
  CHECK(to_keep(five, "2026-11-25") == five);
}

TEST_CASE("every day of a November: five days, then Sundays, then the month's end") {
  // 2026-11-25 is a Wednesday; Sundays before: 22, 15, 8, 1 November. Weeks: that of the 25th, and those that end on
  // the 22nd, 15th and 8th. Months: November (the 25th), October (the 31st).
  Dates dates{"2026-10-30", "2026-10-31"};
  for (int day = 1; day <= 25; ++day)
    dates.push_back(std::string("2026-11-") + (day < 10 ? "0" : "") + std::to_string(day));
  CHECK(to_keep(dates, "2026-11-25") == Dates{"2026-10-31", "2026-11-08", "2026-11-15", "2026-11-21", "2026-11-22",
                                              "2026-11-23", "2026-11-24", "2026-11-25"});
}

TEST_CASE("weeks begin on Monday") {
  // Eight days in a row from Monday the 16th to Monday the 23rd: days 19..23, weeks end on 22 and 23, one month.
  const Dates dates{"2026-11-16", "2026-11-17", "2026-11-18", "2026-11-19",
                    "2026-11-20", "2026-11-21", "2026-11-22", "2026-11-23"};
  CHECK(to_keep(dates, "2026-11-23") == Dates{"2026-11-19", "2026-11-20", "2026-11-21", "2026-11-22", "2026-11-23"});
}

TEST_CASE("a bench that rests loses nothing: periods without a backup do not count") {
  const Dates dates{"2021-03-01", "2022-05-05", "2023-01-31", "2026-11-25"};
  CHECK(to_keep(dates, "2026-11-25") == dates);
}

TEST_CASE("a clock that was wrong: later dates stay and push nothing out") {
  const Dates dates{"2026-11-20", "2026-11-21", "2026-11-22", "2026-11-23", "2026-11-24", "2031-01-01", "2031-01-02"};
  CHECK(to_keep(dates, "2026-11-24") == dates);
  CHECK(to_keep(dates, "no date") == dates);
}

TEST_CASE("what is no date is left alone; order and repetition do not matter") {
  CHECK(to_keep({"2026-02-30", "2026-11-25", "backup"}, "2026-11-25") == Dates{"2026-02-30", "2026-11-25", "backup"});
  CHECK(to_keep({"2026-11-25", "2026-11-23", "2026-11-25"}, "2026-11-25") == Dates{"2026-11-23", "2026-11-25"});
  CHECK(is_date("2028-02-29"));
  CHECK_FALSE(is_date("2026-02-29"));
  CHECK_FALSE(is_date("2026-2-09"));
}

TEST_CASE("thinned out every day for three years, the last days, weeks and months are always there") {
  using namespace std::chrono;
  Dates there;
  const sys_days first = sys_days(year(2026) / 1 / 1);
  for (int k = 0; k < 3 * 365; ++k) {
    const sys_days today = first + days(k);
    there.push_back(text_of(today));
    there = to_keep(there, text_of(today));
    const auto has = [&](sys_days day) { return std::binary_search(there.begin(), there.end(), text_of(day)); };
    REQUIRE(there.size() <= static_cast<std::size_t>(days_kept + weeks_kept + months_kept));
    for (int back = 0; back < days_kept && back <= k; ++back) REQUIRE(has(today - days(back)));
    sys_days sunday = today - days(weekday(today).c_encoding());
    for (int week = 1; week < weeks_kept; ++week, sunday -= days(7))
      if (sunday >= first) REQUIRE(has(sunday));
    const year_month_day date(today);
    for (int month = 1; month < months_kept; ++month) {
      const year_month then = year_month(date.year(), date.month()) - months(month);
      if (sys_days(then / last) >= first) REQUIRE(has(sys_days(then / last)));
    }
  }
}
