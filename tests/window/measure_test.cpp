// An evening at the field: typed by hand and by a cabled caliper, slips answered by key, taken back, pasted, imported.

#include <wx/uiaction.h>

#include <catch2/catch.hpp>
#include <set>

#include "base/file.hpp"
#include "base/number.hpp"
#include "bench/evening.hpp"
#include "reading/csv.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/clipboard.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

constexpr long hand_ms = 900;  ///< between two keys that a hand presses; any time that a hand can
constexpr long wedge_ms = 5;   ///< 200 lines a second

const Measuring& evening(const Frame& frame) { return frame.document().content().measuring; }
std::string text_of(const Frame& frame) { return to_csv(*frame.document().content().readings); }

/// Presses a key in the field, `after_ms` after the last one.
void press(Frame& frame, int code, long after_ms = hand_ms) {
  static long now_ms = 1'000'000;
  now_ms += after_ms;
  wxKeyEvent event(wxEVT_KEY_DOWN);
  event.m_keyCode = code;
  event.SetTimestamp(now_ms);
  event.SetEventObject(&frame.measuring().field());
  frame.measuring().field().GetEventHandler()->ProcessEvent(event);
}

void type(Frame& frame, const std::string& text, long after_ms = hand_ms) {
  frame.measuring().field().WriteText(wx(text));
  press(frame, WXK_RETURN, after_ms);
}

/// What is drawn at the present place plus `off_mm`, as a caliper would show it.
std::string drawn_here(const Measuring& m, double off_mm = 0.1) {
  const auto lines = due_lines(m);
  const Feature& f = m.plan->spots[lines.at(find_line(lines, m.here)).due.spot].feature;
  return fixed(f.nominal_mm + (f.kind == Kind::zero ? 0 : off_mm), 2);
}

/// The readings of the setup on the bench as the record has them, read anew.
std::string text_in_record(Frame& frame) {
  const auto& caliper = frame.bench().caliper();
  const auto kept = evening_of(frame.bench().record(), frame.bench().setup()->setup.thing,
                               caliper ? caliper->thing : record::Id{});
  REQUIRE(kept);
  ReadingSet readings = readings_of(kept->kept);
  std::sort(readings.rows.begin(), readings.rows.end(),
            [](const Reading& a, const Reading& b) { return key_of(a) < key_of(b); });
  return to_csv(readings);
}

std::string sorted_text(const Frame& frame) {
  ReadingSet readings = *frame.document().content().readings;
  std::sort(readings.rows.begin(), readings.rows.end(),
            [](const Reading& a, const Reading& b) { return key_of(a) < key_of(b); });
  return to_csv(readings);
}

}  // namespace

TEST_CASE("an evening of sixty readings with two slips answered by key is in the record as it was typed", "[measure]") {
  Frame& frame = frame_with_setup(2);
  REQUIRE(evening(frame).plan);
  REQUIRE(measure_view(evening(frame)).total > 60);
  Measuring shadow = evening(frame);
  ReadingKey slip, kept;
  for (int i = 0; i < 60; ++i) {
    std::string line = drawn_here(shadow, 0.08);
    if (i == 12) {  // the decimal point slips
      slip = *shadow.here;
      line = fixed(10 * std::stod(line), 1);
    }
    if (i == 30) {  // it is really so
      kept = *shadow.here;
      line = drawn_here(shadow, 1.3);
    }
    shadow = type_line(shadow, line).value().next;
    type(frame, line);
    REQUIRE(frame.measuring().field().IsEmpty());
    if (i == 14) {  // the question never holds up the next readings; it is answered two later
      REQUIRE_FALSE(frame.measuring().hand().view().doubts.empty());
      press(frame, WXK_SPACE);
      shadow = take_proposal(shadow, doubts_of(shadow).back()).value().next;
      CHECK(frame.measuring().hand().view().doubts.empty());
    }
    if (i == 30) {
      press(frame, WXK_RETURN);
      shadow = keep_doubtful(shadow, doubts_of(shadow).back()).value().next;
      CHECK(frame.measuring().hand().view().doubts.empty());
    }
  }
  CHECK(evening(frame) == shadow);
  CHECK(frame.measuring().hand().view().count.rfind("60 of ", 0) == 0);
  CHECK(taken_at(evening(frame), slip)->reading.reading_mm < 150);
  CHECK(text_in_record(frame) == sorted_text(frame));
  REQUIRE(settled(frame));
  CHECK_FALSE(frame.view().findings.empty());
  // Put on the bench again, it is where it was.
  const auto here = evening(frame).here;
  REQUIRE(frame.put_setup(frame.bench().setup()->setup.thing));
  CHECK(evening(frame).here == here);
}

