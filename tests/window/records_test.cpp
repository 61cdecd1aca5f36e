// Records and setups that come and go: opened, dropped on the window, put aside and brought back, ended; and the sheet
// on its way to a printer.

#include <catch2/catch.hpp>

#include "base/number.hpp"
#include "bench/evening.hpp"
#include "record/record.hpp"
#include "record/store.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

const Measuring& evening(const Frame& frame) { return frame.document().content().measuring; }

void type(Frame& frame, const std::string& line) {
  frame.measuring().field().SetValue(wx(line));
  frame.measuring().enter();
}

/// A setup beside the one on the bench, of the same printer and spool.
record::Id another_setup(Frame& frame, const std::string& name) {
  record::Setup setup = frame.bench().setup()->setup.value;
  setup.name = name;
  return record::add(frame.bench().record(), setup).value().thing;
}

std::string named(Frame& frame) { return frame.bench().setup() ? frame.bench().setup()->setup.value.name : ""; }

}  // namespace

TEST_CASE("undo reaches over putting another setup on the bench, and redo comes back", "[records]") {
  Frame& frame = frame_with_setup();
  const std::string first = named(frame);
  for (int i = 0; i < 3; ++i) type(frame, "0.00");
  const record::Id other = another_setup(frame, "Heron with slate, 0.3 mm layers");
  REQUIRE(frame.put_setup(other));
  CHECK(frame.bench().undo_label() == "putting Heron with slate, 0.3 mm layers on the bench");
  choose(frame, act_undo);
  CHECK(named(frame) == first);
  CHECK(evening(frame).taken.size() == 3);
  choose(frame, act_undo);
  CHECK(evening(frame).taken.size() == 2);
  choose(frame, act_redo);
  CHECK(evening(frame).taken.size() == 3);
  choose(frame, act_redo);
  CHECK(named(frame) == "Heron with slate, 0.3 mm layers");
  CHECK(frame.bench().redo_label().empty());
}

TEST_CASE("a setup is ended in Setup, and undo takes it up again", "[records]") {
  Frame& frame = frame_with_setup();
  const record::Id setup = frame.bench().setup()->setup.thing;
  const std::size_t before = record::all<record::Setup>(frame.bench().record())->size();
  another_setup(frame, "Heron with slate, draft");
  frame.go_to(Stage::setup);
  wxCommandEvent pressed(wxEVT_BUTTON, frame.setting_up().ending().GetId());
  pressed.SetEventObject(&frame.setting_up().ending());
  frame.setting_up().ending().GetEventHandler()->ProcessEvent(pressed);
  CHECK(named(frame) == "Heron with slate, draft");
  CHECK_FALSE(record::one<record::Setup>(frame.bench().record(), setup));
  choose(frame, act_undo);
  CHECK(record::all<record::Setup>(frame.bench().record())->size() == before + 1);
  choose(frame, act_undo);
  REQUIRE(frame.bench().setup());
  CHECK(frame.bench().setup()->setup.thing == setup);
}

TEST_CASE("a record dropped on the window is opened and stands among the recent ones; another file's is told",
          "[records]") {
  const std::string path = folder() + "/dropped.fitwright";
  {
    record::Opened opened = record::open_or_memory(path);
    REQUIRE(opened.problems.empty());
    put_setup_in(opened.record, 1);
  }
  Frame& frame = fresh_frame();
  frame.take_file(path);
  CHECK(frame.bench().record().path() == path);
  CHECK(named(frame) == "Heron with slate");
  choose(frame, act_demo);
  CHECK(frame.bench().demo());
  REQUIRE(frame.recent().GetCount() == 1);
  CHECK(utf8(frame.recent().GetHistoryFile(0)) == path);
  choose(frame, act_recent);
  CHECK(frame.bench().record().path() == path);
  Dialogs dialogs(wxID_OK);
  CHECK_FALSE(frame.open_record(folder() + "/none.fitwright"));
  CHECK(dialogs.count() == 1);
  CHECK(frame.bench().record().path() == path);
  choose(frame, act_own_record);
}

TEST_CASE("the measuring sheet goes to the printer, or it is told why not", "[records]") {
  Frame& frame = frame_with_setup();
  frame.go_to(Stage::make);
  MakePlace& make = frame.making();
  REQUIRE(pump_until([&] { return make.up_to_date() && make.coupon(); }));
  const auto desktop = make.printing;
  std::string sent;
  make.printing = [&](wxWindow*, const std::string&, const std::string& pdf) -> Result<bool> {
    sent = pdf;
    return true;
  };
  make.print_sheet();
  CHECK(sent.starts_with("%PDF-"));
  CHECK(make.told() == "The measuring sheet is on its way to the printer.");
  make.printing = [](wxWindow*, const std::string&, const std::string&) -> Result<bool> {
    return Problem{Code::io, {}, "no printer is set up on this computer", "save the sheet"};
  };
  make.print_sheet();
  CHECK(make.told() == "No printer is set up on this computer; save the sheet");
  make.printing = desktop;
}
