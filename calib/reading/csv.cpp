#include "reading/csv.hpp"

#include <algorithm>
#include <limits>
#include <unordered_map>
#include <unordered_set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "reading/csv_fields.hpp"

namespace fitwright {
namespace {

/// What the rows of one feature have agreed on so far.
struct Known {
  Feature feature;
  int line = 0;                                         ///< of the row that said so
  std::unordered_map<int, std::pair<int, int>> turned;  ///< copy -> turned_deg and the line that said so
  std::unordered_map<long long, int> line_of;           ///< copy and repeat -> line
};

class Reader {
 public:
  Reader(const std::string& csv, const std::string& source, Unread unread)
      : defects_(source), scanner_(csv, defects_), unread_(unread) {
    parsed_.read.source = source;
  }

  Result<PartlyRead> read() {
    CsvRow row;
    if (!scanner_.next(row)) {
      if (defects_.empty())
        defects_.add(1, 1, tr("the file holds no text"), tr("begin it with the header row (docs/formats.md)"));
      return defects_.take();
    }
    const auto columns = ColumnMap::from_header(row, defects_);
    if (!columns) return defects_.take();
    const int header_line = row.line;
    bool any = false;
    while (scanner_.next(row)) {
      any = true;
      if (has_right_width(row, columns->width())) take_row(row, *columns);
    }
    if (!any && defects_.empty())
      defects_.add(header_line, 1, tr("there is no reading below the header row"), tr("add one row for each reading"));
    if (!defects_.empty()) return defects_.take();
    return std::move(parsed_);
  }

 private:
  Defects defects_;
  CsvScanner scanner_;
  Unread unread_;
  PartlyRead parsed_;
  std::unordered_map<std::string, Known> known_;

  /// Empty fields beyond the header are let pass: spreadsheets leave them.
  bool has_right_width(const CsvRow& row, std::size_t width) {
    const auto extra =
        std::find_if(row.fields.begin() + static_cast<std::ptrdiff_t>(std::min(width, row.fields.size())),
                     row.fields.end(), [](const CsvField& f) { return !f.text.empty(); });
    if (row.fields.size() >= width && extra == row.fields.end()) return true;
    const CsvField& at = extra != row.fields.end() ? *extra : row.fields.back();
    const bool many = row.fields.size() > width;
    std::string remedy = !many ? tr("add what is missing")
                         : scanner_.separator() == ','
                             ? tr("write decimals with a point, and quote a text that holds a comma")
                             : tr("take out what is too much, or quote a text that holds a separator");
    if (row.fields[0].text.starts_with('#')) remedy = tr("take it out: a readings file has no comment lines");
    defects_.add(at.line, at.column,
                 said_many("this row has {} field, the header has {}", "this row has {} fields, the header has {}",
                           row.fields.size(), width),
                 remedy);
    return false;
  }

  void take_row(const CsvRow& row, const ColumnMap& columns) {
    const auto defects_before = defects_.count();
    const RowContent c = read_fields(row, columns, scanner_.separator(), unread_, defects_);
    const bool sound = defects_.count() == defects_before;
    if (!c.id) return;
    Known& known = known_[*c.id];
    check_against_earlier(row, columns, c, known);
    Reading r;
    r.feature = feature_of(c);
    r.copy = c.copy.value_or(1);
    r.repeat = c.repeat.value_or(1);
    r.reading_mm = c.reading_mm.value_or(std::numeric_limits<double>::quiet_NaN());
    r.turned_deg = c.turned_deg.value_or(0);
    r.step_mm = c.step_mm;
    r.part_c = c.part_c;
    r.note = c.note;
    r.row = row.line;
    if (known.line == 0 && sound && c.kind && c.axis && c.nominal_mm) {
      known.feature = r.feature;
      known.line = row.line;
    }
    if (defects_.empty()) (c.reading_mm ? parsed_.read.rows : parsed_.unread).push_back(std::move(r));
  }

  static Feature feature_of(const RowContent& c) {
    Feature f;
    f.id = *c.id;
    f.kind = c.kind.value_or(Kind::outer);
    f.axis = c.axis.value_or(Axis::x);
    f.nominal_mm = c.nominal_mm.value_or(0);
    f.side_a_mm = c.side_a_mm;
    f.side_b_mm = c.side_b_mm;
    f.facets = c.facets.value_or(0);
    f.edge_a = c.edge_a;
    f.edge_b = c.edge_b;
    return f;
  }

