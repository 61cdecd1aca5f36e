#include "reading/features_csv.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/csv_scanner.hpp"

namespace fitwright {
namespace {

constexpr std::array<std::string_view, 10> names{"feature_id", "kind",   "axis",   "nominal_mm", "side_a_mm",
                                                 "side_b_mm",  "facets", "edge_a", "edge_b",     "label"};
constexpr std::size_t required = 4;
enum { id, kind, axis, nominal, side_a, side_b, facets, edge_a, edge_b, label };

class Reader {
 public:
  Reader(const std::string& csv, const std::string& source) : defects_(source), scanner_(csv, defects_) {
    at_.fill(-1);
  }

  Result<std::vector<Feature>> read() {
    CsvRow row;
    if (!scanner_.next(row)) {
      defects_.add(1, 1, "the file holds no text", "begin it with the header row (docs/formats.md)");
      return defects_.take();
    }
    header(row);
    while (defects_.empty() && scanner_.next(row)) take(row);
    if (!defects_.empty()) return defects_.take();
    return std::move(features_);
  }

 private:
  Defects defects_;
  CsvScanner scanner_;
  std::array<int, names.size()> at_{};
  std::size_t width_ = 0;
  std::vector<Feature> features_;
  std::set<std::string> seen_;

  void header(const CsvRow& row) {
    width_ = row.fields.size();
    for (std::size_t k = 0; k < row.fields.size(); ++k) {
      const auto name = std::find(names.begin(), names.end(), row.fields[k].text);
      if (name == names.end()) {
        defects_.add(row.fields[k].line, row.fields[k].column, quote(row.fields[k].text) + " is no column of features",
                     "take it out");
        continue;
      }
      at_[static_cast<std::size_t>(name - names.begin())] = static_cast<int>(k);
    }
    for (std::size_t k = 0; k < required; ++k)
      if (at_[k] < 0) defects_.add(row.line, 1, "the column " + std::string(names[k]) + " is missing", "add it");
  }

  [[nodiscard]] const CsvField* field(const CsvRow& row, int column) const {
    const int at = at_[static_cast<std::size_t>(column)];
    return at < 0 ? nullptr : &row.fields[static_cast<std::size_t>(at)];
  }

  void wrong(const CsvField& f, const std::string& what, const std::string& remedy) {
    defects_.add(f.line, f.column, what, remedy);
  }

  std::optional<double> length(const CsvRow& row, int column) {
    const CsvField* f = field(row, column);
    if (!f || f->text.empty()) return std::nullopt;
    const auto value = parse_number(f->text);
    if (!value || *value < 0) wrong(*f, quote(f->text) + " is not a length in mm", "write it like 40 or 99.5");
    return value;
  }

  [[nodiscard]] std::string text(const CsvRow& row, int column) const {
    const CsvField* f = field(row, column);
    return f ? f->text : std::string();
  }

  void take(const CsvRow& row) {
    if (row.fields.size() != width_) {
      defects_.add(
          row.line, 1,
          "this row has " + std::to_string(row.fields.size()) + " fields, the header has " + std::to_string(width_),
          "give each row as many");
      return;
    }
    Feature f;
    f.id = text(row, id);
    if (f.id.empty())
      wrong(*field(row, id), "a feature without a name", "give it the name engraved on the part");
    else if (!seen_.insert(f.id).second)
      wrong(*field(row, id), quote(f.id) + " is there twice", "take one out");
    if (const auto k = kind_from(text(row, kind)))
      f.kind = *k;
    else
      wrong(*field(row, kind), quote(text(row, kind)) + " is no kind of feature", "docs/formats.md has the kinds");
    if (const auto a = axis_from(text(row, axis)))
      f.axis = *a;
    else
      wrong(*field(row, axis), quote(text(row, axis)) + " is no axis", "write x, y, z, xy or n");
    const auto size = length(row, nominal);
    if (!size && text(row, nominal).empty()) wrong(*field(row, nominal), "no drawn size", "give nominal_mm");
    f.nominal_mm = size.value_or(0);
    f.side_a_mm = length(row, side_a);
    f.side_b_mm = length(row, side_b);
    if (const CsvField* n = field(row, facets); n && !n->text.empty()) {
      const auto count = parse_whole(n->text);
      if (!count || *count < 0) wrong(*n, quote(n->text) + " is not a number of facets", "write 0 for a true circle");
      f.facets = count.value_or(0);
    }
    f.edge_a = text(row, edge_a);
    f.edge_b = text(row, edge_b);
    f.label = text(row, label);
    features_.push_back(std::move(f));
  }
};

/// Quoted where the text would break the row.
std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos &&
      (text.empty() || (text.front() != ' ' && text.back() != ' ')))
    return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

std::string cell(const std::optional<double>& value) { return value ? shortest(*value) : ""; }

}  // namespace

Result<std::vector<Feature>> parse_features(const std::string& csv, const std::string& source) {
  return Reader(csv, source).read();
}

std::string to_features_csv(const std::vector<Feature>& features) {
  std::string csv = "feature_id,kind,axis,nominal_mm,side_a_mm,side_b_mm,facets,edge_a,edge_b,label\n";
  for (const Feature& f : features) {
    csv += cell(f.id) + ',' + std::string(word(f.kind)) + ',' + std::string(word(f.axis)) + ',' +
           shortest(f.nominal_mm) + ',' + cell(f.side_a_mm) + ',' + cell(f.side_b_mm) + ',' +
           (f.facets ? std::to_string(f.facets) : "") + ',' + cell(f.edge_a) + ',' + cell(f.edge_b) + ',' +
           cell(f.label) + '\n';
  }
  return csv;
}

}  // namespace fitwright
