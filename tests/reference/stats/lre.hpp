#pragma once
// Agreement with certified values, counted in digits, and the reader of the tables in this folder.

#include <string>
#include <vector>

namespace fitwright::reference {

/// Significant digits of a number as printed: "0.334801051324544E-02" has 15, "-0.5" has 1, "0.210000" has 6.
int printed_digits(const std::string& printed);

/// Log relative error, -log10(|computed - certified| / |certified|) (log absolute error when certified is 0), capped
/// at `digits` and not below 0. Source: McCullough, Assessing the reliability of statistical software, The American
/// Statistician 52 (1998).
double lre(double computed, double certified, int digits = 15);

/// The same against a certified value as printed, capped at the digits printed.
double lre(double computed, const std::string& certified);

/// A table of tests/reference/stats: '#' lines say where it comes from, then a header, then cells as text.
struct Table {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;

  [[nodiscard]] std::vector<std::string> column(const std::string& name) const;
  [[nodiscard]] std::vector<double> numbers(const std::string& name) const;
  /// The decimal text read in extended precision: what the data set says, not its nearest double.
  [[nodiscard]] std::vector<long double> extended(const std::string& name) const;
  /// In a table of pairs: the second cell of the row whose first cell is `key`.
  [[nodiscard]] std::string value(const std::string& key) const;
};

/// Reads FW_REFERENCE/stats/FILE. Throws std::runtime_error when it is not there.
Table read_table(const std::string& file);

}  // namespace fitwright::reference
