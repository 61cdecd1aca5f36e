// The page that the study writes.

#include "accuracy/report.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "accuracy/parallel.hpp"
#include "accuracy/report_tables.hpp"

using namespace fitwright::accuracy;

TEST_CASE("the page is the same whatever the number of threads") {
  StudyOptions options;
  options.runs = 3;
  options.only = "list, 3 alike, fixed truth";
  options.threads = 1;
  const std::string once = report(run_study(options));
  options.threads = 3;
  CHECK(report(run_study(options)) == once);
  CHECK(once.find("scale_x") != std::string::npos);
  CHECK(once.find("| Filip | extended | 11.3 |") != std::string::npos);
}

TEST_CASE("scenarios have seeds of their own and cover what is asked") {
  const auto all = coverage_scenarios();
  CHECK(all.size() == 104);
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all[i].first_seed - all[i - 1].first_seed == 10000);
  for (const Scenario& s : all) CHECK((s.truths != Truths::drawn_scatter || s.lay.copies <= 2));
}

TEST_CASE("figures carry their verdict") {
  CHECK(marked("95.1", Verdict::met) == "95.1");
  CHECK(marked("97.6", Verdict::within_margin) == "97.6~");
  CHECK(marked("80.0", Verdict::missed) == "**80.0!**");
  CHECK(marked("99.9", Verdict::not_judged) == "(99.9)");
}

TEST_CASE("shared work keeps its order and passes failures on") {
  const auto squares = in_parallel(50, 3, [](int i) { return i * i; });
  for (int i = 0; i < 50; ++i) CHECK(squares[static_cast<std::size_t>(i)] == i * i);
  CHECK_THROWS_AS(in_parallel(50, 3,
                              [](int i) {
                                if (i == 7) throw std::runtime_error("seven");
                                return i;
                              }),
                  std::runtime_error);
}

TEST_CASE("a fault that single scenarios leave within chance shows in all of them together") {
  std::vector<Coverage> coverage;
  for (const double rate : {0.0, 0.02})
    for (const bool steel : {true, false}) {
      Coverage c;
      c.scenario = {Places::list, {"3 alike", 3, {}}, Truths::drawn, steel, rate, 1};
      Tally t;
      t.parameter = "scale_z";
      t.runs = 1000;
      t.coverage = 0.98;
      t.square = rate > 0 ? 1.44 : 1.0;
      t.best_square = 1;
      t.rmse_ratio = rate > 0 ? 1.2 : 1.0;
      t.rmse_ratio_u = 0.1;
      CHECK(judge_coverage(c.scenario, t) == Verdict::within_margin);
      CHECK(judge_rmse(c.scenario, t) == (rate > 0 ? Verdict::within_margin : Verdict::met));
      c.tallies.push_back(t);
      coverage.push_back(c);
    }
  const auto all = pooled(coverage);
  REQUIRE(all.size() == 1);
  CHECK(all[0].runs == 4000);
  CHECK(all[0].coverage == Approx(0.98));
  CHECK(all[0].rmse_clean == Approx(1.0));
  CHECK(all[0].rmse_slips == Approx(1.2));
  CHECK(judge_pooled_coverage(all[0]) == Verdict::missed);
  CHECK(judge_pooled_rmse(all[0].rmse_slips) == Verdict::missed);
}
