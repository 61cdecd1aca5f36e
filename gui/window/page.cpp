#include "window/page.hpp"

#include <wx/clipbrd.h>
#include <wx/dcbuffer.h>
#include <wx/dcclient.h>

#include <algorithm>

#include "window/access.hpp"

namespace fitwright {

Page::Page(wxWindow* parent, const std::string& name)
    : wxScrolled<wxWindow>(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(600, 300)),
                           wxVSCROLL | wxWANTS_CHARS),
      theme_(theme_of(*this)),
      name_(name) {
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  SetScrollRate(0, 4 * theme_.space);
  set_accessible(*this, name, {}, Role::text);
  Bind(wxEVT_PAINT, &Page::on_paint, this);
  Bind(wxEVT_KEY_DOWN, &Page::on_key, this);
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    fit_to_width();
    Refresh();
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    theme_ = theme_of(*this);
    changed();
  });
  for (const auto type : {wxEVT_SET_FOCUS, wxEVT_KILL_FOCUS})
    Bind(type, [this](wxFocusEvent& event) {
      event.Skip();
      Refresh();
    });
}

int Page::height_at(int width) {
  wxClientDC dc(this);
  Sheet sheet(dc, theme_, width, false);
  lay(sheet);
  return sheet.y();
}

void Page::fit_to_width() {
  const int width = GetClientSize().x;
  if (width == laid_width_ || width <= 0) return;
  laid_width_ = width;
  SetVirtualSize(width, height_at(width));
}

void Page::changed() {
  laid_width_ = -1;
  fit_to_width();
  set_accessible(*this, name_, as_text(), Role::text);
  Refresh();
}

void Page::paint_whole(wxDC& dc, int width) {
  dc.SetBackground(wxBrush(theme_.ground));
  dc.Clear();
  Sheet sheet(dc, theme_, width, true);
  lay(sheet);
}

void Page::on_paint(wxPaintEvent&) {
  wxAutoBufferedPaintDC dc(this);
  DoPrepareDC(dc);
  paint_whole(dc, GetClientSize().x);
}

void Page::show_part(int top, int bottom) {
  int unit = 1, start = 0;
  GetScrollPixelsPerUnit(nullptr, &unit);
  GetViewStart(nullptr, &start);
  if (unit <= 0) return;
  const int seen_top = start * unit;
  const int seen_bottom = seen_top + GetClientSize().y;
  if (top < seen_top) {
    Scroll(0, top / unit);
  } else if (bottom > seen_bottom) {
    Scroll(0, std::min(top, bottom - GetClientSize().y) / unit + 1);
  }
}

void Page::on_key(wxKeyEvent& event) {
  if (event.GetKeyCode() == 'C' && event.ControlDown() && wxTheClipboard->Open()) {
    wxTheClipboard->SetData(new wxTextDataObject(wx(as_text())));
    wxTheClipboard->Close();
    return;
  }
  if (event.GetKeyCode() == WXK_TAB) {
    Navigate(event.ShiftDown() ? wxNavigationKeyEvent::IsBackward : wxNavigationKeyEvent::IsForward);
    return;
  }
  event.Skip();
}

}  // namespace fitwright