TEST_CASE("real keys: digits and Enter take the reading and go on", "[measure]") {
  Frame& frame = frame_with_setup(2);
  frame.Raise();
  frame.measuring().take_focus();
  REQUIRE(pump_until([&] { return frame.measuring().field().HasFocus(); }));
  Measuring shadow = evening(frame);
  wxUIActionSimulator keys;  // slow: a key takes it a twentieth of a second
  for (std::size_t i = 0; i < 6; ++i) {
    const std::string line = drawn_here(shadow);
    shadow = type_line(shadow, line).value().next;
    for (const char c : line) keys.Char(c);
    keys.Char(WXK_RETURN);
  }
  REQUIRE(pump_until([&] { return evening(frame).taken.size() >= 6 && frame.measuring().field().IsEmpty(); }));
  CHECK(evening(frame) == shadow);
}

TEST_CASE("sixty lines at two hundred a second, each with two line ends, are sixty readings", "[measure]") {
  Frame& frame = frame_with_setup(2);
  Measuring shadow = evening(frame);
  for (int i = 0; i < 60; ++i) {
    // One of them doubtful: the line's second end must not answer the question.
    const std::string line = drawn_here(shadow, i == 20 ? 1.2 : 0.1);
    shadow = type_line(shadow, line).value().next;
    type(frame, line, wedge_ms);
    press(frame, i % 2 ? WXK_RETURN : 10, 1);
  }
  CHECK(evening(frame) == shadow);
  CHECK(frame.measuring().hand().view().doubts.size() == 1);
  CHECK(text_in_record(frame) == sorted_text(frame));
}

TEST_CASE("thirty steps taken back and done again restore every byte, in the window and in the record", "[measure]") {
  Frame& frame = frame_with_setup();
  std::vector<std::string> steps{text_of(frame)};
  for (int i = 0; i < 30; ++i) {
    if (i == 11)
      choose(frame, act_skip);
    else if (i == 17)
      press(frame, WXK_PAGEUP);
    else
      type(frame, drawn_here(evening(frame), 0.1));
    steps.push_back(text_of(frame));
  }
  for (std::size_t i = steps.size() - 1; i-- > 0;) {
    if (i % 2)
      press(frame, WXK_BACK);
    else
      choose(frame, act_undo);
    REQUIRE(text_of(frame) == steps[i]);
  }
  CHECK(text_in_record(frame) == sorted_text(frame));
  for (std::size_t i = 1; i < steps.size(); ++i) {
    choose(frame, act_redo);
    REQUIRE(text_of(frame) == steps[i]);
  }
  CHECK(text_in_record(frame) == sorted_text(frame));
}

TEST_CASE("keys of the field: read again, leave, skip, damaged, one more, before and after", "[measure]") {
  Frame& frame = frame_with_setup();
  for (int i = 0; i < 3; ++i) type(frame, "0.00");
  const ReadingKey slip = *evening(frame).here;
  type(frame, drawn_here(evening(frame), 1.1));
  const ReadingKey next = *evening(frame).here;
  press(frame, WXK_ESCAPE);
  CHECK(evening(frame).here == slip);
  type(frame, drawn_here(evening(frame), 0.1));
  CHECK(evening(frame).here == next);
  CHECK(frame.measuring().hand().view().doubts.empty());
  press(frame, WXK_PAGEUP);
  CHECK(evening(frame).here == slip);
  press(frame, WXK_ESCAPE);
  CHECK(evening(frame).here == next);
  choose(frame, act_more);
  choose(frame, act_skip);
  CHECK(evening(frame).here->feature_id == next.feature_id);  // the one more asked for
  type(frame, drawn_here(evening(frame), 0.1));
  choose(frame, act_damaged);
  CHECK(frame.measuring().hand().view().left_out == "1 skipped, 2 damaged");
  frame.measuring().field().SetValue("12.");
  press(frame, WXK_ESCAPE);
  CHECK(frame.measuring().field().IsEmpty());
}

