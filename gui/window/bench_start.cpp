#include "window/bench_start.hpp"

#include <wx/config.h>

#include <array>
#include <fstream>
#include <string_view>

#include "record/store.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

/// The one that was there last, else the newest.
template <class T>
const record::Kept<T>* last_used(const std::vector<record::Kept<T>>& all, const char* key) {
  const std::string last = utf8(wxConfigBase::Get()->Read(key, wxString()));
  for (const record::Kept<T>& kept : all)
    if (kept.thing.text == last) return &kept;
  return all.empty() ? nullptr : &all.back();
}

}  // namespace

Bench bench_on(record::Opened opened, const std::string& setup) {
  std::vector<std::string> notes;
  for (const Problem& problem : opened.problems) notes.push_back(problem.text());
  for (const std::string& note : opened.record.notes()) notes.push_back(note);
  Bench bench(std::move(opened.record), std::move(notes));
  if (const auto calipers = record::all<record::Caliper>(bench.record()))
    if (const auto* caliper = last_used(*calipers, "/bench/caliper")) (void)bench.choose_caliper(caliper->thing);
  if (const auto setups = record::all<record::Setup>(bench.record())) {
    const auto* chosen = last_used(*setups, "/bench/setup");
    for (const auto& kept : *setups)
      if (!setup.empty() && kept.value.name == setup) chosen = &kept;
    if (chosen) (void)bench.put_setup(chosen->thing);  // what is wrong with it is told where it is chosen
  }
  return bench;
}

Result<Bench> bench_on_file(const std::string& path) {
  record::OpenOptions options;
  options.must_exist = true;
  auto record = record::open_record(path, options);
  if (!record) return record.problems();
  return bench_on({std::move(*record), {}});
}

bool is_record_file(const std::string& path) {
  constexpr std::string_view magic("SQLite format 3\0", 16);  // https://www.sqlite.org/fileformat.html, 1.3
  std::array<char, magic.size()> first{};
  std::ifstream file(path, std::ios::binary);
  file.read(first.data(), static_cast<std::streamsize>(first.size()));
  return file && std::string_view(first.data(), first.size()) == magic;
}

}  // namespace fitwright
