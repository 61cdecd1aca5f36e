#pragma once
// Messages that need a window of their own.

#include <wx/window.h>

#include <string>

#include "base/result.hpp"

namespace fitwright {

/// Tells everything that is wrong: a heading, then one line a problem, which can be copied.
void tell_problems(wxWindow* parent, const std::string& heading, const Problems& problems);

/// Two columns of text (tab between them), such as the sheet of keys.
void tell_table(wxWindow* parent, const std::string& title, const std::string& lines);

/// All problems in one line, for a place beside the field.
std::string in_one_line(const Problems& problems);

}  // namespace fitwright
