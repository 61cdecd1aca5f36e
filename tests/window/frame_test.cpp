// The main window in use: readings edited, taken back, saved; slips marked; wrong files told.

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/file.hpp"
#include "base/number.hpp"
#include "bench/edit.hpp"
#include "bench/keeping.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "reading/csv.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

std::string text_of(const Frame& frame) { return to_csv(*frame.document().content().readings); }

std::size_t row_of(const Frame& frame, const std::string& feature, int copy, int repeat) {
  const auto& rows = frame.document().content().readings->rows;
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Reading& r) {
    return r.feature.id == feature && r.copy == copy && r.repeat == repeat;
  });
  REQUIRE(found != rows.end());
  return static_cast<std::size_t>(found - rows.begin());
}

/// A reading put in place of the one in a row; as a step, with its undo.
void amend(Frame& frame, std::size_t row, const std::string& text) {
  const Content& content = frame.document().content();
  const auto step = amend_reading(content.measuring, key_of(content.readings->rows.at(row)), text);
  REQUIRE(step);
  frame.make(Edit{with_measuring(content, step->next), step->label, step->said});
}

std::string value_of(const Frame& frame, const std::string& name) {
  for (const EstimateRow& row : frame.view().estimates.rows)
    if (row.name == name) return row.value;
  return {};
}

}  // namespace

TEST_CASE("the window opens on the demo with everything worked out") {
  Frame& frame = fresh_frame();
  REQUIRE(settled(frame));
  CHECK(utf8(frame.GetTitle()) == "Demo: Heron, PLA slate, batch 14 \u2013 Fitwright");
  CHECK(frame.measuring().table().list().GetItemCount() >=
        static_cast<int>(frame.document().content().readings->rows.size()));
  CHECK_FALSE(frame.view().findings.empty());
  CHECK_FALSE(frame.view().estimates.rows.empty());
  CHECK_FALSE(frame.view().corrections.rows.empty());
  CHECK(frame.side().list().GetItemCount() >= 3);
  CHECK(frame.correcting().corrections().choice().GetCount() == 4);
}

TEST_CASE("editing readings changes estimates and findings, and undo restores both") {
  Frame& frame = fresh_frame();
  const std::string before = text_of(frame);
  const std::string growth = value_of(frame, "Edge growth");
  const auto findings = frame.view().findings;
  REQUIRE_FALSE(growth.empty());
  // Every outer 0.1 mm larger is an edge growth about 0.05 larger.
  int edits = 0;
  for (std::size_t i = 0; i < frame.document().content().readings->rows.size(); ++i) {
    const Reading& r = frame.document().content().readings->rows[i];
    if (r.feature.kind != Kind::outer) continue;
    amend(frame, i, fixed(r.reading_mm + 0.1, 2));
    ++edits;
  }
  REQUIRE(settled(frame));
  CHECK(value_of(frame, "Edge growth") != growth);
  CHECK(frame.view().findings.front().text + frame.view().findings.back().text + frame.view().estimates.rows[2].value !=
        findings.front().text + findings.back().text + growth);
  for (int i = 0; i < edits; ++i) choose(frame, act_undo);
  REQUIRE(settled(frame));
  CHECK(text_of(frame) == before);
  CHECK(value_of(frame, "Edge growth") == growth);
  CHECK_FALSE(frame.document().dirty());
  for (int i = 0; i < edits; ++i) choose(frame, act_redo);
  REQUIRE(settled(frame));
  CHECK(value_of(frame, "Edge growth") != growth);
}

TEST_CASE("a slip is marked in the table, found by key and mended by key") {
  Frame& frame = fresh_frame();
  const std::size_t row = row_of(frame, "X40", 1, 1);
  const ReadingKey key{1, "X40", 1};
  const double meant = frame.document().content().readings->rows[row].reading_mm;
  amend(frame, row, fixed(meant * 10, 1));  // the decimal point slipped
  REQUIRE(settled(frame));
  ReadingsTable& table = frame.measuring().table();
  REQUIRE(table.choose({1, "X10b", 1}));
  choose(frame, act_next_doubt);
  REQUIRE(table.chosen());
  CHECK(*table.chosen() == key);
  REQUIRE(pump_until([&] { return table.in_focus(); }));
  choose(frame, act_take);
  REQUIRE(settled(frame));
  CHECK(frame.document().content().readings->rows[row].reading_mm == Approx(meant).margin(0.006));
}

TEST_CASE("what cannot be taken is said beside the field and changes nothing") {
  Frame& frame = fresh_frame();
  const std::string before = text_of(frame);
  choose(frame, act_more);
  frame.measuring().field().SetValue("forty");
  frame.measuring().enter();
  CHECK(frame.problem().find("\"forty\" is not a reading") != std::string::npos);
  CHECK(frame.measuring().hand().problem() == frame.problem());
  CHECK(frame.measuring().field().GetStringSelection() == "forty");
  CHECK(text_of(frame) == before);
  frame.measuring().field().SetValue("10.2");
  CHECK(frame.measuring().hand().problem().empty());
  frame.measuring().enter();
  CHECK(frame.problem().empty());
  CHECK(text_of(frame) != before);
}

