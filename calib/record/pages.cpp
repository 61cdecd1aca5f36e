#include "record/pages.hpp"

#include <sqlite3.h>

#include <array>
#include <cstring>
#include <memory>
#include <stdexcept>
#include <utility>

namespace fitwright::record {
namespace {

thread_local std::optional<long long> bad_page;

// Offsets in the file header: sqlite.org/fileformat2.html, 1.3.
constexpr char magic[] = "SQLite format 3";
constexpr int header_bytes = 100;
constexpr int at_page_size = 16, at_reserved = 20;
constexpr int content_bytes = page_bytes - sum_bytes;

/// A file of SQLite's own, with the sums between it and whoever reads and writes. The other one lies behind it.
struct SummedFile {
  sqlite3_file base;
  bool summed;
};
static_assert(sizeof(SummedFile) % alignof(std::max_align_t) == 0 || sizeof(SummedFile) % 8 == 0);

SummedFile* mine(sqlite3_file* file) { return reinterpret_cast<SummedFile*>(file); }
sqlite3_file* inner(sqlite3_file* file) { return reinterpret_cast<sqlite3_file*>(mine(file) + 1); }
const sqlite3_io_methods* methods(sqlite3_file* file) { return inner(file)->pMethods; }

/// Whether the pages of a file with this header have sums.
bool has_sums(const unsigned char* header) {
  const int size = header[at_page_size] << 8 | header[at_page_size + 1];
  return std::memcmp(header, magic, sizeof magic) == 0 && size == page_bytes && header[at_reserved] == sum_bytes;
}

std::array<unsigned char, sum_bytes> sum_at(const unsigned char* page, sqlite3_int64 offset) {
  const std::uint64_t sum = sum_of(page, content_bytes, static_cast<std::uint64_t>(offset / page_bytes + 1));
  std::array<unsigned char, sum_bytes> bytes{};
  for (int k = 0; k < sum_bytes; ++k) bytes[static_cast<std::size_t>(k)] = static_cast<unsigned char>(sum >> 8 * k);
  return bytes;
}

bool whole_page(const SummedFile& file, int amount, sqlite3_int64 offset) {
  return file.summed && amount == page_bytes && offset % page_bytes == 0;
}

int read(sqlite3_file* file, void* into, int amount, sqlite3_int64 offset) {
  const int code = methods(file)->xRead(inner(file), into, amount, offset);
  if (code != SQLITE_OK) return code;
  const auto* bytes = static_cast<const unsigned char*>(into);
  if (offset == 0 && amount >= header_bytes) mine(file)->summed = has_sums(bytes);
  if (!whole_page(*mine(file), amount, offset)) return SQLITE_OK;
  if (std::memcmp(bytes + content_bytes, sum_at(bytes, offset).data(), sum_bytes) == 0) return SQLITE_OK;
  bad_page = offset / page_bytes + 1;
  return SQLITE_IOERR_DATA;  // the code that SQLite keeps for just this
}

int write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 offset) {
  const auto* bytes = static_cast<const unsigned char*>(from);
  if (offset == 0 && amount >= header_bytes) mine(file)->summed = has_sums(bytes);
  if (!whole_page(*mine(file), amount, offset)) return methods(file)->xWrite(inner(file), from, amount, offset);
  std::array<unsigned char, page_bytes> page;
  std::memcpy(page.data(), bytes, content_bytes);
  std::memcpy(page.data() + content_bytes, sum_at(bytes, offset).data(), sum_bytes);
  return methods(file)->xWrite(inner(file), page.data(), amount, offset);
}

// The rest is passed on.
int close(sqlite3_file* f) { return methods(f) ? methods(f)->xClose(inner(f)) : SQLITE_OK; }
int truncate(sqlite3_file* f, sqlite3_int64 size) { return methods(f)->xTruncate(inner(f), size); }
int sync(sqlite3_file* f, int flags) { return methods(f)->xSync(inner(f), flags); }
int file_size(sqlite3_file* f, sqlite3_int64* size) { return methods(f)->xFileSize(inner(f), size); }
int lock(sqlite3_file* f, int kind) { return methods(f)->xLock(inner(f), kind); }
int unlock(sqlite3_file* f, int kind) { return methods(f)->xUnlock(inner(f), kind); }
int check_lock(sqlite3_file* f, int* held) { return methods(f)->xCheckReservedLock(inner(f), held); }
int control(sqlite3_file* f, int what, void* with) { return methods(f)->xFileControl(inner(f), what, with); }
int sector(sqlite3_file* f) { return methods(f)->xSectorSize(inner(f)); }
int device(sqlite3_file* f) { return methods(f)->xDeviceCharacteristics(inner(f)); }
int shm_map(sqlite3_file* f, int region, int size, int extend, void volatile** at) {
  return methods(f)->xShmMap(inner(f), region, size, extend, at);
}
int shm_lock(sqlite3_file* f, int offset, int n, int flags) { return methods(f)->xShmLock(inner(f), offset, n, flags); }
void shm_barrier(sqlite3_file* f) { methods(f)->xShmBarrier(inner(f)); }
int shm_unmap(sqlite3_file* f, int remove) { return methods(f)->xShmUnmap(inner(f), remove); }

/// Version 2: shared memory for the journal, but no mapping of the file, which would go past the sums. Version 1 for
/// files that have no shared memory.
sqlite3_io_methods io(int version) {
  return {version, close,  read,   write,   truncate, sync,        file_size, lock,    unlock, check_lock,
          control, sector, device, shm_map, shm_lock, shm_barrier, shm_unmap, nullptr, nullptr};
}

int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* flags_out) {
  auto* real = static_cast<sqlite3_vfs*>(sqlite3_vfs_find(nullptr));
  if (!(flags & SQLITE_OPEN_MAIN_DB)) return real->xOpen(real, name, file, flags, flags_out);
  (void)vfs;
  static const sqlite3_io_methods with_memory = io(2), without_memory = io(1);
  SummedFile& summed = *mine(file);
  summed.base.pMethods = nullptr;
  summed.summed = false;
  sqlite3_file* other = inner(file);
  std::memset(other, 0, static_cast<std::size_t>(real->szOsFile));
  const int code = real->xOpen(real, name, other, flags, flags_out);
  if (!other->pMethods) return code == SQLITE_OK ? SQLITE_CANTOPEN : code;
  summed.base.pMethods =
      other->pMethods->iVersion >= 2 && other->pMethods->xShmMap != nullptr ? &with_memory : &without_memory;
  if (code != SQLITE_OK) return code;
  sqlite3_int64 size = 0;
  // In an empty file pages may be written before the first one, which tells of the sums: Database always asks for them.
  if (other->pMethods->xFileSize(other, &size) == SQLITE_OK && size == 0) summed.summed = true;
  return SQLITE_OK;
}

