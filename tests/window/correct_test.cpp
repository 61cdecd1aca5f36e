// Correct in the window: every row can be copied and marked by keyboard; applied, told, withdrawn, and taken back.

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/number.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "record/state_in_force.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/clipboard.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

/// The window on the demo's record, with the setup whose last correction is proved.
Frame& demo_frame() {
  Frame& frame = fresh_frame();
  frame.put_demo();
  frame.go_to(Stage::correct);
  settled(frame);
  return frame;
}

/// What a printer that shrinks by 0.4 % and lets edges grow by 0.08 mm makes of a feature, with a little scatter.
double printed_mm(const Feature& feature, int repeat) {
  constexpr double scale = 0.996, edge_mm = 0.08;
  const double edges = feature.kind == Kind::outer ? 2 : feature.kind == Kind::inner ? -2 : 0;
  return feature.nominal_mm * scale + edges * edge_mm + (repeat % 2 == 0 ? 0.01 : 0);
}

/// A setup with an evening of readings from which a correction follows.
Frame& frame_with_readings() {
  Frame& frame = frame_with_setup(2);
  while (frame.document().content().measuring.here) {
    const Content& content = frame.document().content();
    const MeasurePlan& plan = *content.measuring.plan;
    const auto due = std::find_if(plan.order.begin(), plan.order.end(),
                                  [&](const Due& d) { return key_of(plan, d) == *content.measuring.here; });
    const double mm = due == plan.order.end() ? 0 : printed_mm(plan.spots[due->spot].feature, due->repeat);
    const auto step = type_line(content.measuring, fixed(mm, 2));
    REQUIRE(step);
    REQUIRE(frame.make(Edit{with_measuring(content, step->next), step->label, {}}));
  }
  frame.go_to(Stage::correct);
  settled(frame);
  return frame;
}

void press(wxWindow& button, wxEventType type, bool checked = false) {
  wxCommandEvent event(type, button.GetId());
  event.SetInt(checked);
  event.SetEventObject(&button);
  button.GetEventHandler()->ProcessEvent(event);
}

}  // namespace

TEST_CASE("nothing to change is an answer, and the proof of what was changed stands below", "[correct]") {
  Frame& frame = demo_frame();
  CHECK(frame.view().corrections.nothing);
  CHECK(frame.view().corrections.rows.empty());
  LifePanel& life = frame.correcting().life();
  REQUIRE(life.chosen());
  CHECK(life.chosen()->standing == "proved");
  CHECK(life.chosen()->knobs.size() > 1);
  CHECK(life.proof().scene().empty.empty());
  CHECK(life.proof().scene().said.find("within what was foretold") != std::string::npos);
  // Its figures are those of the record, in the interval that was foretold.
  for (const PlotMark& mark : life.proof().scene().marks) CHECK_FALSE(mark.said.empty());
}

TEST_CASE("each row is copied and marked by keyboard; marking all asks before anything counts", "[correct]") {
  Frame& frame = frame_with_readings();
  CorrectionsPage& page = frame.correcting().corrections().page();
  const auto& rows = frame.view().corrections.rows;
  REQUIRE_FALSE(rows.empty());
  press(page.copy_button(0), wxEVT_BUTTON);
  CHECK(from_clipboard().value_or("") == rows[0].copied);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CHECK(page.copy_button(i).IsShown());
    CHECK(page.copy_button(i).AcceptsFocusFromKeyboard());
    CHECK(page.mark_button(i).AcceptsFocusFromKeyboard());
    CHECK_FALSE(frame.correcting().life().asked());
    press(page.mark_button(i), wxEVT_TOGGLEBUTTON, true);
  }
  CHECK(page.marked() == rows.size());
  pump();
  const auto& asked = frame.correcting().life().asked();
  REQUIRE(asked);
  CHECK(asked->knobs.size() == rows.size());
  CHECK_FALSE(asked->cautions.empty());
}

TEST_CASE("applied, withdrawn with a reason, and taken back by undo", "[correct]") {
  Frame& frame = frame_with_readings();
  REQUIRE_FALSE(frame.view().corrections.rows.empty());
  LifePanel& life = frame.correcting().life();
  const State before = frame.bench().setup()->in_force.state;
  life.on_propose();
  REQUIRE(life.asked());
  life.on_apply();
  REQUIRE(settled(frame));
  REQUIRE(life.chosen());
  CHECK(life.chosen()->standing == "applied");
  CHECK_FALSE(record::differences(before, frame.bench().setup()->in_force.state).empty());
  life.reason_field().SetValue("wrong spool");
  life.on_withdraw(*life.chosen());
  REQUIRE(settled(frame));
  CHECK(record::differences(before, frame.bench().setup()->in_force.state).empty());
  CHECK(life.chosen()->standing == "withdrawn");
  frame.undo();
  CHECK_FALSE(record::differences(before, frame.bench().setup()->in_force.state).empty());
}
