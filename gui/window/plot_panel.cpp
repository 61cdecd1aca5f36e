#include "window/plot_panel.hpp"

#include <wx/dcbuffer.h>

#include <algorithm>
#include <memory>

#include "window/access.hpp"

namespace fitwright {

PlotPanel::PlotPanel(wxWindow* parent, const std::string& name)
    : wxWindow(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(400, 240)),
               wxWANTS_CHARS | wxFULL_REPAINT_ON_RESIZE),
      theme_(theme_of(*this)),
      name_(name) {
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  SetCanFocus(true);
  set_accessible(*this, name, {}, Role::plot);
  Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
    wxAutoBufferedPaintDC dc(this);
    paint(dc, GetClientSize());
  });
  Bind(wxEVT_MOTION, &PlotPanel::on_move, this);
  Bind(wxEVT_LEFT_DOWN, &PlotPanel::on_click, this);
  Bind(wxEVT_KEY_DOWN, &PlotPanel::on_key, this);
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    theme_ = theme_of(*this);
    Refresh();
  });
}

void PlotPanel::show(const PlotScene& scene) {
  const std::vector<std::size_t> before = chosen_rows();
  scene_ = scene;
  const auto same =
      std::find_if(scene_.marks.begin(), scene_.marks.end(), [&](const PlotMark& mark) { return mark.rows == before; });
  chosen_ = before.empty() || same == scene_.marks.end() ? -1 : static_cast<int>(same - scene_.marks.begin());
  set_accessible(*this, name_, scene_.said, Role::plot);
  Refresh();
}

void PlotPanel::choose_row(std::size_t row) {
  int found = -1;
  for (std::size_t i = 0; i < scene_.marks.size() && found < 0; ++i) {
    const auto& rows = scene_.marks[i].rows;
    if (std::find(rows.begin(), rows.end(), row) != rows.end()) found = static_cast<int>(i);
  }
  if (found == chosen_) return;
  chosen_ = found;
  Refresh();
}

void PlotPanel::paint(wxDC& dc, const wxSize& size) {
  dc.SetBackground(wxBrush(theme_.ground));
  dc.Clear();
  const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::CreateFromUnknownDC(dc));
  if (gc) place_ = paint_plot(*gc, scene_, theme_, size.x, size.y, chosen_);
}

void PlotPanel::on_move(wxMouseEvent& event) {
  const int mark = mark_at(scene_, place_, event.GetX(), event.GetY(), 3 * theme_.space);
  if (mark < 0) {
    UnsetToolTip();
    SetCursor(wxNullCursor);
    if (on_told) on_told(chosen_ < 0 ? std::string() : scene_.marks[static_cast<std::size_t>(chosen_)].said);
  } else {
    SetToolTip(wx(scene_.marks[static_cast<std::size_t>(mark)].said));
    if (on_told) on_told(scene_.marks[static_cast<std::size_t>(mark)].said);
    SetCursor(wxCursor(wxCURSOR_HAND));
  }
  event.Skip();
}

void PlotPanel::on_click(wxMouseEvent& event) {
  SetFocus();
  const int mark = mark_at(scene_, place_, event.GetX(), event.GetY(), 3 * theme_.space);
  if (mark >= 0) {
    choose(mark);
    go();
  }
  event.Skip();
}

void PlotPanel::choose(int mark) {
  if (scene_.marks.empty()) return;
  chosen_ = std::clamp(mark, 0, static_cast<int>(scene_.marks.size()) - 1);
  const std::string& said = scene_.marks[static_cast<std::size_t>(chosen_)].said;
  SetToolTip(wx(said));
  if (on_told) on_told(said);
  set_accessible(*this, name_, said, Role::plot);
  Refresh();
}

std::vector<std::size_t> PlotPanel::chosen_rows() const {
  return chosen_ < 0 ? std::vector<std::size_t>{} : scene_.marks[static_cast<std::size_t>(chosen_)].rows;
}

void PlotPanel::go() {
  if (chosen_ < 0) return;
  const auto& rows = scene_.marks[static_cast<std::size_t>(chosen_)].rows;
  if (on_go && !rows.empty()) on_go(rows.front());
}

void PlotPanel::on_key(wxKeyEvent& event) {
  switch (event.GetKeyCode()) {
    case WXK_RIGHT:
    case WXK_DOWN:
      choose(chosen_ + 1);
      break;
    case WXK_LEFT:
    case WXK_UP:
      choose(chosen_ - 1);
      break;
    case WXK_RETURN:
    case WXK_NUMPAD_ENTER:
      go();
      break;
    case WXK_ESCAPE:
      chosen_ = -1;
      if (on_told) on_told({});
      Refresh();
      break;
    case WXK_TAB:
      Navigate(event.ShiftDown() ? wxNavigationKeyEvent::IsBackward : wxNavigationKeyEvent::IsForward);
      break;
    default:
      event.Skip();
  }
}

}  // namespace fitwright
