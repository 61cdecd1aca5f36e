// Files cut off and bits flipped: never a crash, never a silent loss. Either the record is refused with a message and
// the file stays as it is, or every row is what was written.

#include <catch2/catch.hpp>
#include <filesystem>
#include <iostream>
#include <random>

#include "calib/record/scratch.hpp"
#include "record/backup.hpp"
#include "record/pages.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;

namespace {

constexpr std::size_t page = page_bytes;

std::size_t below(std::mt19937_64& random, std::size_t n) { return static_cast<std::size_t>(random() % n); }

void flip(std::string& bytes, std::size_t bit) { bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ 1 << bit % 8); }

/// One of six kinds of damage.
std::string damage(std::string bytes, unsigned seed) {
  std::mt19937_64 random(seed);
  switch (seed % 6) {
    case 0:  // cut off anywhere, but not to nothing
      bytes.resize(1 + below(random, bytes.size() - 1));
      break;
    case 1:  // cut off at a page
      bytes.resize(page * (1 + below(random, bytes.size() / page - 1)));
      break;
    case 2:
      flip(bytes, below(random, bytes.size() * 8));
      break;
    case 3:
      for (std::size_t n = 2 + below(random, 30); n > 0; --n) flip(bytes, below(random, bytes.size() * 8));
      break;
    case 4: {  // a block lost
      const std::size_t length = 1 + below(random, 2 * page), at = below(random, bytes.size() - length);
      const bool zero = below(random, 2) == 0;
      for (std::size_t k = at; k < at + length; ++k) bytes[k] = zero ? '\0' : static_cast<char>(random());
      break;
    }
    default: {  // two pages in each other's place
      const std::size_t a = below(random, bytes.size() / page), b = below(random, bytes.size() / page);
      const std::string first = bytes.substr(a * page, page);
      bytes.replace(a * page, page, bytes.substr(b * page, page));
      bytes.replace(b * page, page, first);
    }
  }
  return bytes;
}

struct Tally {
  int refused = 0, unharmed = 0;
};

void opens_right_or_not_at_all(const std::string& path, const std::string& content, Tally& tally) {
  const std::string before = scratch::bytes_of(path);
  OpenOptions options;
  options.keep_backups = false;
  auto record = open_record(path, options);
  if (record) {
    ++tally.unharmed;
    CHECK((scratch::content_of(record->database()) == content));
    return;
  }
  ++tally.refused;
  REQUIRE_FALSE(record.problems().empty());
  CHECK(record.problems().front().what.size() > 20);
  CHECK(record.problems().front().remedy.size() > 20);
  CHECK((scratch::bytes_of(path) == before));
}

}  // namespace

TEST_CASE("five hundred damaged files: refused with a message, or every row as written") {
  const scratch::Folder folder(true);
  const std::string sound = folder / "sound.fitwright";
  std::string content;
  {
    Record record = scratch::opened(sound);
    scratch::fill(record, 400);
    content = scratch::content_of(record.database());
  }
  const std::string bytes = scratch::bytes_of(sound);
  constexpr unsigned files = 500;
  Tally tally;
  for (unsigned seed = 1; seed <= files; ++seed) {
    INFO("seed " << seed << ", kind " << seed % 6);
    const std::string path = folder / ("record-" + std::to_string(seed) + ".fitwright");
    scratch::put(path, damage(bytes, seed));
    opens_right_or_not_at_all(path, content, tally);
    std::filesystem::remove(path);
  }
  std::cout << files << " damaged files of " << bytes.size() << " bytes (seeds 1 to " << files << "): " << tally.refused
            << " refused, " << tally.unharmed << " with every row as written\n";
  CHECK(tally.refused + tally.unharmed == files);
}

namespace {

/// A record whose latest writes are in its journal, as a kill leaves them: the bench, then `count` readings of "Y1",
/// each a write of its own.
struct Left {
  std::string bytes, journal, content;
};
Left left_by_a_kill(const scratch::Folder& folder, int count) {
  const std::string live = folder / "live.fitwright";
  Record record = scratch::opened(live);
  const auto bench = scratch::fill(record, 40);
  for (int k = 0; k < count; ++k) {
    StoredReading r;
    r.copy = bench.copy;
    r.feature_id = "Y1";
    r.repeat = k + 1;
    r.reading_mm = 30;
    REQUIRE(add(record, r).ok());
  }
  return {scratch::bytes_of(live), scratch::bytes_of(live + "-wal"), scratch::content_of(record.database())};
}

Result<Record> opened_to_read(const std::string& path, const std::string& bytes, const std::string& journal) {
  scratch::put(path, bytes);
  scratch::put(path + "-wal", journal);
  OpenOptions options;
  options.read_only = true;
  return open_record(path, options);
}

}  // namespace

