// Files: what is saved reads back, and what was never saved is found again.

#include "bench/keeping.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <random>

#include "base/file.hpp"
#include "bench/latest_job.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "practice/simulate.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone afterwards.
struct Folder {
  Folder() : path(fs::temp_directory_path() / ("fitwright-keeping-" + std::to_string(std::random_device{}()))) {
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
  std::string file(const std::string& name) const { return (path / name).string(); }
  fs::path path;
};

}  // namespace

TEST_CASE("saved readings read back to the same readings") {
  const Folder folder;
  const Document demo = demo_document();
  const std::string path = folder.file("heron.csv");
  REQUIRE(save_readings(*demo.content().readings, path));
  const auto opened = open_document(path);
  REQUIRE(opened);
  CHECK(to_csv(*opened->content().readings) == to_csv(*demo.content().readings));
  CHECK(opened->path() == path);
  CHECK_FALSE(opened->dirty());
}

TEST_CASE("a place not read yet is not written") {
  const Folder folder;
  const Content demo = demo_document().content();
  const auto more = one_more_here(demo.measuring);
  REQUIRE(more);
  const Content asked = with_measuring(demo, more->next);
  REQUIRE(save_readings(*asked.readings, folder.file("a.csv")));
  const auto opened = open_document(folder.file("a.csv"));
  REQUIRE(opened);
  CHECK(opened->content().readings->rows.size() == demo.readings->rows.size());
}

TEST_CASE("a template opens with its places due") {
  const Folder folder;
  REQUIRE(write_whole(folder.file("t.csv"),
                      "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\nX10,outer,x,10,1,1,\n"
                      "X10,outer,x,10,1,2,10.05\nX40,outer,x,40,1,1,\n"));
  const auto opened = open_document(folder.file("t.csv"));
  REQUIRE(opened);
  const Content& content = opened->content();
  REQUIRE(content.readings->rows.size() == 1);
  CHECK(content.readings->rows[0].reading_mm == 10.05);
  std::vector<ReadingKey> due;
  for (const DueLine& line : due_lines(content.measuring))
    if (line.state == DueState::due) due.push_back(line.key);
  CHECK(due.size() == 3);  // each place is read twice
  CHECK(std::count(due.begin(), due.end(), ReadingKey{1, "X10", 1}) == 1);
  CHECK(std::count(due.begin(), due.end(), ReadingKey{1, "X40", 2}) == 1);
}

TEST_CASE("a file without any reading or place opens empty") {
  const Folder folder;
  REQUIRE(write_whole(folder.file("e.csv"), "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"));
  const auto opened = open_document(folder.file("e.csv"));
  if (!opened) return;  // told as a file without readings: as good
  CHECK_FALSE(opened->content().measuring.plan);
}

TEST_CASE("a file that cannot be read or is wrong gives its problems") {
  const Folder folder;
  const auto missing = open_document(folder.file("none.csv"));
  REQUIRE_FALSE(missing);
  CHECK(missing.problems().front().code == Code::io);
  REQUIRE(write_whole(folder.file("bad.csv"), "feature_id,kind\nX40,outer\n"));
  const auto bad = open_document(folder.file("bad.csv"));
  REQUIRE_FALSE(bad);
  CHECK(bad.problems().front().code == Code::bad_input);
  CHECK_FALSE(save_readings(*demo_document().content().readings, folder.file("no/such/folder.csv")));
}

TEST_CASE("what an ended run left unsaved is found, unless it is what the file holds") {
  const Folder folder;
  const Document demo = demo_document();
  const std::string side = side_file(folder.path.string(), {});
  CHECK_FALSE(left_behind(side, *demo.content().readings));
  const ReadingKey key = key_of(demo.content().readings->rows[5]);
  const Content edited =
      with_measuring(demo.content(), amend_reading(demo.content().measuring, key, "10.99").value().next);
  REQUIRE(write_whole(side, to_csv(*edited.readings)));
  const auto left = left_behind(side, *demo.content().readings);
  REQUIRE(left);
  CHECK(left->rows[5].reading_mm == 10.99);
  CHECK_FALSE(left_behind(side, *edited.readings));
  forget(side);
  CHECK_FALSE(left_behind(side, *demo.content().readings));
  CHECK(side_file("f", "a.csv") != side_file("f", "b.csv"));
}

TEST_CASE("the newest job runs last, and an outdated one that waits is dropped") {
  std::atomic<int> last{0};
  std::atomic<int> runs{0};
  {
    LatestJob worker;
    for (int i = 1; i <= 200; ++i)
      worker.start([&, i] {
        last = i;
        ++runs;
      });
    worker.wait_until_idle();
    CHECK(last == 200);
    CHECK(runs <= 200);
  }
  LatestJob idle;
  idle.wait_until_idle();
}

TEST_CASE("the demo's readings are those of its truth file") {
  const std::string folder = std::string(FW_SOURCE) + "/gui/demo/";
  const auto json = read_whole(folder + "heron-slate-14.truth.json");
  REQUIRE(json);
  const auto truth = parse_truth(*json, "heron-slate-14.truth.json");
  REQUIRE(truth);
  CHECK(simulate_csv(*truth, 55) == read_whole(folder + "heron-slate-14.csv").value());
}
