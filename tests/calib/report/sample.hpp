#pragma once
// Estimates made by hand, with something in every part of a report.

#include <vector>

#include "correct/correction.hpp"
#include "correct/finding.hpp"
#include "model/estimates.hpp"
#include "reading/reading.hpp"

struct Sample {
  fitwright::ReadingSet readings;
  fitwright::Estimates estimates;
  std::vector<fitwright::Finding> findings;
};

Sample sample();

fitwright::Correction sample_correction();
