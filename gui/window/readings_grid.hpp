#pragma once
// The table of readings: shows what the bench says stands in each cell, and hands on what is typed.

#include <wx/grid.h>

#include <functional>
#include <string>
#include <vector>

#include "bench/bench_view.hpp"
#include "bench/columns.hpp"
#include "window/theme.hpp"

namespace fitwright {

class ReadingsGrid : public wxGrid {
 public:
  explicit ReadingsGrid(wxWindow* parent);

  /// Shows the readings; `all_columns` also those that are rarely needed.
  void show(std::shared_ptr<const ReadingSet> readings, bool all_columns);
  /// Marks of suspicious rows; they arrive later than the readings.
  void show_marks(const std::map<std::size_t, RowMark>& marks);

  [[nodiscard]] std::size_t row() const;
  void go_to(std::size_t row);
  /// Width that shows every column whole, with room for the scroll bar.
  [[nodiscard]] int wanted_width() const;
  /// Rows touched by the selection or the cursor, in order.
  [[nodiscard]] std::vector<std::size_t> chosen_rows() const;
  [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }
  [[nodiscard]] std::size_t column_index() const;
  /// The selected block (or the cell under the cursor) as lines with tabs.
  [[nodiscard]] std::string selected_text() const;

  std::function<void(std::size_t row, Column column, const std::string& text)> on_typed;
  std::function<void(std::size_t row)> on_row;
  /// Called with the text of a reading while it is typed, and with none when the typing ends.
  std::function<void(const std::string& text)> on_typing;
  std::function<void()> on_clear;  ///< Delete pressed on cells

  // What the drawing and the table need to know.
  [[nodiscard]] const ReadingSet& readings() const { return *readings_; }
  [[nodiscard]] std::string shown_text(int row, int col) const;
  [[nodiscard]] const RowMark* mark(int row) const;
  [[nodiscard]] bool striped(int row) const;
  [[nodiscard]] const Theme& theme() const { return theme_; }

 private:
  void apply_theme();
  void set_widths();
  void fill_width();
  void count_stripes();
  void on_key(wxKeyEvent& event);

  Theme theme_;
  std::shared_ptr<const ReadingSet> readings_ = std::make_shared<const ReadingSet>();
  std::map<std::size_t, RowMark> marks_;
  std::vector<Column> columns_;
  std::vector<bool> stripes_;
  std::vector<int> widths_;  // of the columns, as their texts need them
  Decimals decimals_;
};

}  // namespace fitwright
