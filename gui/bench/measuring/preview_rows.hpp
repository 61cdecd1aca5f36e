#pragma once
// What pasting or importing would do, as rows to be read before it is done.

#include <string>
#include <vector>

#include "bench/measuring/measure_paste.hpp"

namespace fitwright {

struct PreviewRow {
  std::string from;   ///< "row 3, column 2" or "line 12"
  std::string text;   ///< as pasted, or the reading
  std::string place;  ///< "X40, 2nd reading"
  std::string told;   ///< what is wrong, or what to know of it
  bool wrong = false;
};

struct PreviewRows {
  std::string heading;  ///< "34 readings, 2 cells cannot be taken"
  std::vector<PreviewRow> rows;
  std::vector<std::string> notes;
  std::string take;     ///< label of the button that does it: "Take 34 readings"; empty when nothing can be taken
  std::string replace;  ///< label of the choice to replace readings that differ; empty when none does
};

/// Pure. What is wrong comes first, each in its own order.
PreviewRows preview_rows(const PastePreview& preview);
PreviewRows preview_rows(const ImportPreview& preview, const std::string& source);

}  // namespace fitwright
