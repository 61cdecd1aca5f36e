#pragma once

#include <wx/dc.h>
#include <wx/splitter.h>

#include "window/theme.hpp"

namespace fitwright {

/// Two parts of the window with a hairline between them that can be dragged.
class Splitter : public wxSplitterWindow {
 public:
  explicit Splitter(wxWindow* parent)
      : wxSplitterWindow(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(1200, 600)),
                         wxSP_LIVE_UPDATE | wxSP_NOBORDER) {}

 protected:
  void DrawSash(wxDC& dc) override {
    if (!IsSplit()) return;
    const Theme theme = theme_of(*this);
    const wxSize size = GetClientSize();
    const int from = GetSashPosition();
    const int middle = from + GetSashSize() / 2;
    const bool upright = GetSplitMode() == wxSPLIT_VERTICAL;
    dc.SetPen(*wxTRANSPARENT_PEN);
    dc.SetBrush(wxBrush(theme.ground));
    dc.SetClippingRegion(wxRect(size));
    dc.DrawRectangle(upright ? wxRect(from, 0, GetSashSize(), size.y) : wxRect(0, from, size.x, GetSashSize()));
    dc.SetPen(wxPen(theme.faint, 1));
    if (upright) {
      dc.DrawLine(middle, 0, middle, size.y);
    } else {
      dc.DrawLine(0, middle, size.x, middle);
    }
    dc.DestroyClippingRegion();
  }
};

}  // namespace fitwright
