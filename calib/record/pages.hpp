#pragma once
// Each page of a record's file carries a sum of its content, looked at whenever the page is read: a bit that flipped on
// the disk is told, and never taken for a reading. The sums lie in the bytes that SQLite leaves free at the end of each
// page ("reserved space", sqlite.org/fileformat2.html, 1.3.4); to other programs the file is an ordinary database, but
// what they write has no sums and is refused here.

#include <cstddef>
#include <cstdint>
#include <optional>

namespace fitwright::record {

inline constexpr int page_bytes = 4096;  ///< of every record
inline constexpr int sum_bytes = 8;      ///< of each page, at its end

/// The sum of a page's content: Fletcher's two running sums over 32-bit words, seeded with the page's number, as SQLite
/// sums the frames of its journal (sqlite.org/fileformat2.html, 4.2), little-endian.
std::uint64_t sum_of(const unsigned char* content, std::size_t bytes, std::uint64_t seed);

/// The name under which SQLite finds the files with sums; set up on the first call.
const char* summed_files();

/// The number (from 1) of the page whose sum was last found wrong by this thread; forgotten by the call.
std::optional<long long> take_bad_page();

}  // namespace fitwright::record
