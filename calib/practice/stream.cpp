#include "practice/stream.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace fitwright {
namespace {

std::uint64_t fnv1a(std::uint64_t hash, std::string_view bytes) {
  constexpr std::uint64_t prime = 0x100000001b3;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * prime;
  return hash;
}

}  // namespace

Stream::Stream(std::uint64_t seed, std::string_view label) {
  constexpr std::uint64_t offset_basis = 0xcbf29ce484222325;
  state_ = fnv1a(fnv1a(fnv1a(offset_basis, std::to_string(seed)), "|"), label);
}

double Stream::uniform() {
  state_ += 0x9E3779B97F4A7C15;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
  z ^= z >> 31;
  return (static_cast<double>(z >> 11) + 0.5) / 9007199254740992.0;
}

double Stream::normal() {
  const double u = uniform(), v = uniform();
  return std::sqrt(-2 * std::log(u)) * std::cos(2 * std::numbers::pi * v);
}

double stream_uniform(std::uint64_t seed, std::string_view label) { return Stream(seed, label).uniform(); }
double stream_normal(std::uint64_t seed, std::string_view label) { return Stream(seed, label).normal(); }

}  // namespace fitwright
