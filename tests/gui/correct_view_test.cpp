// What Correct shows: the policies side by side with what they do to lengths and what stays wrong, and proofs.

#include <catch2/catch.hpp>
#include <cmath>

#include "bench/bench_view.hpp"
#include "bench/correcting.hpp"
#include "bench/keeping.hpp"
#include "bench/shown.hpp"
#include "correct/total_effect.hpp"
#include "report/correct_report.hpp"

using namespace fitwright;

namespace {

Content demo() { return demo_document().content(); }

}  // namespace

TEST_CASE("the table of policies says what each does to 20, 100 and 200 mm, and what stays wrong with its interval") {
  const Content content = demo();
  const Analysis a = analyse(content, 1);
  const CorrectionsView view = corrections_view(content, a);
  const PolicyTable& table = view.compared;
  REQUIRE(table.columns.size() == a.corrections.size());
  REQUIRE_FALSE(table.effects.empty());
  for (const EffectRow& row : table.effects) {
    REQUIRE(row.values.size() == table.columns.size());
    for (const double mm : row.mm) CHECK(std::abs(mm) <= table.effect_reach_mm);
  }
  for (std::size_t k = 0; k < a.corrections.size(); ++k) {
    const auto& outcome = a.corrections[k].outcome;
    if (!outcome) {
      CHECK(table.effects[0].values[k] == "\u2013");
      continue;
    }
    CHECK(table.effects[0].name.starts_with("20 mm"));
    CHECK(table.effects[0].values[k] == shown_signed(total_effect_mm(*outcome, 'x', 20).value(), 2));
    const auto left = outcome->remains_mm.find("x100");
    REQUIRE(left != outcome->remains_mm.end());
    CHECK(table.remains[0].values[k] == typeset(shown_signed(left->second.value, 2) + " \u00b1 " +
                                                shown(left->second.upper - left->second.value, 2)));
  }
}

TEST_CASE("cautions about steps stand at their first row, with the machine's line to copy") {
  Content content = demo();
  content.wishes.policy = Policy::steps;
  const Analysis a = analyse(content, 1);
  const CorrectionsView view = corrections_view(content, a);
  const auto steps = std::find_if(view.rows.begin(), view.rows.end(),
                                  [](const ChangeRow& row) { return row.knob.find("teps") != std::string::npos; });
  REQUIRE(steps != view.rows.end());
  REQUIRE_FALSE(steps->cautions.empty());
  CHECK(steps->cautions[0].find("power switch") != std::string::npos);
  CHECK(steps->copied.starts_with("M92 X"));
  // None is told twice, and none is lost.
  std::size_t told = view.cautions.size();
  for (const ChangeRow& row : view.rows) told += row.cautions.size();
  for (const PolicyOutcome& o : a.corrections)
    if (o.policy == Policy::steps) CHECK(told == o.outcome->cautions.size());
}

TEST_CASE("a drive that is known is held against new steps, a travel serves the machine policy") {
  Content content = demo();
  content.wishes.policy = Policy::machine;
  CHECK_FALSE(corrections_view(content, analyse(content, 1)).problems.empty());
  content.travel = {{'x', {150, 150.12, std::nullopt}}, {'y', {150, 149.95, std::nullopt}}};
  const CorrectionsView measured = corrections_view(content, analyse(content, 2));
  CHECK(measured.problems.empty());
  CHECK_FALSE(measured.rows.empty());
  content.wishes.policy = Policy::steps;
  Drive wrong;  // gives 100 steps per mm: new steps near 80 are far from it
  wrong.belt_pitch_mm = 2;
  wrong.pulley_teeth = 16;
  content.drive = {{'x', wrong}};
  const CorrectionsView held = corrections_view(content, analyse(content, 3));
  bool told = false;
  for (const std::string& caution : held.cautions)
    told = told || caution.find("what motor, belt and pulley give") != std::string::npos;
  CHECK(told);
}

TEST_CASE("a proof shows foretold and measured for every length, and says how many are within") {
  record::Proof proof;
  for (const char* place : {"slot_x20", "x100", "y100"}) {
    record::ProofPlace p;
    p.place = place;
    p.foretold_mm = 0.01;
    p.without_mm = 0.3;
    p.measured_mm = std::string(place) == "y100" ? 0.2 : 0.02;
    p.half_mm = 0.05;
    p.inside = std::abs(p.measured_mm - p.foretold_mm) <= p.half_mm;
    proof.places.push_back(p);
  }
  const PlotScene scene = proof_plot(proof);
  REQUIRE(scene.x.ticks.size() == 3);
  CHECK(scene.x.ticks[0].text == "X 100");  // outside lengths first
  CHECK(scene.x.ticks[2].text == "slot X");
  REQUIRE(scene.bands.size() == 3);
  CHECK(scene.bands[0].upper[0].y == Approx(0.06));
  CHECK(scene.said == "Foretold against measured: 2 of 3 lengths are within what was foretold.");
  const auto outside =
      std::find_if(scene.marks.begin(), scene.marks.end(), [](const PlotMark& m) { return m.shape == Shape::cross; });
  REQUIRE(outside != scene.marks.end());
  CHECK(outside->at.y == Approx(0.2));
  CHECK_FALSE(proof_plot(record::Proof{}).empty.empty());
}