TEST_CASE("saved readings are a file that reads back to what the window holds") {
  Frame& frame = fresh_frame();
  amend(frame, 8, "10.42");
  choose(frame, act_more);  // a place not read yet is not written
  CHECK(frame.document().dirty());
  const std::string path = folder() + "/saved.csv";
  REQUIRE(frame.save_to(path));
  CHECK_FALSE(frame.document().dirty());
  CHECK(frame.document().path() == path);
  const auto back = open_document(path);
  REQUIRE(back);
  CHECK(to_csv(*back->content().readings) == to_csv(only_read(*frame.document().content().readings)));
  REQUIRE(frame.open(path));
  REQUIRE(settled(frame));
  CHECK(utf8(frame.GetTitle()) == "saved \u2013 Fitwright");
}

TEST_CASE("a file that is wrong is told with every defect, and what was on the bench stays") {
  Frame& frame = fresh_frame();
  const std::string before = text_of(frame);
  const std::string path = folder() + "/wrong.csv";
  REQUIRE(write_whole(path,
                      "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\nX40,outer,x,40,1,1,forty\n"
                      "X40,outer,x,40,1,two,40.1\n"));
  const Dialogs dialogs(wxID_CLOSE);
  CHECK_FALSE(frame.open(path));
  CHECK(dialogs.count() == 1);
  CHECK(dialogs.text().find("wrong.csv:2:") != std::string::npos);
  CHECK(dialogs.text().find("wrong.csv:3:") != std::string::npos);
  CHECK_FALSE(frame.open(folder() + "/none.csv"));
  CHECK_FALSE(frame.save_to(folder() + "/no/such/folder.csv"));
  CHECK(dialogs.count() == 3);
  CHECK(text_of(frame) == before);
}

TEST_CASE("only the newest result is shown, however fast the edits come") {
  Frame& frame = fresh_frame();
  for (int i = 0; i < 60; ++i) amend(frame, 6, fixed(10.1 + 0.001 * i, 3));
  CHECK_FALSE(frame.up_to_date());
  REQUIRE(settled(frame));
  CHECK(frame.view().revision == frame.document().revision());
  CHECK(frame.document().content().readings->rows[6].reading_mm == Approx(10.159));
}

TEST_CASE("the choice of policy changes what is recommended") {
  Frame& frame = fresh_frame();
  const auto first = frame.view().corrections.rows;
  wxChoice& choice = frame.correcting().corrections().choice();
  choice.SetSelection(1);
  wxCommandEvent event(wxEVT_CHOICE, choice.GetId());
  event.SetInt(1);
  choice.GetEventHandler()->ProcessEvent(event);
  REQUIRE(settled(frame));
  CHECK(frame.document().content().wishes.policy == Policy::steps);
  CHECK(frame.view().corrections.chosen == 1);
  choose(frame, act_undo);
  REQUIRE(settled(frame));
  CHECK(choice.GetSelection() == 0);
  CHECK(frame.view().corrections.rows.size() == first.size());
}

TEST_CASE("unsaved readings are kept aside as they are typed, and gone when undone or saved") {
  Frame& frame = fresh_frame();
  const auto data = data_folder();
  REQUIRE(data);
  const std::string side = side_file(*data, {});
  amend(frame, 6, "10.77");
  const auto kept = [&] { return left_behind(side, *demo_document().content().readings); };
  CHECK(pump_until([&] {
    const auto rows = kept();
    return rows && rows->rows[6].reading_mm == 10.77;
  }));
  choose(frame, act_undo);
  CHECK(pump_until([&] { return !kept(); }));
}

TEST_CASE("readings that an ended run left are offered and can be taken") {
  Frame& frame = fresh_frame();
  const std::string side = side_file(*data_folder(), {});
  const Content demo = demo_document().content();
  const auto step = amend_reading(demo.measuring, key_of(demo.readings->rows[6]), "10.88");
  REQUIRE(step);
  REQUIRE(write_whole(side, to_csv(*with_measuring(demo, step->next).readings)));
  frame.put_on_bench(demo_document());
  CHECK(frame.offer().IsShown());
  wxCommandEvent take(wxEVT_BUTTON, wxID_YES);
  frame.offer().GetEventHandler()->ProcessEvent(take);
  CHECK(frame.document().content().readings->rows[6].reading_mm == 10.88);
  CHECK(frame.document().dirty());
  choose(frame, act_undo);
  CHECK_FALSE(frame.document().dirty());
  REQUIRE(settled(frame));
  CHECK(pump_until([&] { return !left_behind(side, *demo_document().content().readings); }));
}

TEST_CASE("every action has a place in the menu, and the keys are told") {
  Frame& frame = fresh_frame();
  for (const Action& action : actions()) {
    INFO(action.label);
    CHECK(frame.GetMenuBar()->FindItem(action.id));
  }
  const Dialogs dialogs(wxID_CLOSE);
  choose(frame, act_keys);
  CHECK(dialogs.count() == 1);
  for (const int action : {act_measure, act_understand, act_lengths, act_rounds, act_findings, act_estimates})
    choose(frame, action);
  CHECK(frame.place() == Stage::understand);
  CHECK(frame.understanding().tabs().GetSelection() == 1);
  choose(frame, act_correct);
  CHECK(frame.place() == Stage::correct);
}
