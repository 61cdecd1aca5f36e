#include "reading/csv_columns.hpp"

#include <algorithm>
#include <span>
#include <string>

#include "base/text.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

const auto required_names = std::span(column_names).first(required_columns);

std::string required_header() {
  std::string out;
  for (const auto name : required_names) (out += out.empty() ? "" : ",") += name;
  return out;
}

}  // namespace

std::optional<ColumnMap> ColumnMap::from_header(const CsvRow& header, Defects& defects) {
  const auto position_of = [](std::string_view name) {
    return static_cast<std::size_t>(std::find(column_names.begin(), column_names.end(), name) - column_names.begin());
  };
  const auto is_known = [&](const CsvField& f) { return position_of(f.text) < column_names.size(); };
  if (std::none_of(header.fields.begin(), header.fields.end(), is_known)) {
    defects.add(header.line, 1, tr("the first row names none of the columns"),
                said("begin the file with the header row {}", required_header()));
    return std::nullopt;
  }
  ColumnMap map;
  map.position_.fill(-1);
  map.width_ = header.fields.size();
  while (header.fields[map.width_ - 1].text.empty()) --map.width_;
  for (std::size_t i = 0; i < map.width_; ++i) {
    const CsvField& f = header.fields[i];
    const std::size_t column = position_of(f.text);
    if (f.text.empty()) {
      defects.add(f.line, f.column, tr("this column has no name"), tr("name it, or take it out"));
    } else if (column == column_names.size()) {
      const auto guess = nearest(f.text, column_names);
      defects.add(f.line, f.column, said("column {} is not known", quote(f.text)),
                  guess.empty() ? tr("take it out, or put its content into the column note")
                                : said("did you mean {}?", quote(guess)));
    } else if (map.position_[column] >= 0) {
      defects.add(f.line, f.column, said("column {} is given twice", quote(f.text)), tr("keep one of the two"));
    } else {
      map.position_[column] = static_cast<int>(i);
    }
  }
  for (std::size_t column = 0; column < required_columns; ++column)
    if (map.position_[column] < 0)
      defects.add(header.line, 1, said("column {} is missing", quote(column_names[column])),
                  tr("add it to the header row and fill it"));
  return map;
}

}  // namespace fitwright
