#include "fits/trials.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/csv_scanner.hpp"

namespace fitwright {
namespace {

constexpr std::array<std::string_view, 5> names{"clearance_mm", "grade", "copy", "measured_clearance_mm",
                                                "diameter_mm"};
constexpr std::size_t required = 3;
enum { clearance, grade, copy, measured, diameter };

/// A clearance beyond this belongs to no fit: most likely a diameter, or inches, or thousandths.
constexpr double farthest_clearance_mm = 5;

class Reader {
 public:
  Reader(const std::string& csv, const std::string& source) : defects_(source), scanner_(csv, defects_) {
    at_.fill(-1);
    trials_.source = source;
  }

  Result<TrialSet> read() {
    CsvRow row;
    if (!scanner_.next(row)) {
      if (defects_.empty())
        defects_.add(1, 1, "the file holds no text", "begin it with the header row clearance_mm,grade,copy");
      return defects_.take();
    }
    header(row);
    if (!has_columns_) return defects_.take();
    const int header_line = row.line;
    bool any = false;
    while (scanner_.next(row)) {
      any = true;
      if (has_right_width(row)) take(row);
    }
    if (!any && defects_.empty())
      defects_.add(header_line, 1, "there is no trial below the header row",
                   "add one row for each place that was tried");
    if (!defects_.empty()) return defects_.take();
    return std::move(trials_);
  }

 private:
  Defects defects_;
  CsvScanner scanner_;
  std::array<int, names.size()> at_{};
  std::size_t width_ = 0;
  bool has_columns_ = true;
  TrialSet trials_;

  void header(const CsvRow& row) {
    width_ = row.fields.size();
    while (width_ > 1 && row.fields[width_ - 1].text.empty()) --width_;
    for (std::size_t k = 0; k < width_; ++k) {
      const CsvField& f = row.fields[k];
      const auto name = std::find(names.begin(), names.end(), f.text);
      if (name == names.end()) {
        const auto near = nearest(f.text, names);
        defects_.add(f.line, f.column, quote(f.text) + " is no column of trials",
                     near.empty() ? "take it out; the columns are " + std::string(names[0]) + ", grade, copy, " +
                                        std::string(names[3]) + ", diameter_mm"
                                  : "perhaps " + std::string(near) + " is meant");
        continue;
      }
      int& at = at_[static_cast<std::size_t>(name - names.begin())];
      if (at >= 0) defects_.add(f.line, f.column, "the column " + f.text + " is there twice", "take one out");
      at = static_cast<int>(k);
    }
    for (std::size_t k = 0; k < required; ++k) {
      if (at_[k] >= 0) continue;
      defects_.add(row.line, 1, "the column " + std::string(names[k]) + " is missing", "add it");
      has_columns_ = false;
    }
  }

  bool has_right_width(const CsvRow& row) {
    const auto surplus = [](const CsvField& f) { return !f.text.empty(); };
    const auto from = row.fields.begin() + static_cast<std::ptrdiff_t>(std::min(width_, row.fields.size()));
    const auto extra = std::find_if(from, row.fields.end(), surplus);
    if (row.fields.size() >= width_ && extra == row.fields.end()) return true;
    const CsvField& at = extra != row.fields.end() ? *extra : row.fields.back();
    defects_.add(at.line, at.column,
                 "this row has " + std::to_string(row.fields.size()) + (row.fields.size() == 1 ? " field" : " fields") +
                     ", the header has " + std::to_string(width_),
                 row.fields.size() < width_ ? "add what is missing"
                                            : "take out what is too much, or write decimals with a point");
    return false;
  }

  [[nodiscard]] const CsvField* field(const CsvRow& row, int column) const {
    const int at = at_[static_cast<std::size_t>(column)];
    return at < 0 ? nullptr : &row.fields[static_cast<std::size_t>(at)];
  }

