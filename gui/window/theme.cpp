#include "window/theme.hpp"

#include <wx/settings.h>

namespace fitwright {
namespace {

Rgb rgb(const wxColour& c) { return {c.Red(), c.Green(), c.Blue()}; }
wxColour colour(Rgb c) { return {c.r, c.g, c.b}; }

constexpr float title_scale = 1.25F;
constexpr float large_scale = 1.6F;
constexpr float huge_scale = 2.5F;
constexpr int space_dip = 4;
constexpr double accent_text_contrast = 4.5;  // WCAG 2.1, 1.4.3
constexpr double raised_share = 0.035;        // of text in the ground: a hint of a stripe

}  // namespace

wxColour Theme::of(Ink ink) const { return colour(colour_of(ink, rgb(ground), rgb(text))); }

Theme theme_of(const wxWindow& window) {
  Theme t;
  t.body = window.GetFont();
  t.strong = t.body.Bold();
  t.title = t.body.Scaled(title_scale);
  t.large = t.body.Scaled(large_scale);
  t.huge = t.body.Scaled(huge_scale);
  t.space = window.FromDIP(space_dip);
  t.ground = wxSystemSettings::GetColour(wxSYS_COLOUR_WINDOW);
  t.text = wxSystemSettings::GetColour(wxSYS_COLOUR_WINDOWTEXT);
  t.chosen = wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHT);
  t.chosen_text = wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHTTEXT);
  t.dark = is_dark(rgb(t.ground));
  t.quiet = t.of(Ink::quiet);
  t.faint = t.of(Ink::grid);
  t.warn = t.of(Ink::warn);
  t.good = t.of(Ink::z);
  t.accent = colour(with_contrast(rgb(t.chosen), rgb(t.ground), accent_text_contrast));
  t.raised = colour(mixed(rgb(t.text), rgb(t.ground), raised_share));
  return t;
}

wxString wx(const std::string& utf8) { return wxString::FromUTF8(utf8.data(), utf8.size()); }

std::string utf8(const wxString& text) {
  const auto buffer = text.utf8_str();
  return {buffer.data(), buffer.length()};
}

}  // namespace fitwright
