#include "window/splitter.hpp"

#include <utility>

#include "window/theme.hpp"

namespace fitwright {

Splitter::Splitter(wxWindow* parent)
    : wxSplitterWindow(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(1200, 600)),
                       wxSP_LIVE_UPDATE | wxSP_NOBORDER) {
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    if (IsSplit() && place_) SetSashPosition(place_(whole()));  // before wx moves it in its own way
  });
  Bind(wxEVT_SPLITTER_SASH_POS_CHANGED, [this](wxSplitterEvent& event) {
    event.Skip();
    drag_to(event.GetSashPosition());
  });
}

void Splitter::keep_at(std::function<int(int)> place) {
  place_ = std::move(place);
  dragged_ = false;
  if (IsSplit()) SetSashPosition(place_(whole()));
}

void Splitter::drag_to(int place) {
  keep_at([place](int) { return place; });
  dragged_ = true;
}

int Splitter::whole() const { return GetSplitMode() == wxSPLIT_VERTICAL ? GetClientSize().x : GetClientSize().y; }

void Splitter::DrawSash(wxDC& dc) {
  if (!IsSplit()) return;
  const Theme theme = theme_of(*this);
  const wxSize size = GetClientSize();
  const int from = GetSashPosition();
  const int middle = from + GetSashSize() / 2;
  const bool upright = GetSplitMode() == wxSPLIT_VERTICAL;
  const wxRect sash = upright ? wxRect(from, 0, GetSashSize(), size.y) : wxRect(0, from, size.x, GetSashSize());
  dc.SetPen(*wxTRANSPARENT_PEN);
  dc.SetBrush(wxBrush(theme.ground));
  dc.DrawRectangle(sash);
  dc.SetPen(wxPen(theme.faint, 1));
  if (upright) {
    dc.DrawLine(middle, 0, middle, size.y);
  } else {
    dc.DrawLine(0, middle, size.x, middle);
  }
}

}  // namespace fitwright
