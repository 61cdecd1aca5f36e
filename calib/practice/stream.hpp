#pragma once
// Random numbers that can be had again in any language: one stream per (seed, label), so that adding a feature or a
// copy never changes the other numbers.

#include <cstdint>
#include <string_view>

namespace fitwright {

/// SplitMix64 (Steele, Lea, Flood, 2014) started from the FNV-1a 64-bit hash of "SEED|LABEL".
class Stream {
 public:
  Stream(std::uint64_t seed, std::string_view label);
  /// Uniform in (0, 1): the upper 53 bits of the next output, plus one half, over 2^53.
  double uniform();
  /// Standard normal by Box and Muller's cosine branch; takes two uniforms.
  double normal();

 private:
  std::uint64_t state_;
};

/// First uniform, and first normal, of the stream (seed, label).
double stream_uniform(std::uint64_t seed, std::string_view label);
double stream_normal(std::uint64_t seed, std::string_view label);

}  // namespace fitwright