TEST_CASE("the table goes to a reading and takes one out", "[measure]") {
  Frame& frame = frame_with_setup();
  for (int i = 0; i < 5; ++i) type(frame, drawn_here(evening(frame)));
  if (!frame.measuring().table().IsShown()) choose(frame, act_table);
  ReadingsTable& table = frame.measuring().table();
  CHECK(table.list().GetItemCount() == static_cast<int>(due_lines(evening(frame)).size()));
  const ReadingKey key = key_of(evening(frame).taken[3]->reading);
  REQUIRE(table.choose(key));
  choose(frame, act_delete);
  CHECK_FALSE(taken_at(evening(frame), key));
  CHECK(text_in_record(frame) == sorted_text(frame));
  table.on_go(key);
  CHECK(evening(frame).here == key);
  choose(frame, act_table);
  CHECK_FALSE(table.IsShown());
}

TEST_CASE("a pasted column stands beside the table until it is taken", "[measure]") {
  Frame& frame = frame_with_setup();
  const std::string before = text_of(frame);
  REQUIRE(frame.measuring().offer_paste("0.00\r\n0.01\r\nforty\r\n10.11\r\n"));
  CHECK(frame.measuring().preview().IsShown());
  CHECK(frame.measuring().preview().list().GetItemCount() == 4);
  CHECK(text_of(frame) == before);
  frame.measuring().preview().on_leave();
  CHECK_FALSE(frame.measuring().preview().IsShown());
  CHECK(text_of(frame) == before);
  REQUIRE(frame.measuring().offer_paste("0.00\n0.01\n0.02\n"));
  frame.measuring().preview().on_take(false);
  CHECK_FALSE(frame.measuring().preview().IsShown());
  CHECK(evening(frame).taken.size() == 3);
  CHECK(text_in_record(frame) == sorted_text(frame));
  choose(frame, act_undo);
  CHECK(text_of(frame) == before);
}

TEST_CASE("a readings file is offered to the evening of a setup, and opened where there is none", "[measure]") {
  const std::string path = folder() + "/typed-elsewhere.csv";
  {
    Frame& frame = frame_with_setup();
    Measuring m = evening(frame);
    for (int i = 0; i < 8; ++i) m = type_line(m, drawn_here(m)).value().next;
    REQUIRE(write_whole(path, to_csv(readings_of(m))));
    frame.take_file(path);
    CHECK(frame.measuring().preview().IsShown());
    CHECK(evening(frame).taken.empty());
    frame.measuring().preview().on_take(false);
    CHECK(evening(frame).taken.size() == 8);
    CHECK(text_in_record(frame) == sorted_text(frame));
    frame.take_file(folder() + "/none.csv");
    CHECK_FALSE(frame.problem().empty());
  }
  Frame& frame = fresh_frame();
  frame.take_file(path);
  REQUIRE(settled(frame));
  CHECK(frame.document().path() == path);
  CHECK(evening(frame).taken.size() == 8);
  CHECK(frame.measuring().table().IsShown());
  CHECK_FALSE(frame.measuring().picture().window().IsShown());
}

TEST_CASE("the part is shown with the feature in hand", "[measure]") {
  Frame& frame = frame_with_setup();
  CHECK(frame.measuring().picture().window().IsShown());
  for (int i = 0; i < 3; ++i) type(frame, "0.00");
  const std::string feature = evening(frame).here->feature_id;
  CHECK(pump_until([&] { return frame.measuring().picture().shown_feature() == feature; }));
}
