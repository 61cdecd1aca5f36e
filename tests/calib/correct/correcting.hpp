#pragma once
// Short ways to correct hand-made estimates and to look at what came of it.

#include <catch2/catch.hpp>
#include <string>

#include "correct/correction.hpp"

namespace fitwright::testing {

inline Correction corrected(const Estimates& e, const State& s, const CorrectOptions& options) {
  const auto result = correct(e, s, options);
  REQUIRE(result.ok());
  return *result;
}

inline CorrectOptions with(Policy policy) {
  CorrectOptions o;
  o.policy = policy;
  return o;
}

inline const Change* change_of(const Correction& c, const std::string& knob) {
  for (const Change& change : c.changes)
    if (change.knob == knob) return &change;
  return nullptr;
}

inline std::string reason(const Correction& c, const std::string& knob) {
  for (const LeftAlone& l : c.left_alone)
    if (l.knob == knob) return l.because;
  return {};
}

inline bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace fitwright::testing
