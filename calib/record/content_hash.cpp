#include <array>
#include <cstdint>

#include "record/kept_estimate.hpp"

namespace fitwright::record {

std::string content_hash(std::string_view bytes) {
  // h = (h xor byte) * (2^88 + 0x13b) modulo 2^128, in two halves.
  constexpr std::uint64_t small_prime = 0x13b;
  std::uint64_t high = 0x6c62272e07bb0142, low = 0x62b821756295c58d;
  for (const char c : bytes) {
    low ^= static_cast<unsigned char>(c);
    const std::uint64_t lower = (low & 0xffffffff) * small_prime;
    const std::uint64_t upper = (low >> 32) * small_prime + (lower >> 32);
    high = high * small_prime + (upper >> 32) + (low << 24);
    low = (upper << 32) | (lower & 0xffffffff);
  }
  constexpr std::array<char, 17> digits{"0123456789abcdef"};
  std::string text;
  for (const std::uint64_t half : {high, low})
    for (int shift = 60; shift >= 0; shift -= 4) text += digits[half >> shift & 15u];
  return text;
}

}  // namespace fitwright::record
