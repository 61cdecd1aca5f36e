// What the window shows: the same numbers as the library's, as strings, and a view for every content.

#include <catch2/catch.hpp>
#include <random>

#include "base/number.hpp"
#include "bench/bench_view.hpp"
#include "bench/keeping.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/shown.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

BenchView view_of(const Content& content) { return bench_view(content, analyse(content, 7)); }

Content content_of(const std::string& text) {
  Content content;
  content.readings = std::make_shared<const ReadingSet>(parse_readings(text, "test").value());
  return content;
}

}  // namespace

TEST_CASE("numbers are shown with a true minus sign and kept with their unit") {
  CHECK(shown(-0.123, 2) == "\u22120.12");
  CHECK(shown_signed(0.004, 2) == "0.00");
  CHECK(shown_signed(-0.004, 2) == "0.00");
  CHECK(shown_signed(0.126, 2) == "+0.13");
  CHECK(typeset("set to -0.08 (\u00b1 0.02 mm) on 100 mm, well-known") ==
        "set to \u22120.08 (\u00b1\u00a00.02\u00a0mm) on 100\u00a0mm, well-known");
  CHECK(typeset("X -3 % of M92-1") == "X \u22123\u00a0% of M92-1");
  CHECK(ordinal(1) == "1st");
  CHECK(ordinal(12) == "12th");
  CHECK(ordinal(23) == "23rd");
}

TEST_CASE("the demo opens, is worked out, and marks its slips") {
  const Document demo = demo_document();
  const BenchView view = view_of(demo.content());
  CHECK(view.revision == 7);
  CHECK_FALSE(view.findings.empty());
  CHECK(view.no_findings.empty());
  CHECK(view.estimates.rows.size() > 5);
  CHECK(view.lengths.empty.empty());
  CHECK(view.rounds.empty.empty());
  CHECK_FALSE(view.marks.empty());
  for (const auto& [row, mark] : view.marks) {
    CHECK(row < demo.content().readings->rows.size());
    CHECK_FALSE(mark.remark.empty());
    CHECK_FALSE(mark.sentence.empty());
  }
}

TEST_CASE("the table of estimates says what the estimates say") {
  const Document demo = demo_document();
  const Analysis analysis = analyse(demo.content(), 1);
  const EstimatesView view = estimates_view(demo.content(), analysis);
  const Parameter* growth = analysis.estimates->find(name::edge_growth);
  REQUIRE(growth);
  const auto row =
      std::find_if(view.rows.begin(), view.rows.end(), [](const EstimateRow& r) { return r.name == "Edge growth"; });
  REQUIRE(row != view.rows.end());
  CHECK(row->value == shown_signed(growth->value, decimals_for(growth->u)));
  CHECK(row->u == shown(growth->u, decimals_for(growth->u)));
  REQUIRE(row->on_part);
  CHECK(row->on_part->value_mm == Approx(2 * growth->value));  // an outside length has two edges
  CHECK(row->on_part->lower_mm < row->on_part->value_mm);
  CHECK(view.bar_reach_mm >= row->on_part->upper_mm);
}

TEST_CASE("every policy is offered, and the chosen one is shown") {
  Content content = demo_document().content();
  for (const Policy policy : offered_policies()) {
    content.wishes.policy = policy;
    const CorrectionsView view = view_of(content).corrections;
    CHECK(view.choices.size() == 4);
    CHECK(view.choices[view.chosen].policy == policy);
    CHECK_FALSE(view.headline.empty());
    if (policy == Policy::machine) CHECK_FALSE(view.problems.empty());  // nothing measured on the machine itself
    for (const ChangeRow& row : view.rows) CHECK(row.effects.size() == view.lengths.size());
  }
}

