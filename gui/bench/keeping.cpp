#include "bench/keeping.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "base/file.hpp"
#include "base/words.hpp"
#include "bench/demo.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "reading/csv.hpp"
#include "record/exchange.hpp"

namespace fitwright {
namespace {

namespace fs = std::filesystem;

/// FNV-1a, 64 bit (Fowler, Noll, Vo; RFC-track draft "The FNV Non-Cryptographic Hash Algorithm"): a short name a path.
std::uint64_t fnv1a(const std::string& text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

Result<Document> document_of(ReadingSet readings, const std::vector<Reading>& unread, const std::string& path) {
  auto measuring = evening_of_file(readings, unread);
  if (!measuring) return measuring.problems();
  Content content;
  content.readings = std::make_shared<const ReadingSet>(ReadingSet{readings.source, {}});
  return Document(with_measuring(std::move(content), *std::move(measuring)), path);
}

}  // namespace

Result<Document> open_document(const std::string& path) {
  auto bytes = read_whole(path);
  if (!bytes) return bytes.problems();
  auto parsed = parse_partly_read(*bytes, path);
  if (!parsed) return parsed.problems();
  return document_of(std::move(parsed->read), parsed->unread, path);
}

Document demo_document() {
  auto readings = parse_readings(std::string(demo_csv()), "Demo: Heron, PLA slate, batch 14");
  // A defect in our own file is a defect of the program: throws.
  return document_of(std::move(readings).value(), {}, {}).value();
}

Result<Measuring> evening_of_file(const ReadingSet& read, const std::vector<Reading>& unread) {
  ReadingSet named = read;
  named.rows.insert(named.rows.end(), unread.begin(), unread.end());
  if (named.rows.empty()) return Measuring{};
  std::stable_sort(named.rows.begin(), named.rows.end(),
                   [](const Reading& a, const Reading& b) { return a.row < b.row; });
  auto plan = plan_from_readings(named);
  if (!plan) return plan.problems();
  auto resumed = with_readings(std::make_shared<const MeasurePlan>(*std::move(plan)), read);
  if (!resumed) return resumed.problems();
  return std::move(resumed->measuring);
}

Bench demo_bench() {
  Bench bench(record::record_in_memory());
  bench.mark_demo();
  if (!record::import_json_text(bench.record(), demo_record_json(), "the demo"))
    throw std::logic_error("the demo's record cannot be taken in");
  const auto setups = record::all<record::Setup>(bench.record());
  const auto calipers = record::all<record::Caliper>(bench.record());
  if (!setups || setups->empty() || !calipers || calipers->empty())
    throw std::logic_error("the demo's record holds no setup or no caliper");
  if (!bench.choose_caliper(calipers->front().thing) || !bench.put_setup(setups->front().thing))
    throw std::logic_error("the demo's setup cannot be put on the bench");
  return bench;
}

Result<Done> save_readings(const ReadingSet& readings, const std::string& path) {
  return write_whole(path, to_csv(only_read(readings)));
}

Result<std::string> data_folder() {
  fs::path base;
  if (const char* xdg = std::getenv("XDG_DATA_HOME"); xdg && *xdg == '/') {
    base = xdg;
  } else if (const char* home = std::getenv("HOME"); home && *home) {
    base = fs::path(home) / ".local" / "share";
  } else {
    return Problem{
        Code::io, {}, tr("there is no home folder to keep unsaved readings in"), tr("set HOME or XDG_DATA_HOME")};
  }
  const fs::path folder = base / "fitwright";
  std::error_code error;
  fs::create_directories(folder, error);
  if (error)
    return Problem{Code::io,
                   {folder.string(), 0, 0},
                   said("the folder cannot be made ({})", error.message()),
                   tr("make it writable, or set XDG_DATA_HOME to one that is")};
  return folder.string();
}

std::string side_file(const std::string& folder, const std::string& path) {
  std::error_code error;
  const fs::path whole = path.empty() ? fs::path() : fs::absolute(path, error);
  return folder + "/unsaved-" + (path.empty() ? "new" : std::to_string(fnv1a(whole.string()))) + ".csv";
}

std::optional<ReadingSet> left_behind(const std::string& side_file, const ReadingSet& opened) {
  std::error_code error;
  if (!fs::exists(side_file, error)) return std::nullopt;
  const auto bytes = read_whole(side_file);
  if (!bytes || *bytes == to_csv(only_read(opened))) return std::nullopt;
  auto readings = parse_readings(*bytes, opened.source);
  if (!readings) return std::nullopt;
  return *std::move(readings);
}

void forget(const std::string& side_file) {
  std::error_code error;
  fs::remove(side_file, error);
}

}  // namespace fitwright
