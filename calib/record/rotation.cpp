#include "record/rotation.hpp"

#include <algorithm>
#include <chrono>
#include <optional>
#include <set>

#include "base/number.hpp"

namespace fitwright::record {
namespace {

using std::chrono::sys_days;

std::optional<sys_days> day_of(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  for (const std::size_t k : {0u, 1u, 2u, 3u, 5u, 6u, 8u, 9u})
    if (text[k] < '0' || text[k] > '9') return std::nullopt;
  const auto part = [&](std::size_t from, std::size_t n) { return *parse_whole(text.substr(from, n)); };
  const std::chrono::year_month_day date(std::chrono::year(part(0, 4)),
                                         std::chrono::month(static_cast<unsigned>(part(5, 2))),
                                         std::chrono::day(static_cast<unsigned>(part(8, 2))));
  if (!date.ok()) return std::nullopt;
  return sys_days(date);
}

int day_number(sys_days day) { return static_cast<int>(day.time_since_epoch().count()); }

/// Weeks since the Monday before 1970-01-01, which was a Thursday.
int week_number(sys_days day) { return (day_number(day) + 3) / 7; }

int month_number(sys_days day) {
  const std::chrono::year_month_day date(day);
  return static_cast<int>(date.year()) * 12 + static_cast<int>(static_cast<unsigned>(date.month()));
}

}  // namespace

bool is_date(const std::string& text) { return day_of(text).has_value(); }

std::vector<std::string> to_keep(const std::vector<std::string>& dates, const std::string& today) {
  std::set<std::string> kept;
  std::vector<std::pair<sys_days, std::string>> past;
  const auto now = day_of(today);
  for (const std::string& date : dates) {
    const auto day = day_of(date);
    if (!day || !now || *day > *now)
      kept.insert(date);
    else
      past.emplace_back(*day, date);
  }
  std::sort(past.rbegin(), past.rend());
  const auto newest_of_each = [&](int count, auto period) {
    std::set<int> seen;
    for (const auto& [day, text] : past) {
      if (!seen.insert(period(day)).second) continue;
      if (static_cast<int>(seen.size()) > count) break;
      kept.insert(text);
    }
  };
  newest_of_each(days_kept, day_number);
  newest_of_each(weeks_kept, week_number);
  newest_of_each(months_kept, month_number);
  return {kept.begin(), kept.end()};
}

}  // namespace fitwright::record