TEST_CASE("a plot's marks are the places, its line goes through the fitted values, its band holds the line") {
  const Document demo = demo_document();
  const Analysis analysis = analyse(demo.content(), 1);
  const PlotScene scene = bench_view(demo.content(), analysis).lengths;
  std::size_t lengths = 0;
  for (const Cell& cell : analysis.estimates->cells)
    lengths += cell.kind == Kind::outer || cell.kind == Kind::inner || cell.kind == Kind::pitch;
  const auto crosses =
      std::count_if(scene.marks.begin(), scene.marks.end(), [](const PlotMark& m) { return m.shape == Shape::cross; });
  CHECK(scene.marks.size() == lengths + static_cast<std::size_t>(crosses));
  REQUIRE_FALSE(scene.bands.empty());
  for (const PlotBand& band : scene.bands) {
    REQUIRE(band.upper.size() == band.lower.size());
    for (std::size_t i = 0; i < band.upper.size(); ++i) CHECK(band.upper[i].y > band.lower[i].y);
  }
  for (const PlotMark& mark : scene.marks) {
    CHECK_FALSE(mark.rows.empty());
    CHECK_FALSE(mark.said.empty());
  }
  // At a drawn length, the X line is where the model says the reading of an outer will be.
  const auto cell = std::find_if(analysis.estimates->cells.begin(), analysis.estimates->cells.end(), [](const Cell& c) {
    return c.kind == Kind::outer && c.axis == Axis::x && c.feature.nominal_mm == 40;
  });
  REQUIRE(cell != analysis.estimates->cells.end());
  const auto line = std::find_if(scene.lines.begin(), scene.lines.end(),
                                 [](const PlotLine& l) { return l.ink == Ink::x && !l.dashed; });
  REQUIRE(line != scene.lines.end());
  const PlotPoint a = line->points.front();
  const PlotPoint b = line->points.back();
  CHECK(a.y + (b.y - a.y) * (40 - a.x) / (b.x - a.x) == Approx(cell->fitted_mm - 40).margin(1e-9));
}

TEST_CASE("a reading set aside is marked in its row, and taking the proposal clears it") {
  Content content = demo_document().content();
  BenchView view = view_of(content);
  const auto slip = std::find_if(view.marks.begin(), view.marks.end(),
                                 [](const auto& mark) { return mark.second.proposal_mm.has_value(); });
  REQUIRE(slip != view.marks.end());
  const std::size_t row = slip->first;
  const ReadingKey key = key_of(content.readings->rows[row]);
  const auto step = amend_reading(content.measuring, key, shortest(*slip->second.proposal_mm));
  REQUIRE(step);
  content = with_measuring(content, step->next);
  view = view_of(content);
  CHECK(view.marks.count(row) == 0);
}

TEST_CASE("empty and hopeless contents say what would help") {
  const BenchView nothing = view_of(Content{});
  CHECK(nothing.findings.empty());
  CHECK_FALSE(nothing.no_findings.empty());
  CHECK_FALSE(nothing.lengths.empty.empty());
  CHECK_FALSE(nothing.corrections.problems.empty());
}

TEST_CASE("a view is made of any readings, however few") {
  // Rows of the demo taken at random: whatever they can tell, showing it never fails.
  const Content demo = demo_document().content();
  std::mt19937 random(4711);
  for (int round = 0; round < 40; ++round) {
    ReadingSet some{"some", {}};
    const int wanted = std::uniform_int_distribution<int>(1, 25)(random);
    for (int i = 0; i < wanted; ++i)
      some.rows.push_back(
          demo.readings->rows[std::uniform_int_distribution<std::size_t>(0, demo.readings->rows.size() - 1)(random)]);
    Content content;
    content.readings = std::make_shared<const ReadingSet>(some);
    INFO("round " << round);
    const BenchView view = view_of(content);
    CHECK((!view.findings.empty() || !view.no_findings.empty()));
    for (const PlotScene* scene : {&view.lengths, &view.rounds}) CHECK_FALSE(scene->said.empty());
  }
}

TEST_CASE("one length an axis: a line is drawn without a band, for scale and edge growth stay unseparated") {
  const BenchView view =
      view_of(content_of("feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"
                         "X20,outer,x,20,1,1,20.16\nX20,outer,x,20,1,2,20.15\n"
                         "Y20,outer,y,20,1,1,20.12\nY20,outer,y,20,1,2,20.13\n"));
  CHECK(view.lengths.marks.size() == 2);
  CHECK(view.lengths.bands.empty());
}
