#pragma once
// Shared by the tests of calib/learn: tables of tests/reference/stats, and random numbers with a fixed seed.

#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "stats/intervals.hpp"

namespace fitwright::learning {

/// Rows of FW_REFERENCE/stats/FILE without '#' lines and header, as text.
inline std::vector<std::vector<std::string>> table(const std::string& file) {
  std::ifstream in(std::string(FW_REFERENCE) + "/stats/" + file);
  if (!in) throw std::runtime_error("cannot read " + file);
  std::vector<std::vector<std::string>> out;
  bool header = true;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::vector<std::string> cells;
    std::istringstream fields(line);
    for (std::string cell; std::getline(fields, cell, ',');) cells.push_back(cell);
    if (!header) out.push_back(cells);
    header = false;
  }
  return out;
}

/// Standard normal numbers, the same everywhere.
struct Random {
  std::mt19937_64 bits;
  explicit Random(unsigned seed) : bits(seed) {}
  double uniform() { return (static_cast<double>(bits() >> 11) + 0.5) * 0x1p-53; }
  double normal() {
    return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::acos(-1.0) * uniform());  // Box and Muller, 1958
  }
};

/// Four standard errors of a share `p` seen in n runs.
inline double margin(double p, int n) { return 4 * std::sqrt(p * (1 - p) / n); }

}  // namespace fitwright::learning
