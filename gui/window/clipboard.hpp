#pragma once
// Text to and from the clipboard.

#include <wx/clipbrd.h>

#include <optional>
#include <string>

#include "window/theme.hpp"

namespace fitwright {

inline void to_clipboard(const std::string& text) {
  if (!wxTheClipboard->Open()) return;
  wxTheClipboard->SetData(new wxTextDataObject(wx(text)));
  wxTheClipboard->Close();
}

/// The text on the clipboard; empty when there is none.
inline std::optional<std::string> from_clipboard() {
  if (!wxTheClipboard->Open()) return std::nullopt;
  wxTextDataObject data;
  const bool is_text = wxTheClipboard->GetData(data);
  wxTheClipboard->Close();
  if (!is_text) return std::nullopt;
  return utf8(data.GetText());
}

}  // namespace fitwright
