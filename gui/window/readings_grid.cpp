#include "window/readings_grid.hpp"

#include <wx/dc.h>
#include <wx/settings.h>

#include <algorithm>

#include "window/access.hpp"
#include "window/grid_drawing.hpp"

namespace fitwright {
namespace {

/// Asks the grid for texts; an edit goes out through the grid, and comes back as a new set of readings.
class Table : public wxGridTableBase {
 public:
  explicit Table(ReadingsGrid& grid) : grid_(grid) {}

  int GetNumberRows() override { return static_cast<int>(grid_.readings().rows.size()); }
  int GetNumberCols() override { return static_cast<int>(grid_.columns().size()); }
  bool IsEmptyCell(int, int) override { return false; }

  wxString GetValue(int row, int col) override {
    if (row < 0 || row >= GetNumberRows() || col < 0 || col >= GetNumberCols()) return {};
    return wx(cell_editable(grid_.readings().rows[static_cast<std::size_t>(row)], column(col)));
  }
  void SetValue(int row, int col, const wxString& value) override {
    if (grid_.on_typed) grid_.on_typed(static_cast<std::size_t>(row), column(col), utf8(value));
  }
  wxString GetColLabelValue(int col) override { return wx(info(column(col)).title); }

  wxGridCellAttr* GetAttr(int row, int col, wxGridCellAttr::wxAttrKind kind) override {
    wxGridCellAttr* attr = wxGridTableBase::GetAttr(row, col, kind);
    if (!attr) attr = new wxGridCellAttr;
    attr->SetReadOnly(!info(column(col)).editable);
    return attr;
  }

 private:
  [[nodiscard]] Column column(int col) const { return grid_.columns()[static_cast<std::size_t>(col)]; }
  ReadingsGrid& grid_;
};

}  // namespace

ReadingsGrid::ReadingsGrid(wxWindow* parent)
    : wxGrid(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(600, 400)), wxWANTS_CHARS | wxBORDER_NONE),
      theme_(theme_of(*this)),
      columns_(visible_columns(false)) {
  auto* table = new Table(*this);
  table->SetAttrProvider(new HeaderProvider(*this));
  SetTable(table, true);
  SetDefaultRenderer(new CellDrawing(*this));
  SetRowLabelSize(0);
  SetTabBehaviour(Tab_Leave);
  DisableDragRowSize();
  EnableGridLines(false);
  SetCellHighlightROPenWidth(1);
  SetCellHighlightPenWidth(2);
  apply_theme();
  set_widths();
  set_accessible(*this, "Readings");
  set_accessible(*GetGridWindow(), "Readings");

  Bind(wxEVT_GRID_SELECT_CELL, [this](wxGridEvent& event) {
    event.Skip();
    if (on_row && event.GetRow() >= 0) on_row(static_cast<std::size_t>(event.GetRow()));
  });
  Bind(wxEVT_GRID_EDITOR_CREATED, [this](wxGridEditorCreatedEvent& event) {
    event.Skip();
    event.GetControl()->Bind(wxEVT_TEXT, [this](wxCommandEvent& typed) {
      typed.Skip();
      const bool reading = columns_[column_index()] == Column::reading;
      if (on_typing && reading && IsCellEditControlShown()) on_typing(utf8(typed.GetString()));
    });
  });
  Bind(wxEVT_GRID_EDITOR_HIDDEN, [this](wxGridEvent& event) {
    event.Skip();
    if (on_typing) on_typing({});
  });
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    fill_width();
  });
  GetGridWindow()->Bind(wxEVT_KEY_DOWN, &ReadingsGrid::on_key, this);
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    theme_ = theme_of(*this);
    apply_theme();
  });
}

void ReadingsGrid::apply_theme() {
  SetDefaultCellFont(theme_.body);
  SetDefaultCellBackgroundColour(theme_.ground);
  SetDefaultCellTextColour(theme_.text);
  SetSelectionBackground(theme_.chosen);
  SetSelectionForeground(theme_.chosen_text);
  SetCellHighlightColour(theme_.accent);
  SetLabelFont(theme_.body);
  SetLabelBackgroundColour(theme_.ground);
  SetLabelTextColour(theme_.quiet);
  GetGridWindow()->SetBackgroundColour(theme_.ground);
  const int line = theme_.body.GetPixelSize().y;
  SetDefaultRowSize(std::max(GetCharHeight(), line) + 2 * theme_.space, true);
  SetColLabelSize(GetCharHeight() + 4 * theme_.space);
  ForceRefresh();
}

void ReadingsGrid::set_widths() {
  widths_.clear();
  for (const Column column : columns_) {
    const ColumnInfo told = info(column);
    const int sign = column == Column::remark ? 4 * theme_.space : 0;
    const int text = std::max(GetTextExtent(wx(told.widest)).x, GetTextExtent(wx(told.title)).x);
    widths_.push_back(text + sign + 4 * theme_.space);
  }
  fill_width();
}

/// The last column takes what is left, so that the stripes run through.
void ReadingsGrid::fill_width() {
  int used = 0;
  for (std::size_t i = 0; i < widths_.size(); ++i) {
    const bool last = i + 1 == widths_.size();
    const int width = last ? std::max(widths_[i], GetClientSize().x - used) : widths_[i];
    if (GetColSize(static_cast<int>(i)) != width) SetColSize(static_cast<int>(i), width);
    used += width;
  }
}

