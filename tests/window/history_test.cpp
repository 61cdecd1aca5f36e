// History in the window: an empty place, a setup along time, the state of the row chosen, files.

#include <catch2/catch.hpp>

#include "base/file.hpp"
#include "record/exchange.hpp"
#include "record/life.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/history_place.hpp"

using namespace fitwright;
using namespace window_test;

TEST_CASE("without a setup History says what will be here", "[history]") {
  Frame& frame = fresh_frame();
  choose(frame, act_history);
  CHECK(frame.place() == Stage::history);
  CHECK_FALSE(frame.history().shown().empty.empty());
  CHECK_FALSE(frame.history().list().IsShownOnScreen());
}

TEST_CASE("History tells a setup by date, and below what was in force then", "[history]") {
  Frame& frame = frame_with_setup(2);
  HistoryPlace& history = frame.history();
  choose(frame, act_history);
  pump();
  CHECK(history.list().IsShownOnScreen());
  REQUIRE(history.list().GetItemCount() == 3);
  CHECK(history.list().GetTextValue(2, 1) == "Setup begun");
  CHECK(history.below().text().find("Size factor 1,") != std::string::npos);

  State after = frame.bench().setup()->in_force.state;
  after.size_factor = 1.004;
  REQUIRE(record::by_hand(frame.bench().record(), frame.bench().setup()->setup.thing, after, {.reason = "told so"}));
  REQUIRE(frame.bench().look_again());
  frame.bench_changed();
  pump();
  CHECK(history.list().GetItemCount() > 3);
  CHECK(history.below().text().find("Size factor 1.004,") != std::string::npos);
  const int first = history.list().GetItemCount() - 1;
  history.list().SelectRow(static_cast<unsigned>(first));
  wxDataViewEvent chosen(wxEVT_DATAVIEW_SELECTION_CHANGED, &history.list(), history.list().RowToItem(first));
  history.list().GetEventHandler()->ProcessEvent(chosen);
  CHECK(history.below().text().find("Size factor 1,") != std::string::npos);

  history.along().on_go(0);  // a mark of the drawing leads to its row
  CHECK(history.list().GetSelectedRow() == 0);
  CHECK(history.below().text().find("Size factor 1.004,") != std::string::npos);

  const std::string path = folder() + "/record.json";
  REQUIRE(history.write(HistoryFile::record, path));
  CHECK(read_whole(path).value() == record::export_json_text(frame.bench().record()).value());
  CHECK_FALSE(history.write(HistoryFile::corrections, folder() + "/no/such/c.csv"));
  CHECK(history.told().front().starts_with("Not written: "));
}
