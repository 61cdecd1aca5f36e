#include "window/strip.hpp"

#include <wx/dcbuffer.h>

#include <utility>

#include "window/access.hpp"

namespace fitwright {

Strip::Strip(wxWindow* parent, const std::string& name, std::function<void(Sheet&)> lay)
    : wxWindow(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(400, 60)), wxFULL_REPAINT_ON_RESIZE),
      name_(name),
      lay_(std::move(lay)),
      theme_(theme_of(*this)) {
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  SetCanFocus(false);
  set_accessible(*this, name, {}, Role::heading);
  Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
    wxAutoBufferedPaintDC dc(this);
    paint(dc, GetClientSize());
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    theme_ = theme_of(*this);
    Refresh();
  });
}

void Strip::changed(const std::string& said) {
  set_accessible(*this, name_, said, Role::heading);
  Refresh();
}

void Strip::paint(wxDC& dc, const wxSize& size) {
  dc.SetBackground(wxBrush(theme_.ground));
  dc.Clear();
  Sheet sheet(dc, theme_, size.x, true);
  lay_(sheet);
}

}  // namespace fitwright
