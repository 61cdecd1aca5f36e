#pragma once
// How copies and features of several coupons are called when they come together in one set of readings.

#include <string>
#include <vector>

namespace fitwright::record {

/// A copy: its print number, its coupon's design, and the coupon's features.csv (a coupon kept twice is still one).
struct CopyToName {
  int print = 1;
  std::string design, features;
  std::vector<std::string> feature_ids;
};

struct CopyName {
  int number = 1;          ///< the copy number in a set of readings
  bool not_print = false;  ///< the same coupon was printed twice in one print: this one got a number of its own
  std::string prefix;      ///< stands in front of its feature ids, "frame " or "frame 2 "; empty where none is shared
};

/// Copies are numbered by their prints; where different coupons share a feature id, the design's name stands in front.
std::vector<CopyName> copy_names(const std::vector<CopyToName>& copies);

}  // namespace fitwright::record
