#pragma once
// Rows of the hardware tables as the standards have them.

#include <vector>

namespace fitwright::hardware {

/// How many public lists have the row.
enum class Sure { two_lists, one_list, memory };

struct Limits {
  double low_mm, high_mm;
};
struct Head {
  double low_mm, plain_mm, knurled_mm;
};
struct Bearing {
  const char* name;
  double bore_mm, outside_mm, width_mm;
  Sure sure;
};
struct Thread {
  const char* name;
  double nominal_mm;
  Head socket_head;
  double socket_head_height_mm;
  Limits hex_flats;
  double hex_height_mm;
  Limits nut_flats, nut_height, washer_hole, washer_outside, washer_thickness;
};
struct ClearanceHole {
  const char* thread;
  double screw_mm, fine_mm, medium_mm, coarse_mm;
};
struct Magnet {
  double diameter_mm, height_mm;
};

extern const std::vector<Bearing> bearings;
extern const std::vector<double> pins_2338_mm, pins_8734_mm;
extern const std::vector<Thread> threads;
extern const std::vector<ClearanceHole> clearance_holes;
extern const std::vector<Magnet> magnets;

}  // namespace fitwright::hardware
