#pragma once
// Times of the record, as rows of a table.

namespace fitwright::bench {

/// Prints how long opening, saving and looking up take at 10, 1,000 and 100,000 readings.
void record_rows(double budget_s);

}  // namespace fitwright::bench
