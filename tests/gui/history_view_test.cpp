// History as a value: everything told once, by its date, with the state of each date, cost and spools.

#include "bench/history_view.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "base/file.hpp"
#include "bench/bench.hpp"
#include "bench/bench_view.hpp"
#include "calib/record/sample_bench.hpp"
#include "calib/record/sample_prints.hpp"
#include "record/exchange.hpp"
#include "record/reading_set.hpp"
#include "record/spreadsheet.hpp"

using namespace sample;

namespace {

std::size_t count(const HistoryView& view, const std::string& what) {
  return static_cast<std::size_t>(
      std::count_if(view.rows.begin(), view.rows.end(), [&](const HistoryRow& r) { return r.what == what; }));
}

const HistoryRow& row(const HistoryView& view, const std::string& what) {
  for (const HistoryRow& r : view.rows)
    if (r.what == what) return r;
  FAIL("no row " << what);
  return view.rows.front();
}

std::string all_of_them(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// A setup with a print that was read, and a correction that is in force.
struct Lived {
  Record record = record_in_memory();
  SampleBench bench{record};
  Id setup = bench.new_setup(record, "PLA slate on Heron");
  Id correction;

  Lived() {
    KeepOptions into;
    into.setup = setup;
    got(keep_readings(record, simulate(frame_truth(1), 1), into));
    State after = now(record, setup);
    after.size_factor = 1.004;
    correction = proposed(record, setup, now(record, setup), after);
    got(apply(record, correction, {.reason = "first evening"}));
    got(add(record, Remark{setup, "the window was open", {}, {}}));
  }
};

struct Folder {
  Folder()
      : path(std::filesystem::temp_directory_path() / ("fitwright-history-" + std::to_string(std::random_device{}()))) {
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }
  std::filesystem::path path;
};

}  // namespace

TEST_CASE("without a setup the history says what will be there and which step fills it") {
  Record record = record_in_memory();
  const HistoryView view = got(history_view(record, {}));
  CHECK(view.rows.empty());
  CHECK(view.empty.find("Ctrl+1") != std::string::npos);
}

TEST_CASE("everything that happened is told once, newest first") {
  Lived lived;
  const HistoryView view = got(history_view(lived.record, lived.setup));
  CHECK(view.empty.empty());
  CHECK(std::is_sorted(view.rows.begin(), view.rows.end(),
                       [](const HistoryRow& a, const HistoryRow& b) { return a.at > b.at; }));
  for (const char* what :
       {"Setup begun", "Copy printed", "Measured", "Steel read", "Correction proposed", "Correction applied", "Remark"})
    CHECK(count(view, what) == 1);
  CHECK(view.rows.back().what == "Setup begun");
  const auto readings = simulate(frame_truth(1), 1).rows;
  const auto of_part =
      std::count_if(readings.begin(), readings.end(), [](const Reading& r) { return !is_steel(r.feature.kind); });
  CHECK(row(view, "Measured").detail.starts_with(std::to_string(of_part) + " readings"));
  CHECK(row(view, "Steel read")
            .detail.find("closed jaws " + std::to_string(static_cast<long>(readings.size()) - of_part)) !=
        std::string::npos);
  CHECK(row(view, "Correction applied").detail.find("1 \u2192 1.004") != std::string::npos);
  CHECK(row(view, "Correction applied").detail.starts_with("First evening; "));
  CHECK(row(view, "Remark").detail == "the window was open");
  CHECK(view.cost.starts_with("1"));

  // Another setup's life is not told here.
  const Id other = lived.bench.new_setup(lived.record, "PLA white on Heron");
  CHECK(got(history_view(lived.record, other)).rows.size() == 1);
}

TEST_CASE("the state is that of the date") {
  Lived lived;
  const HistoryView view = got(history_view(lived.record, lived.setup));
  const auto at = [&](const char* what) {
    return all_of_them(got(state_at(lived.record, lived.setup, row(view, what).at)));
  };
  CHECK(at("Setup begun").find("Size factor 1,") != std::string::npos);
  CHECK(at("Setup begun").find("no correction was in force") != std::string::npos);
  CHECK(at("Correction applied").find("Size factor 1.004,") != std::string::npos);
  CHECK(at("Correction applied").find("Set by 1 correction,") != std::string::npos);
}

TEST_CASE("two spools of one material are compared by what was read of them") {
  Lived lived;
  CHECK(all_of_them(got(spools_compared(lived.record, lived.setup))).find("no other spool") != std::string::npos);
  SampleBench white = lived.bench;
  white.spool = white.new_spool(lived.record, "PLA white");
  const Id other = white.new_setup(lived.record, "PLA white on Heron");
  CHECK(all_of_them(got(spools_compared(lived.record, other))).find("not measured yet") != std::string::npos);
  KeepOptions into;
  into.setup = other;
  Truth truth = frame_truth(1);
  got(keep_readings(lived.record, simulate(truth, 2), into));
  const std::string same = all_of_them(got(spools_compared(lived.record, lived.setup)));
  CHECK(same.find("PLA white shrinks by ") != std::string::npos);
  CHECK(same.find("No difference shows") != std::string::npos);
}

TEST_CASE("files of the history are those of the record, whole or told why not") {
  Lived lived;
  const Folder folder;
  const auto write = [&](HistoryFile what, const std::string& name) {
    return write_history(lived.record, lived.setup, what, (folder.path / name).string());
  };
  const auto bytes = [&](const std::string& name) { return got(read_whole((folder.path / name).string())); };
  CHECK(got(write(HistoryFile::record, "r.json")).front().find("r.json") != std::string::npos);
  CHECK(bytes("r.json") == got(export_json_text(lived.record)));
  got(write(HistoryFile::readings, "m.csv"));
  CHECK(bytes("m.csv") == got(readings_csv(lived.record, {.setup = lived.setup})).csv);
  got(write(HistoryFile::corrections, "c.csv"));
  CHECK(bytes("c.csv") == got(corrections_csv(lived.record, {.setup = lived.setup})).csv);
  CHECK_FALSE(write(HistoryFile::readings, "no/such/m.csv"));
}

TEST_CASE("what the record finds stands first among the findings of its severity") {
  Lived lived;
  const Id setup = lived.setup;
  Bench bench(std::move(lived.record));
  CHECK(bench.of_record().empty());
  REQUIRE(bench.put_setup(setup));
  REQUIRE_FALSE(bench.of_record().empty());
  const Content& content = bench.document().content();
  const Analysis analysis = analyse(content, bench.document().revision());
  REQUIRE_FALSE(analysis.findings.empty());
  const BenchView view = bench_view(content, analysis, bench.of_record());
  REQUIRE(view.findings.size() == analysis.findings.size() + bench.of_record().size());
  for (std::size_t i = 1; i < view.findings.size(); ++i)
    CHECK(view.findings[i - 1].severity <= view.findings[i].severity);
  for (const Finding& f : bench.of_record()) {
    const auto first = std::find_if(view.findings.begin(), view.findings.end(),
                                    [&](const FindingLine& line) { return line.severity == f.severity; });
    CHECK(std::any_of(bench.of_record().begin(), bench.of_record().end(),
                      [&](const Finding& own) { return own.id == first->id; }));
  }
  bench.put_loose(Document());
  CHECK(bench.of_record().empty());
}