int ReadingsGrid::wanted_width() const {
  int width = wxSystemSettings::GetMetric(wxSYS_VSCROLL_X, this);
  for (const int column : widths_) width += column;
  return width + 2 * theme_.space;
}

void ReadingsGrid::count_stripes() {
  stripes_.assign(readings_->rows.size(), false);
  for (std::size_t i = 1; i < stripes_.size(); ++i) {
    const bool same = readings_->rows[i].feature.id == readings_->rows[i - 1].feature.id;
    stripes_[i] = same ? stripes_[i - 1] : !stripes_[i - 1];
  }
}

void ReadingsGrid::show(std::shared_ptr<const ReadingSet> readings, bool all_columns) {
  const int old_rows = GetNumberRows();
  const std::vector<Column> old_columns = columns_;
  readings_ = std::move(readings);
  columns_ = visible_columns(all_columns);
  decimals_ = decimals_of(*readings_);
  marks_.clear();
  count_stripes();

  BeginBatch();
  const int rows = static_cast<int>(readings_->rows.size());
  const auto tell = [this](int message, int at, int count) {
    wxGridTableMessage note(GetTable(), message, at, count);
    ProcessTableMessage(note);
  };
  if (rows > old_rows) {
    wxGridTableMessage note(GetTable(), wxGRIDTABLE_NOTIFY_ROWS_APPENDED, rows - old_rows);
    ProcessTableMessage(note);
  }
  if (rows < old_rows) tell(wxGRIDTABLE_NOTIFY_ROWS_DELETED, rows, old_rows - rows);
  const int cols = static_cast<int>(columns_.size());
  const int old_cols = static_cast<int>(old_columns.size());
  if (cols > old_cols) {
    wxGridTableMessage note(GetTable(), wxGRIDTABLE_NOTIFY_COLS_APPENDED, cols - old_cols);
    ProcessTableMessage(note);
  }
  if (cols < old_cols) tell(wxGRIDTABLE_NOTIFY_COLS_DELETED, cols, old_cols - cols);
  if (columns_ != old_columns || old_rows == 0) set_widths();
  EndBatch();
  ForceRefresh();
}

void ReadingsGrid::show_marks(const std::map<std::size_t, RowMark>& marks) {
  marks_ = marks;
  ForceRefresh();
}

std::size_t ReadingsGrid::row() const { return static_cast<std::size_t>(std::max(0, GetGridCursorRow())); }
std::size_t ReadingsGrid::column_index() const { return static_cast<std::size_t>(std::max(0, GetGridCursorCol())); }

void ReadingsGrid::go_to(std::size_t row) {
  if (row >= readings_->rows.size()) return;
  const auto reading = std::find(columns_.begin(), columns_.end(), Column::reading);
  const int col = static_cast<int>(reading - columns_.begin());
  ClearSelection();
  SetGridCursor(static_cast<int>(row), col);
  MakeCellVisible(static_cast<int>(row), col);
}

std::vector<std::size_t> ReadingsGrid::chosen_rows() const {
  std::vector<std::size_t> rows;
  for (const wxGridBlockCoords& block : GetSelectedRowBlocks())
    for (int r = block.GetTopRow(); r <= block.GetBottomRow(); ++r) rows.push_back(static_cast<std::size_t>(r));
  for (const wxGridBlockCoords& block : GetSelectedBlocks())
    for (int r = block.GetTopRow(); r <= block.GetBottomRow(); ++r) rows.push_back(static_cast<std::size_t>(r));
  if (rows.empty() && GetGridCursorRow() >= 0) rows.push_back(row());
  std::sort(rows.begin(), rows.end());
  rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
  return rows;
}

std::string ReadingsGrid::selected_text() const {
  int top = GetGridCursorRow(), bottom = top, left = GetGridCursorCol(), right = left;
  for (const wxGridBlockCoords& block : GetSelectedBlocks()) {
    top = block.GetTopRow();
    bottom = block.GetBottomRow();
    left = block.GetLeftCol();
    right = block.GetRightCol();
    break;
  }
  std::string text;
  for (int r = std::max(0, top); r <= bottom; ++r) {
    for (int c = std::max(0, left); c <= right; ++c)
      text += (c == left ? "" : "\t") + (columns_[static_cast<std::size_t>(c)] == Column::remark
                                             ? shown_text(r, c)
                                             : utf8(GetTable()->GetValue(r, c)));
    text += "\n";
  }
  return text;
}

std::string ReadingsGrid::shown_text(int row, int col) const {
  const Column column = columns_[static_cast<std::size_t>(col)];
  const Reading& r = readings_->rows[static_cast<std::size_t>(row)];
  if (column != Column::remark) return cell_shown(r, column, decimals_);
  const RowMark* found = mark(row);
  return found ? found->remark : r.note;
}

const RowMark* ReadingsGrid::mark(int row) const {
  const auto found = marks_.find(static_cast<std::size_t>(row));
  return found == marks_.end() ? nullptr : &found->second;
}

bool ReadingsGrid::striped(int row) const {
  return static_cast<std::size_t>(row) < stripes_.size() && stripes_[static_cast<std::size_t>(row)];
}

void ReadingsGrid::on_key(wxKeyEvent& event) {
  if (event.GetKeyCode() == WXK_DELETE && !event.HasAnyModifiers() && on_clear) {
    on_clear();
    return;
  }
  event.Skip();
}

}  // namespace fitwright
