#include "bench/record_rows.hpp"

#include <filesystem>
#include <iostream>
#include <random>
#include <stdexcept>

#include "base/number.hpp"
#include "bench/stopwatch.hpp"
#include "record/backup.hpp"
#include "record/integrity.hpp"
#include "record/store.hpp"

namespace fitwright::bench {
namespace {

namespace fs = std::filesystem;
using namespace record;

/// Readings of one copy: fourteen lengths, three readings each.
constexpr int readings_a_copy = 42;

template <class T>
T must(Result<T> result) {
  if (!result) throw std::runtime_error(result.problems().front().text());
  return std::move(*result);
}

/// A folder on the disk, deleted at the end.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("fitwright-bench-" + std::to_string(std::random_device{}()));
  Folder() { fs::create_directory(path); }
  ~Folder() {
    std::error_code none;
    fs::remove_all(path, none);
  }
};

struct Bench {
  Id setup, coupon, copy;
  Kept<StoredReading> reading;
};

StoredReading reading_of(const Id& copy, int k) {
  StoredReading r;
  r.copy = copy;
  r.feature_id = "X" + std::to_string(k % 14 + 1);
  r.repeat = k / 14 + 1;
  r.reading_mm = 20 + 0.01 * (k % 9);
  return r;
}

Bench fill(Record& record, int readings) {
  Transaction all_of_it(record.database());
  Bench b;
  Setup setup;
  setup.printer = must(add(record, Printer{.name = "Heron", .drive = {}, .note = {}})).thing;
  Spool spool;
  spool.material = must(add(record, Material{.name = "PLA", .note = {}})).thing;
  setup.spool = must(add(record, spool)).thing;
  b.setup = must(add(record, setup)).thing;
  b.coupon = must(add(record, MadeCoupon{})).thing;
  for (int done = 0; done < readings; done += readings_a_copy) {
    Copy copy;
    copy.setup = b.setup;
    copy.coupon = b.coupon;
    b.copy = must(add(record, copy)).thing;
    std::vector<StoredReading> values;
    for (int k = 0; k < readings_a_copy && done + k < readings; ++k) values.push_back(reading_of(b.copy, k));
    b.reading = must(add_all(record, values)).front();
  }
  all_of_it.commit();
  return b;
}

std::string in_words(double ms) { return fixed(ms, ms < 1 ? 3 : ms < 100 ? 1 : 0); }

void row(const fs::path& folder, int readings, double budget_s) {
  const std::string path = (folder / (std::to_string(readings) + ".fitwright")).string();
  Bench b;
  {
    Record record = must(open_record(path));
    b = fill(record, readings);
  }
  const auto median = [&](auto&& work) { return in_words(time_of(work, budget_s).median_ms); };
  const auto opens = [&](bool read_only) {
    OpenOptions options;
    options.read_only = read_only;
    return median([&] { must(open_record(path, options)); });
  };
  const std::string first = in_words(time_of([&] { must(open_record(path)); }, 0).median_ms);
  const std::string open = opens(false), open_to_read = opens(true);
  Record record = must(open_record(path));
  const std::string copy_read = median([&] { must(all_of<StoredReading>(record, "copy", b.copy)); });
  const std::string history_read = median([&] { must(history<StoredReading>(record, b.reading.thing)); });
  const std::string one_read = median([&] { must(one<StoredReading>(record, b.reading.thing)); });
  const std::string all_read = median([&] { must(all<StoredReading>(record)); });
  const std::string check = median([&] {
    if (!check_record(record).empty()) throw std::runtime_error("the bench's record is not sound");
  });
  const std::string backup = median([&] { must(back_up(record, path + ".copy", true)); });
  int k = 0;
  const std::string save = median([&] { must(add(record, reading_of(b.copy, k++))); });
  const double megabytes = static_cast<double>(fs::file_size(path)) / 1e6;
  std::cout << "| " << readings << " | " << fixed(megabytes, 1) << " | " << first << " | " << open << " | "
            << open_to_read << " | " << save << " | " << one_read << " | " << history_read << " | " << copy_read
            << " | " << all_read << " | " << backup << " | " << check << " |" << std::endl;
}

}  // namespace

void record_rows(double budget_s) {
  std::cout << "\nThe record, ms (its folder on the disk for temporary files; saving waits for that disk):\n\n"
               "| readings | MB | open, with the day's backup | open | open to read | save one reading | one reading | "
               "its history | a copy's readings | all readings | backup | deep check |\n"
               "| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n";
  const Folder folder;
  for (const int readings : {10, 1000, 100000}) row(folder.path, readings, budget_s / 2);
}

}  // namespace fitwright::bench
