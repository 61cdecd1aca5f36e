#pragma once
// Whether the chance that an allowance promises is kept, and how far the drawn size is from the best one.

#include <string>
#include <vector>

#include "fits/allowance.hpp"

namespace fitwright::accuracy {

/// What a user knows of how clearances feel.
enum class Knows { nothing, nominal_ladder, measured_ladder };

/// One simulated user: what was promised and what came out.
struct Kept {
  Fit fit = Fit::press;
  bool reached = false;    ///< the wanted chance was promised
  double promised = 0;     ///< chance of the wanted grade
  bool came_out = false;   ///< one new part had the wanted grade
  double true_chance = 0;  ///< of the drawn size, with the truth known
  double best_chance = 0;  ///< of the best size, with the truth known
  double off_best_mm = 0;  ///< real mean clearance of the drawn size minus that of the best
};

/// Users `first` .. `first + users - 1`: truth, readings, ladder and wish are each user's own.
std::vector<Kept> users(Knows knows, int first, int users, double wanted_chance, int threads);

/// The section of the report: Markdown.
std::string promise_tables(int users_each, int threads);

}  // namespace fitwright::accuracy
