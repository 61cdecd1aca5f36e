#include "record/journal.hpp"

#include <sqlite3.h>

#include <bit>
#include <cstdint>

#include "base/file.hpp"

namespace fitwright::record {
namespace {

constexpr std::size_t header_bytes = 32, frame_header_bytes = 24;
constexpr std::uint32_t magic = 0x377f0682, format = 3007000;

std::uint32_t big(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t k = 0; k < 4; ++k) value = value << 8 | static_cast<unsigned char>(bytes[at + k]);
  return value;
}

struct Sums {
  std::uint32_t a = 0, b = 0;
  bool big_endian = false;

  void add(std::string_view bytes) {
    const auto word = [&](std::size_t at) {
      const std::uint32_t value = big(bytes, at);
      return big_endian ? value : __builtin_bswap32(value);
    };
    for (std::size_t k = 0; k + 8 <= bytes.size(); k += 8) {
      a += word(k) + b;
      b += word(k + 4) + a;
    }
  }
  [[nodiscard]] bool are(std::uint32_t first, std::uint32_t second) const { return a == first && b == second; }
};

}  // namespace

JournalLook look_at_journal(std::string_view bytes) {
  JournalLook look;
  if (bytes.size() < header_bytes) return look;  // nothing was ever confirmed in it
  Sums sums;
  sums.big_endian = (big(bytes, 0) & 1) != 0;
  sums.add(bytes.substr(0, 24));
  const std::size_t page = big(bytes, 8);
  look.sound_header = (big(bytes, 0) | 1) == (magic | 1) && big(bytes, 4) == format && std::has_single_bit(page) &&
                      page >= 512 && page <= 65536 && sums.are(big(bytes, 24), big(bytes, 28));
  if (!look.sound_header) return look;
  bool sound = true;
  for (std::size_t at = header_bytes; at + frame_header_bytes + page <= bytes.size(); at += frame_header_bytes + page) {
    const bool of_this_round = big(bytes, at + 8) == big(bytes, 16) && big(bytes, at + 12) == big(bytes, 20);
    const bool ends_a_write = big(bytes, at + 4) != 0;
    if (sound) {
      sums.add(bytes.substr(at, 8));
      sums.add(bytes.substr(at + frame_header_bytes, page));
      sound = of_this_round && big(bytes, at) != 0 && sums.are(big(bytes, at + 16), big(bytes, at + 20));
    }
    if (of_this_round && ends_a_write) ++(sound ? look.taken : look.lost);
  }
  return look;
}

JournalLook look_at_journal_file(const std::string& path) {
  // A writer at work leaves the journal in the middle of a write for a moment only.
  constexpr int looks = 5, pause_ms = 5;
  std::string before;
  for (int k = 0; k < looks; ++k) {
    auto bytes = read_whole(path);
    if (!bytes) return {};
    const JournalLook look = look_at_journal(*bytes);
    if (look.sound_header && look.lost == 0) return look;
    if (k > 0 && *bytes == before) return look;
    before = std::move(*bytes);
    sqlite3_sleep(pause_ms);
  }
  return {};  // written all the time: whoever writes it has it in good order
}

}  // namespace fitwright::record
