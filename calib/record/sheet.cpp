#include "record/sheet.hpp"

#include <stdexcept>

#include "base/number.hpp"
#include "base/text.hpp"

namespace fitwright::record {

std::string sheet_text(const std::string& text) {
  // What follows such a beginning is worked out by spreadsheets when the file is opened, whoever wrote it.
  const bool formula = !text.empty() && std::string_view("=+-@\t\r\n").find(text[0]) != std::string_view::npos;
  const std::string safe = formula ? "'" + text : text;
  if (safe.find_first_of(",;\t\"\r\n") == std::string::npos && safe == without_blanks(safe)) return safe;
  std::string out = "\"";
  for (const char c : safe) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string sheet_number(const std::optional<double>& number) { return number ? shortest(*number) : std::string(); }

Result<std::vector<SetupNames>> setups_for(Record& record, const Id& setup) {
  // The newest row of each, also when it ended: what was measured under it is there all the same.
  const auto newest = [](const std::string& table, const std::string& thing) {
    return "(SELECT id FROM " + table + " AS q WHERE q.thing = " + thing + " ORDER BY q.at DESC, q.id DESC LIMIT 1)";
  };
  const std::string sql = "SELECT s.thing, s.name, p.name, m.name, l.name FROM setup AS f JOIN setup AS s ON s.id = " +
                          newest("setup", "f.thing") +
                          " JOIN printer AS p ON p.id = " + newest("printer", "s.printer") +
                          " JOIN spool AS l ON l.id = " + newest("spool", "s.spool") +
                          " JOIN material AS m ON m.id = " + newest("material", "l.material") +
                          " WHERE f.id = f.thing ORDER BY f.at, f.thing";
  std::vector<SetupNames> found;
  record.database().each(sql, [&](Statement& row) {
    SetupNames names{{row.text(0)}, row.text(1), row.text(2), row.text(3), row.text(4)};
    if (setup.empty() || setup == names.id) found.push_back(std::move(names));
  });
  if (!setup.empty() && found.empty())
    return Problem{Code::bad_input,
                   {record.path(), 0, 0},
                   "there is no setup " + quote(setup.text) + " in the record",
                   "list the setups"};
  return found;
}

Sheet::Sheet(const std::vector<std::string>& columns) : width_(columns.size()) {
  add(columns);
  sheet.rows = 0;
}

void Sheet::add(const std::vector<std::string>& cells) {
  if (cells.size() != width_) throw std::logic_error("a row of a spreadsheet with another number of cells");
  for (const std::string& cell : cells) (sheet.csv += cell) += ',';
  sheet.csv.back() = '\n';
  ++sheet.rows;
}

}  // namespace fitwright::record
