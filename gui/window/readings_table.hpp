#pragma once
// The table of all readings, readable by a screen reader.

#include <wx/dataview.h>
#include <wx/panel.h>

#include <functional>
#include <optional>
#include <vector>

#include "bench/measuring/measure_table.hpp"

namespace fitwright {

class ReadingsTable : public wxPanel {
 public:
  explicit ReadingsTable(wxWindow* parent);

  /// Changes only the cells that differ; the chosen row stays chosen. `inches`: the unit of the lengths.
  void show(std::vector<TableRow> rows, bool inches);
  /// Chooses the row of a reading and scrolls to it. False when there is none.
  bool choose(const ReadingKey& key);
  /// The reading whose row is chosen, if it has a place.
  [[nodiscard]] std::optional<ReadingKey> chosen() const;
  /// The chosen row, or all of them when none is, as lines with tabs.
  [[nodiscard]] std::string as_text() const;
  /// The focus is in it.
  [[nodiscard]] bool in_focus() const;

  std::function<void(const ReadingKey&)> on_go;        ///< Enter or a double click on a row
  std::function<void(const ReadingKey&)> on_take_out;  ///< Delete on a row that holds a reading

  wxDataViewListCtrl& list() { return *list_; }
  [[nodiscard]] const std::vector<TableRow>& rows() const { return rows_; }

 private:
  wxDataViewListCtrl* list_;
  std::vector<TableRow> rows_;
};

}  // namespace fitwright
