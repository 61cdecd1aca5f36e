// Understand in the window: plots by keyboard, a mark leads to its reading, what a reading decides by one key.

#include <wx/bitmap.h>
#include <wx/dcmemory.h>
#include <wx/image.h>

#include <catch2/catch.hpp>

#include "window/actions.hpp"
#include "window/bench.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

void press(wxWindow& window, int key) {
  wxKeyEvent event(wxEVT_KEY_DOWN);
  event.m_keyCode = key;
  event.SetEventObject(&window);
  window.GetEventHandler()->ProcessEvent(event);
}

/// With no mark chosen in any plot.
UnderstandPlace& place(Frame& frame) {
  frame.go_to(Stage::understand);
  for (std::size_t i = 0; i < plot_count; ++i)
    press(frame.understanding().plots().plot(static_cast<Plot>(i)), WXK_ESCAPE);
  return frame.understanding();
}

}  // namespace

TEST_CASE("every plot is reached by its key, says what it shows, and is painted narrow and wide", "[understand]") {
  Frame& frame = fresh_frame();
  UnderstandPlace& understand = place(frame);
  REQUIRE(settled(frame));
  const std::vector<std::pair<int, Plot>> keys{{act_lengths, Plot::lengths},
                                               {act_rounds, Plot::rounds},
                                               {act_residuals, Plot::by_order},
                                               {act_residuals, Plot::by_feature},
                                               {act_corner, Plot::corner}};
  for (const auto& [action, which] : keys) {
    choose(frame, action);
    CHECK(understand.plots().chosen() == which);
    CHECK(understand.plots().plot(which).IsShown());
    PlotPanel& plot = understand.plots().plot(which);
    CHECK_FALSE(plot.scene().said.empty());
    for (const wxSize size : {wxSize(480, 240), wxSize(960, 480), wxSize(60, 40)}) {
      wxBitmap bitmap(size.x, size.y, 24);
      {
        wxMemoryDC dc(bitmap);
        plot.paint(dc, size);
      }
      if (size.x < 100) continue;
      const wxImage image = bitmap.ConvertToImage();
      long inked = 0;
      for (int i = 0; i < 3 * size.x * size.y; i += 3)
        inked += image.GetData()[i] != image.GetData()[0] || image.GetData()[i + 1] != image.GetData()[1];
      CHECK(inked > size.x);
    }
  }
}

TEST_CASE("the arrow keys go through the marks of a plot, each is told, and Enter goes to its reading",
          "[understand]") {
  Frame& frame = fresh_frame();
  UnderstandPlace& understand = place(frame);
  REQUIRE(settled(frame));
  choose(frame, act_residuals);
  PlotPanel& plot = understand.plots().plot(understand.plots().chosen());
  press(plot, WXK_RIGHT);
  press(plot, WXK_RIGHT);
  REQUIRE(plot.chosen_mark() == 1);
  CHECK(utf8(understand.plots().told().GetLabelText()) == plot.scene().marks[1].said);
  const std::size_t row = plot.scene().marks[1].rows.front();
  press(plot, WXK_RETURN);
  CHECK(frame.place() == Stage::measure);
  REQUIRE(frame.measuring().table().chosen());
  CHECK(*frame.measuring().table().chosen() == key_of(frame.document().content().readings->rows[row]));
}

TEST_CASE("F7 tries the first doubtful reading side by side, and F7 goes back; no reading is taken out",
          "[understand]") {
  Frame& frame = fresh_frame();
  UnderstandPlace& understand = place(frame);
  REQUIRE(settled(frame));
  const auto readings = frame.document().content().readings;
  const auto estimates = frame.view().estimates.rows;
  choose(frame, act_try);
  REQUIRE(settled(frame));
  CHECK(utf8(understand.tabs().GetPageText(static_cast<std::size_t>(understand.tabs().GetSelection()))) ==
        "Side by side");
  CHECK(frame.view().trial.shown);
  CHECK_FALSE(frame.view().trial.rows.empty());
  CHECK(understand.trial().choice().GetSelection() == 1);
  CHECK(understand.trial().back().IsEnabled());
  REQUIRE(frame.view().estimates.rows.size() == estimates.size());
  for (std::size_t i = 0; i < estimates.size(); ++i)
    CHECK(frame.view().estimates.rows[i].value == estimates[i].value);  // what holds still holds
  choose(frame, act_try);
  REQUIRE(settled(frame));
  CHECK(understand.tabs().GetSelection() == 0);
  CHECK_FALSE(frame.view().trial.shown);
  CHECK(frame.document().content().readings == readings);
  frame.undo();
  REQUIRE(settled(frame));
  CHECK(frame.view().trial.shown);  // the trial is a step like others
}

TEST_CASE("F7 tries the mark that is chosen in a plot", "[understand]") {
  Frame& frame = fresh_frame();
  UnderstandPlace& understand = place(frame);
  REQUIRE(settled(frame));
  choose(frame, act_lengths);
  PlotPanel& plot = understand.lengths();
  press(plot, WXK_RIGHT);
  const auto rows = plot.chosen_rows();
  REQUIRE_FALSE(rows.empty());
  choose(frame, act_try);
  REQUIRE(settled(frame));
  CHECK(frame.document().content().wishes.tried.size() == rows.size());
  CHECK(frame.view().trial.shown);
  CHECK(frame.view().trial.title.starts_with("Without"));
  // It is none of the doubtful ones: the choice names it all the same.
  CHECK(understand.trial().choice().GetSelection() + 1 == static_cast<int>(understand.trial().choice().GetCount()));
  wxCommandEvent back(wxEVT_BUTTON, understand.trial().back().GetId());
  understand.trial().back().GetEventHandler()->ProcessEvent(back);
  REQUIRE(settled(frame));
  CHECK_FALSE(frame.view().trial.shown);
}
