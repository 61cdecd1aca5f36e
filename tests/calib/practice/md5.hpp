#pragma once
// MD5 (RFC 1321), to compare long texts with sums made elsewhere.

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <string>

inline std::string md5(std::string text) {
  constexpr std::array<int, 16> turns{7, 12, 17, 22, 5, 9, 14, 20, 4, 11, 16, 23, 6, 10, 15, 21};
  const std::uint64_t bits = text.size() * 8;
  text += '\x80';
  while (text.size() % 64 != 56) text += '\0';
  for (int i = 0; i < 8; ++i) text += static_cast<char>((bits >> (8 * i)) & 0xFF);
  std::array<std::uint32_t, 4> sum{0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476};
  for (std::size_t block = 0; block < text.size(); block += 64) {
    auto [a, b, c, d] = sum;
    for (unsigned i = 0; i < 64; ++i) {
      const unsigned round = i / 16;
      const std::uint32_t f = round == 0   ? (b & c) | (~b & d)
                              : round == 1 ? (d & b) | (~d & c)
                              : round == 2 ? b ^ c ^ d
                                           : c ^ (b | ~d);
      const unsigned word = (round == 0 ? i : round == 1 ? 5 * i + 1 : round == 2 ? 3 * i + 5 : 7 * i) % 16;
      std::uint32_t m = 0;
      for (unsigned k = 0; k < 4; ++k)
        m |= static_cast<std::uint32_t>(static_cast<unsigned char>(text[block + 4 * word + k])) << (8 * k);
      const auto sine = static_cast<std::uint32_t>(std::floor(std::abs(std::sin(i + 1.0)) * 4294967296.0));
      const std::uint32_t turned = std::rotl(a + f + sine + m, turns[4 * round + i % 4]);
      a = d;
      d = c;
      c = b;
      b += turned;
    }
    sum = {sum[0] + a, sum[1] + b, sum[2] + c, sum[3] + d};
  }
  std::string hex;
  for (const std::uint32_t part : sum)
    for (int nibble = 0; nibble < 8; ++nibble)
      hex += "0123456789abcdef"[(part >> (8 * (nibble / 2) + (nibble % 2 ? 0 : 4))) & 15];
  return hex;
}
