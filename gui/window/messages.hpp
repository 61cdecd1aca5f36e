#pragma once
// Messages that need a window of their own.

#include <wx/window.h>

#include <string>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// Tells everything that is wrong: a heading, then one line a problem, which can be copied.
void tell_problems(wxWindow* parent, const std::string& heading, const Problems& problems);

struct TableShown {
  std::string title, heading, intro;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  ///< as many texts each as there are columns
};

/// A table to be read, such as the sheet of keys; Esc closes it.
void tell_table(wxWindow* parent, const TableShown& table);

/// All problems in one line, for a place beside the field.
std::string in_one_line(const Problems& problems);

}  // namespace fitwright