  std::optional<double> number(const CsvField& f, int column, const std::string& remedy) {
    const bool comma = f.text.find(',') != std::string::npos;
    if (const auto value = parse_number(f.text, comma && scanner_.separator() != ',')) return value;
    const std::string name(names[static_cast<std::size_t>(column)]);
    defects_.add(f.line, f.column,
                 f.text.empty() ? name + " is empty" : name + " " + quote(f.text) + " is not a number", remedy);
    return std::nullopt;
  }

  std::optional<double> clearance_in(const CsvRow& row, int column) {
    const CsvField* f = field(row, column);
    if (!f || (column != clearance && f->text.empty())) return std::nullopt;
    const auto value = number(*f, column, "write the clearance in mm, like 0.15 or -0.1");
    if (value && std::abs(*value) > farthest_clearance_mm) {
      defects_.add(f->line, f->column,
                   std::string(names[static_cast<std::size_t>(column)]) + " " + quote(f->text) +
                       " is no clearance of a fit: more than " + shortest(farthest_clearance_mm) + " mm",
                   "write hole minus peg, in mm");
      return std::nullopt;
    }
    return value;
  }

  void take(const CsvRow& row) {
    FitTrial t;
    t.row = row.line;
    const auto drawn = clearance_in(row, clearance);
    t.clearance_mm = drawn.value_or(0);
    const CsvField& g = *field(row, grade);
    const auto graded = parse_whole(g.text);
    if (!graded || *graded < 0 || *graded >= grade_count)
      defects_.add(g.line, g.column,
                   g.text.empty() ? "grade is empty" : "grade " + quote(g.text) + " is none of 0 to 4",
                   "write 0 will not enter, 1 press with a tool, 2 push by hand, 3 slides, 4 rattles");
    else
      t.grade = static_cast<Grade>(*graded);
    const CsvField& c = *field(row, copy);
    const auto number_of_copy = parse_whole(c.text);
    if (!number_of_copy || *number_of_copy < 1)
      defects_.add(c.line, c.column,
                   c.text.empty() ? "copy is empty" : "copy " + quote(c.text) + " is no number of a copy",
                   "number the printed copies 1, 2, 3, ...");
    else
      t.copy = *number_of_copy;
    t.measured_clearance_mm = clearance_in(row, measured);
    if (const CsvField* d = field(row, diameter); d && !d->text.empty()) {
      t.diameter_mm = number(*d, diameter, "write the drawn diameter or width in mm, or leave it empty");
      if (t.diameter_mm && *t.diameter_mm <= 0)
        defects_.add(d->line, d->column, "diameter_mm " + quote(d->text) + " is not above zero",
                     "write the drawn diameter or width in mm, or leave it empty");
    }
    trials_.rows.push_back(t);
  }
};

std::string cell(const std::optional<double>& value) { return value ? shortest(*value) : ""; }

}  // namespace

Result<TrialSet> parse_trials(const std::string& csv, const std::string& source) { return Reader(csv, source).read(); }

std::string to_trials_csv(const TrialSet& trials) {
  const auto any = [&](auto member) {
    return std::any_of(trials.rows.begin(), trials.rows.end(),
                       [&](const FitTrial& t) { return (t.*member).has_value(); });
  };
  const bool with_measured = any(&FitTrial::measured_clearance_mm);
  const bool with_diameter = any(&FitTrial::diameter_mm);
  std::string csv = "clearance_mm,grade,copy";
  if (with_measured) csv += ",measured_clearance_mm";
  if (with_diameter) csv += ",diameter_mm";
  csv += '\n';
  for (const FitTrial& t : trials.rows) {
    csv += shortest(t.clearance_mm) + ',' + std::to_string(static_cast<int>(t.grade)) + ',' + std::to_string(t.copy);
    if (with_measured) csv += ',' + cell(t.measured_clearance_mm);
    if (with_diameter) csv += ',' + cell(t.diameter_mm);
    csv += '\n';
  }
  return csv;
}

}  // namespace fitwright