TEST_CASE("two hundred damaged journals: refused, or told, or every row as written") {
  const scratch::Folder folder(true);
  const Left left = left_by_a_kill(folder, 30);
  REQUIRE(left.journal.size() > 40 * page);
  constexpr unsigned files = 200;
  Tally tally;
  int told = 0;
  for (unsigned seed = 1; tally.refused + tally.unharmed + told < static_cast<int>(files); ++seed) {
    if (seed % 6 < 2) continue;  // cut off: below
    INFO("seed " << seed << ", kind " << seed % 6);
    const std::string path = folder / ("record-" + std::to_string(seed) + ".fitwright");
    auto record = opened_to_read(path, left.bytes, damage(left.journal, seed));
    if (!record) {
      ++tally.refused;
    } else if (!record->notes().empty()) {
      ++told;
    } else {
      ++tally.unharmed;
      CHECK((scratch::content_of(record->database()) == left.content));
    }
    for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(path + end);
  }
  std::cout << files << " damaged journals of " << left.journal.size() << " bytes: " << tally.refused << " refused, "
            << told << " told as a write cut off, " << tally.unharmed << " with every row as written\n";
}

TEST_CASE("a journal cut off loses its last writes and nothing before them") {
  // What was cut off has left no trace to be told by; that is the limit of what a journal can say.
  const scratch::Folder folder(true);
  const Left left = left_by_a_kill(folder, 30);
  for (std::size_t size = 0; size <= left.journal.size(); size += left.journal.size() / 40) {
    INFO("cut off at " << size);
    auto record = opened_to_read(folder / "record.fitwright", left.bytes, left.journal.substr(0, size));
    if (!record) {  // before the record was begun: it holds nothing to be read
      CHECK(scratch::told(record.problems()).find("empty") != std::string::npos);
      continue;
    }
    const auto number = [&](const char* sql) { return record->database().number(sql); };
    CHECK(number("SELECT count(*) FROM reading WHERE feature_id = 'Y1'") ==
          number("SELECT coalesce(max(repeat), 0) FROM reading WHERE feature_id = 'Y1'"));
    std::filesystem::remove(folder / "record.fitwright-shm");
  }
}

TEST_CASE("a flipped bit in a reading's number is told, and the way back is named and works") {
  const scratch::Folder folder;
  const std::string path = folder / "my record.fitwright";
  std::string content;
  {
    Record record = scratch::opened(path);
    scratch::fill(record, 40);
    content = scratch::content_of(record.database());
    CHECK(back_up_today(record, "2026-11-23").empty());
    CHECK(back_up_today(record, "2026-11-24").empty());
    CHECK(back_up_today(record, "2026-11-25").empty());
  }
  REQUIRE(backups_of(path).size() == 3);
  std::string bytes = scratch::bytes_of(path);
  const std::size_t at = bytes.rfind("misread");
  REQUIRE(at != std::string::npos);
  flip(bytes, at * 8);
  scratch::put(path, bytes);
  // The newest backup is damaged too: it is not the one to name.
  std::string newest = scratch::bytes_of(backups_of(path).front().path);
  flip(newest, newest.size() * 4);
  scratch::put(backups_of(path).front().path, newest);

  const auto refused = open_record(path);
  REQUIRE_FALSE(refused.ok());
  const Problem& problem = refused.problems().front();
  INFO(problem.text());
  CHECK(problem.code == Code::bad_input);
  CHECK(problem.what.find("page") != std::string::npos);
  CHECK(problem.remedy.find("fitw record restore '" + (folder / "backups/my record.2026-11-24.fitwright") +
                            "' --record '" + path + "'") != std::string::npos);
  CHECK((scratch::bytes_of(path) == bytes));

  const auto good = newest_good_backup(path);
  REQUIRE(good);
  const auto restored = restore_backup(path, good->path);
  REQUIRE(restored.ok());
  CHECK((scratch::bytes_of(restored->set_aside) == bytes));
  Record back = scratch::opened(path);
  CHECK((scratch::content_of(back.database()) == content));
}

TEST_CASE("sums tell every change of up to eight bytes, and a page in the wrong place") {
  // From memory of the algorithm: two words a step, each step can be undone, so that no change in one step vanishes.
  std::mt19937_64 random(7);
  std::string content(page - sum_bytes, '\0');
  for (char& c : content) c = static_cast<char>(random());
  const auto sum = [&](std::uint64_t seed) {
    return sum_of(reinterpret_cast<const unsigned char*>(content.data()), content.size(), seed);
  };
  const std::uint64_t right = sum(3);
  CHECK(sum(4) != right);
  for (std::size_t bit = 0; bit < content.size() * 8; bit += 37) {
    flip(content, bit);
    REQUIRE(sum(3) != right);
    flip(content, bit);
  }
  CHECK(sum(3) == right);
}
