#pragma once
// Which of the daily backups stay: the last days, then the weeks, then the months.

#include <string>
#include <vector>

namespace fitwright::record {

inline constexpr int days_kept = 5, weeks_kept = 4, months_kept = 12;

/// Of backups made on `dates` ("2026-11-25", in any order) those to keep at `today`: the newest of each of the last
/// 5 days, 4 weeks (Monday to Sunday, ISO 8601) and 12 months. Days, weeks and months without a backup do not count,
/// so that a bench that rests for years loses nothing; dates after `today` (a clock that was wrong) are kept and do not
/// count either. Dates that are none are kept. Sorted, each once.
std::vector<std::string> to_keep(const std::vector<std::string>& dates, const std::string& today);

/// Whether a text is a date of the calendar, "2026-11-25".
bool is_date(const std::string& text);

}  // namespace fitwright::record
