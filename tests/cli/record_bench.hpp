#pragma once
// A bench with a record, for tests: fitw run as a person would, and prints of the practice printer in any state.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "fitw.hpp"

/// A printer with its material, as they are whatever is set: what prints in the usual state come out as.
struct PracticePrinter {
  double scale_x = -0.0031, scale_y = -0.0013, edge_mm = 0.08;
};

class RecordBench {
 public:
  /// Runs fitw with --record; fails the test unless it ends with 0.
  std::string run(std::vector<std::string> arguments) const;
  /// The same with --json.
  nlohmann::json json(std::vector<std::string> arguments) const;
  /// As it comes out, whatever it is.
  Run attempt(std::vector<std::string> arguments) const;

  /// Printer Heron, PLA slate batch 14, a caliper, setup "slate on Heron", the coupon frame.
  void first_evening() const;
  /// Readings of the frame: copy `copy` of as many, lying as its number says (every second one turned), printed by
  /// `printer` with the settings of `state` (JSON). The same seed gives the same file, its faces' errors with it.
  void print(const std::string& file, const PracticePrinter& printer, const nlohmann::json& state, int seed, int copy,
             int turned_deg = 0) const;

  Bench bench;
  std::string record = "r.fitwright";
};
