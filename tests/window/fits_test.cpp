// Fits in the window: an empty place, a ladder graded by keys, an answer to the sentence.

#include <catch2/catch.hpp>

#include "bench/make_view.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/fits_place.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

bool answered(FitsPlace& fits) {
  return pump_until([&] { return fits.up_to_date(); });
}

}  // namespace

TEST_CASE("without a setup Fits says what will be here", "[fits]") {
  Frame& frame = fresh_frame();
  choose(frame, act_fits);
  CHECK(frame.place() == Stage::fits);
  CHECK(frame.fits().curves().is_empty());
  CHECK_FALSE(frame.fits().trying().has_ladder());
  REQUIRE(answered(frame.fits()));
  CHECK_FALSE(frame.fits().answer().wrong.empty());
}

TEST_CASE("a printed rail is graded place by place; undo takes a grade back", "[fits]") {
  Frame& frame = frame_with_setup(1);
  const auto rail = make_coupon("rail");
  REQUIRE(rail.ok());
  REQUIRE(printed(frame.bench(), *rail, 0, "2026-11-25").ok());
  frame.bench_changed();
  choose(frame, act_fits);
  pump();
  TryingPanel& trying = frame.fits().trying();
  REQUIRE(trying.has_ladder());
  CHECK(trying.in_hand() == 0);
  trying.grade(Grade::rattles);
  pump();
  CHECK(trying.in_hand() == 1);
  CHECK(trying.list().GetTextValue(0, 3) == "4 rattles");
  CHECK(frame.fits().curves().scene().marks.size() == 1);
  wxCommandEvent slides(wxEVT_BUTTON, trying.grades()[3]->GetId());
  trying.grades()[3]->Command(slides);
  pump();
  CHECK(trying.in_hand() == 2);
  choose(frame, act_undo);
  pump();
  CHECK(trying.in_hand() == 1);
}