std::uint32_t word(const unsigned char* at) {
  return static_cast<std::uint32_t>(at[0]) | static_cast<std::uint32_t>(at[1]) << 8 |
         static_cast<std::uint32_t>(at[2]) << 16 | static_cast<std::uint32_t>(at[3]) << 24;
}

}  // namespace

std::uint64_t sum_of(const unsigned char* content, std::size_t bytes, std::uint64_t seed) {
  auto a = static_cast<std::uint32_t>(seed);
  auto b = static_cast<std::uint32_t>(seed >> 32);
  for (std::size_t k = 0; k + 8 <= bytes; k += 8) {
    a += word(content + k) + b;
    b += word(content + k + 4) + a;
  }
  return static_cast<std::uint64_t>(b) << 32 | a;
}

const char* summed_files() {
  static const char* name = [] {
    const sqlite3_vfs* real = sqlite3_vfs_find(nullptr);
    if (!real) throw std::logic_error("SQLite has no files on this system");
    // A copy: what is not about open files (names, time, random bits) stays as it is.
    static sqlite3_vfs summed = *real;
    summed.zName = "fitwright";
    summed.szOsFile = static_cast<int>(sizeof(SummedFile)) + real->szOsFile;
    summed.pNext = nullptr;
    summed.xOpen = open;
    if (sqlite3_vfs_register(&summed, 0) != SQLITE_OK) throw std::logic_error("the files with sums were not taken");
    return summed.zName;
  }();
  return name;
}

std::optional<long long> take_bad_page() { return std::exchange(bad_page, std::nullopt); }

}  // namespace fitwright::record