  void check_against_earlier(const CsvRow& row, const ColumnMap& columns, const RowContent& c, Known& known) {
    const auto place = [&](Column column) -> const CsvField& {
      const CsvField* f = columns.field(row, column);
      return f ? *f : row.fields[0];
    };
    const auto same = [&](Column column, bool equal, const std::string& here, const std::string& there) {
      if (equal) return;
      const CsvField& f = place(column);
      defects_.add(
          f.line, f.column,
          said("{} of {} is {}, but {} on line {}", word(column), quote(*c.id), quote(here), quote(there), known.line),
          tr("correct one of the two, or give two features two names"));
    };
    const auto text = [](const std::optional<double>& v) { return v ? shortest(*v) : std::string(); };
    if (known.line > 0) {
      const Feature& k = known.feature;
      if (c.kind) same(Column::kind, *c.kind == k.kind, std::string(word(*c.kind)), std::string(word(k.kind)));
      if (c.axis) same(Column::axis, *c.axis == k.axis, std::string(word(*c.axis)), std::string(word(k.axis)));
      if (c.nominal_mm)
        same(Column::nominal_mm, *c.nominal_mm == k.nominal_mm, shortest(*c.nominal_mm), shortest(k.nominal_mm));
      if (c.facets) same(Column::facets, *c.facets == k.facets, std::to_string(*c.facets), std::to_string(k.facets));
      same(Column::side_a_mm, c.side_a_mm == k.side_a_mm, text(c.side_a_mm), text(k.side_a_mm));
      same(Column::side_b_mm, c.side_b_mm == k.side_b_mm, text(c.side_b_mm), text(k.side_b_mm));
      same(Column::edge_a, c.edge_a == k.edge_a, c.edge_a, k.edge_a);
      same(Column::edge_b, c.edge_b == k.edge_b, c.edge_b, k.edge_b);
    }
    if (!c.copy || !c.repeat) return;
    constexpr long long span = 1LL << 32;  // repeat is an int
    const auto [earlier, is_new] = known.line_of.emplace(*c.copy * span + *c.repeat, row.line);
    if (!is_new) {
      const CsvField& f = place(Column::repeat);
      defects_.add(
          f.line, f.column,
          said("copy {}, repeat {} of {} is already on line {}", *c.copy, *c.repeat, quote(*c.id), earlier->second),
          tr("take one out, or give each reading of a place its own repeat"));
    }
    if (!c.turned_deg || (c.kind && is_steel(*c.kind))) return;
    const auto [lay, first] = known.turned.emplace(*c.copy, std::pair(*c.turned_deg, row.line));
    if (!first && lay->second.first != *c.turned_deg) {
      const CsvField& f = place(Column::turned_deg);
      defects_.add(f.line, f.column,
                   said("copy {} of {} lay at {}, but at {} on line {}", *c.copy, quote(*c.id), *c.turned_deg,
                        lay->second.first, lay->second.second),
                   tr("a copy lies one way: correct turned_deg, or number it as another copy"));
    }
  }
};

/// Text that is no text: told once, since nothing else in it could be read.
std::optional<Problem> not_text(const std::string& csv, const std::string& source) {
  if (csv.starts_with("\xFF\xFE") || csv.starts_with("\xFE\xFF"))
    return Problem{Code::bad_input, {source, 1, 1}, tr("the file is UTF-16 text"), tr("save it as UTF-8")};
  const auto nul = csv.find('\0');
  if (nul == std::string::npos) return std::nullopt;
  const auto line_start = csv.find_last_of('\n', nul);
  const std::size_t begin = line_start == std::string::npos ? 0 : line_start + 1;
  const auto line = 1 + std::count(csv.begin(), csv.begin() + static_cast<std::ptrdiff_t>(nul), '\n');
  const auto column = 1 + characters(std::string_view(csv).substr(begin, nul - begin));
  return Problem{
      Code::bad_input,
      {source, static_cast<int>(line), static_cast<int>(column)},
      said("the file holds {} NUL bytes, this is the first: it is not text", std::count(csv.begin(), csv.end(), '\0')),
      tr("save it as UTF-8 text (CSV)")};
}

}  // namespace

Result<ReadingSet> parse_readings(const std::string& csv, const std::string& source) {
  if (const auto problem = not_text(csv, source)) return *problem;
  auto parsed = Reader(csv, source, Unread::told).read();
  if (!parsed) return parsed.problems();
  return std::move(parsed->read);
}

Result<PartlyRead> parse_partly_read(const std::string& csv, const std::string& source) {
  if (const auto problem = not_text(csv, source)) return *problem;
  return Reader(csv, source, Unread::allowed).read();
}

}  // namespace fitwright
