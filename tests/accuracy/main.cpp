// fw_accuracy: how often intervals hold the truth, what corrections leave over, which slips are found.

#include <CLI/CLI.hpp>
#include <iostream>

#include "accuracy/promise.hpp"
#include "accuracy/report.hpp"
#include "base/file.hpp"

int main(int argc, char** argv) {
  using namespace fitwright;
  accuracy::StudyOptions options;
  std::string out = "docs/accuracy.md";
  bool brief = false;
  CLI::App app{"Runs the estimator against the practice printer and writes how accurate it is."};
  app.add_option("--runs", options.runs, "readings sets of each scenario")
      ->check(CLI::Range(2, 10000))
      ->capture_default_str();
  app.add_option("--threads", options.threads, "threads")->check(CLI::Range(1, 64))->capture_default_str();
  app.add_option("--only", options.only, "coverage scenarios whose text holds this, and nothing else");
  app.add_option("--out", out, "file to write; - for standard output")->capture_default_str();
  app.add_flag("--short", brief, "a tenth of the runs");
  int fits = 0;
  app.add_option("--fits", fits, "only whether promised fits come out: users a row, on standard output");
  CLI11_PARSE(app, argc, argv);
  if (fits > 0) {
    std::cout << accuracy::promise_tables(fits, options.threads);
    return 0;
  }
  if (brief)
    for (int* n : {&options.runs, &options.loop_runs, &options.slip_runs, &options.fit_users})
      *n = std::max(2, *n / 10);
  options.progress = [](const std::string& what) { std::cerr << "done: " << what << std::endl; };

  const std::string page = accuracy::report(accuracy::run_study(options));
  if (out == "-") {
    std::cout << page;
    return 0;
  }
  const auto written = write_whole(out, page);
  if (!written) {
    std::cerr << written.problems()[0].text() << '\n';
    return static_cast<int>(written.problems()[0].code);
  }
  return 0;
}
