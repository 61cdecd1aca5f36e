// A program killed in the middle of its writes (kill -9, at random moments): the record opens, is sound, holds every
// reading that was confirmed, and none half.

#include <catch2/catch.hpp>
#include <chrono>
#include <iostream>
#include <map>
#include <random>
#include <sstream>
#include <thread>

#include "calib/record/scratch.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;

namespace {

constexpr int kills = 200;
constexpr int kills_a_record = 20;
constexpr double least_share_inside = 0.3;

struct Tally {
  int inside = 0, opening = 0;                  ///< killed inside a transaction; before the record was open
  std::map<std::string, int> begun, confirmed;  ///< readings a batch
};

/// Lets a writer run for a random time, kills it, and takes down what it said.
void one_kill(const std::string& path, const Id& copy, unsigned seed, Tally& tally) {
  std::mt19937_64 random(seed);
  const bool while_opening = seed % 8 == 0;
  const auto microseconds = random() % (while_opening ? 8'000 : 15'000);
  const std::string tag = std::to_string(seed);
  scratch::Writer writer({"stream", path, copy.text, tag});
  if (!while_opening) REQUIRE(writer.line() == "R");
  std::this_thread::sleep_for(std::chrono::microseconds(microseconds));
  writer.kill();
  std::string last;
  for (const std::string& line : writer.rest()) {
    std::istringstream words(line);
    std::string batch;
    int count = 0;
    words >> last >> batch >> count;
    REQUIRE(last != "E");
    const std::string name = tag + '.' + batch;
    if (last == "B") tally.begun[name] = count;
    if (last == "C") tally.confirmed[name] = tally.begun.at(name);
  }
  writer.wait();
  tally.inside += last == "B" ? 1 : 0;
  tally.opening += while_opening && last.empty() ? 1 : 0;
}

/// Readings and amendments by batch.
std::map<std::string, std::pair<int, int>> batches(Record& record) {
  std::map<std::string, std::pair<int, int>> found;
  record.database().each(
      "SELECT note, count(*) FILTER (WHERE amends IS NULL), count(amends) FROM reading GROUP BY note",
      [&](Statement& row) {
        found[row.text(0)] = {static_cast<int>(row.integer(1)), static_cast<int>(row.integer(2))};
      });
  return found;
}

}  // namespace

TEST_CASE("two hundred kills in the middle of writes: nothing confirmed is lost, nothing is half there") {
  Tally all;
  std::size_t confirmed = 0, unconfirmed_but_whole = 0, cut_off = 0;
  for (int record_number = 0; record_number < kills / kills_a_record; ++record_number) {
    const scratch::Folder folder(record_number % 2 == 1);
    const std::string path = folder / "record.fitwright";
    Id copy;
    {
      Record record = scratch::opened(path);
      copy = scratch::fill(record, 0).copy;
    }
    all.begun.clear();
    all.confirmed.clear();
    for (int k = 0; k < kills_a_record; ++k) {
      const auto seed = static_cast<unsigned>(record_number * kills_a_record + k + 1);
      INFO("seed " << seed);
      one_kill(path, copy, seed, all);
      Record record = scratch::opened(path);
      // A kill between the two parts of a journal's frame is seen, and told as a write that nobody was told was kept.
      for (const std::string& note : record.notes()) CHECK(note.find("was cut off") != std::string::npos);
      cut_off += record.notes().size();
      CHECK(record.database().word("PRAGMA integrity_check") == "ok");
      const auto found = batches(record);
      for (const auto& [batch, count] : all.confirmed) {
        INFO("batch " << batch);
        REQUIRE(found.contains(batch));
      }
      for (const auto& [batch, counts] : found) {
        INFO("batch " << batch);
        REQUIRE(all.begun.contains(batch));
        CHECK(counts == std::pair(all.begun.at(batch), 1));
      }
      if (k + 1 < kills_a_record) continue;
      confirmed += all.confirmed.size();
      unconfirmed_but_whole += found.size() - all.confirmed.size();
    }
  }
  std::cout << kills << " kills (seeds 1 to " << kills << "), " << all.inside << " inside a transaction, "
            << all.opening << " before the record was open; " << confirmed << " batches confirmed and there, "
            << unconfirmed_but_whole << " there though not yet confirmed; " << cut_off << " told as cut off\n";
  CHECK(all.inside >= least_share_inside * kills);
}
