#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "reference/stats/lre.hpp"

namespace fitwright::reference {
namespace {

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line);
  for (std::string cell; std::getline(in, cell, ',');) cells.push_back(cell);
  return cells;
}

}  // namespace

int printed_digits(const std::string& printed) {
  int digits = 0;
  bool leading = true;
  for (const char c : printed) {
    if (c == 'E' || c == 'e') break;
    if (c < '0' || c > '9') continue;
    leading = leading && c == '0';
    if (!leading) ++digits;
  }
  return digits;
}

double lre(double computed, double certified, int digits) {
  if (std::isnan(computed)) return 0;
  const double difference = std::fabs(computed - certified);
  const double relative = certified == 0 ? difference : difference / std::fabs(certified);
  if (relative == 0) return digits;
  return std::clamp(-std::log10(relative), 0.0, static_cast<double>(digits));
}

double lre(double computed, const std::string& certified) {
  return lre(computed, std::stod(certified), printed_digits(certified));
}

std::vector<std::string> Table::column(const std::string& name) const {
  const auto found = std::find(columns.begin(), columns.end(), name);
  if (found == columns.end()) throw std::runtime_error("no column " + name);
  const auto at = static_cast<std::size_t>(found - columns.begin());
  std::vector<std::string> out;
  for (const auto& row : rows) out.push_back(row.at(at));
  return out;
}

std::vector<double> Table::numbers(const std::string& name) const {
  std::vector<double> out;
  for (const std::string& cell : column(name)) out.push_back(std::stod(cell));
  return out;
}

std::vector<long double> Table::extended(const std::string& name) const {
  std::vector<long double> out;
  for (const std::string& cell : column(name)) out.push_back(std::stold(cell));
  return out;
}

std::string Table::value(const std::string& key) const {
  for (const auto& row : rows)
    if (row.at(0) == key) return row.at(1);
  throw std::runtime_error("no row " + key);
}

Table read_table(const std::string& file) {
  std::ifstream in(std::string(FW_REFERENCE) + "/stats/" + file);
  if (!in) throw std::runtime_error("cannot read " + file);
  Table table;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (table.columns.empty())
      table.columns = split(line);
    else
      table.rows.push_back(split(line));
  }
  return table;
}

}  // namespace fitwright::reference
