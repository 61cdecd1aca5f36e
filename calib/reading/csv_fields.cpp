#include "reading/csv_fields.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "reading/checks.hpp"

namespace fitwright {
namespace {

constexpr double mm_per_inch = 25.4;
constexpr int most_facets = 1'000'000;

std::vector<std::string_view> kind_names() {
  std::vector<std::string_view> names;
  for (int k = 0; k <= static_cast<int>(Kind::ring); ++k) names.push_back(word(static_cast<Kind>(k)));
  return names;
}

std::vector<std::string_view> names_of(const std::vector<Axis>& axes) {
  std::vector<std::string_view> names;
  for (const Axis a : axes) names.push_back(word(a));
  return names;
}

bool is_round(Kind kind) {
  return kind == Kind::peg || kind == Kind::hole || kind == Kind::hole_h || kind == Kind::pin;
}

/// "nan", "-inf", "Infinity": what programs write for a number that is none.
bool is_not_finite(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  if (text.starts_with('+') || text.starts_with('-')) text.erase(0, 1);
  return text == "nan" || text == "inf" || text == "infinity";
}

class FieldReader {
 public:
  FieldReader(const CsvRow& row, const ColumnMap& columns, char separator, Unread unread, Defects& defects)
      : row_(row), columns_(columns), separator_(separator), unread_(unread), defects_(defects) {}

  RowContent read() {
    refuse_broken_text();
    c_.id = id();
    c_.kind = kind();
    c_.axis = axis();
    c_.nominal_mm = nominal();
    c_.copy = steel() ? copy_of_steel() : count(Column::copy, tr("number the printed copies 1, 2, 3, ..."));
    c_.repeat = count(Column::repeat, tr("number the readings of one place 1, 2, 3, ..."));
    c_.reading_mm = reading();
    c_.turned_deg = turned();
    c_.facets = facets();
    sides();
    edges();
    step();
    c_.part_c = temperature();
    if (const CsvField* f = columns_.field(row_, Column::note)) c_.note = f->text;
    return std::move(c_);
  }

 private:
  const CsvRow& row_;
  const ColumnMap& columns_;
  char separator_;
  Unread unread_;
  Defects& defects_;
  RowContent c_;

  [[nodiscard]] bool steel() const { return c_.kind && is_steel(*c_.kind); }

  /// The field, or null when there is no such column or it is empty.
  [[nodiscard]] const CsvField* given(Column column) const {
    const CsvField* f = columns_.field(row_, column);
    return f && !without_blanks(f->text).empty() ? f : nullptr;
  }

  void tell(const CsvField& f, std::string what, std::string remedy) {
    defects_.add(f.line, f.column, std::move(what), std::move(remedy));
  }

  void refuse_broken_text() {
    for (const CsvField& f : row_.fields)
      if (invalid_utf8_at(f.text) != std::string::npos)
        tell(f, said("{} is not valid UTF-8", quote(f.text)), tr("save the file as UTF-8 text"));
  }

  /// As given(), but an empty field of a column that must be filled is told.
  const CsvField* wanted(Column column, const std::string& remedy) {
    const CsvField* f = columns_.field(row_, column);
    if (!f || !without_blanks(f->text).empty()) return f;
    tell(*f, said("{} is empty", word(column)), remedy);
    return nullptr;
  }

  std::optional<double> number(const CsvField& f, Column column, const std::string& remedy) {
    const bool comma = f.text.find(',') != std::string::npos;
    if (const auto value = parse_number(f.text, comma && separator_ != ',')) return value;
    const std::string what = std::string(word(column)) + " " + quote(f.text);
    if (is_not_finite(f.text))
      tell(f, said("{} is not a finite number", what), tr("leave the row out when there is no reading"));
    else if (comma && separator_ == ',' && parse_number(f.text, true))
      tell(f, said("{} has a decimal comma in a file separated by commas", what),
           tr("write a point, or separate the columns by ;"));
    else
      tell(f, said("{} is not a number", what), remedy);
    return std::nullopt;
  }

  std::optional<std::string> id() {
    const CsvField* f = wanted(Column::feature_id, tr("write the name engraved beside the feature"));
    if (!f) return std::nullopt;
    const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
    if (!std::any_of(f->text.begin(), f->text.end(), control)) return f->text;
    tell(*f, said("feature_id {} holds a line break or another control character", quote(f->text)),
         tr("write it on one line"));
    return std::nullopt;
  }

  std::optional<Kind> kind() {
    const auto names = kind_names();
    const CsvField* f = wanted(Column::kind, said("use one of {}", alternatives(names)));
    if (!f) return std::nullopt;
    const auto kind = kind_from(without_blanks(f->text));
    if (kind) return kind;
    const auto guess = nearest(f->text, names);
    tell(*f, said("kind {} is not known", quote(f->text)),
         guess.empty() ? said("use one of {}", alternatives(names)) : said("did you mean {}?", quote(guess)));
    return std::nullopt;
  }

  std::optional<Axis> axis() {
    const std::vector<Axis> allowed =
        c_.kind ? axes_of(*c_.kind) : std::vector<Axis>{Axis::x, Axis::y, Axis::z, Axis::xy, Axis::n};
    const auto names = names_of(allowed);
    const CsvField* f = wanted(Column::axis, said("use {}", alternatives(names)));
    if (!f) return std::nullopt;
    const auto axis = axis_from(without_blanks(f->text));
    if (!axis)
      tell(*f, said("axis {} is not known", quote(f->text)), said("use {}", alternatives(names)));
    else if (std::find(allowed.begin(), allowed.end(), *axis) == allowed.end())
      tell(*f, said("the axis of a feature of kind {} cannot be {}", quote(word(*c_.kind)), quote(f->text)),
           said("use {}", alternatives(names)));
    else
      return axis;
    return std::nullopt;
  }

  /// False, and told, when `value_mm` is larger than anything printed.
  bool sane(const CsvField& f, Column column, double value_mm) {
    if (std::abs(value_mm) <= absurd_size_mm) return true;
    tell(f, said("{} {} is more than {} mm", word(column), quote(f.text), said_shortest(absurd_size_mm)),
         tr("check the decimal point and the unit"));
    return false;
  }

  std::optional<double> nominal() {
    const std::string remedy = tr("give the drawn size in mm");
    const CsvField* f = wanted(Column::nominal_mm, remedy);
    if (!f) return std::nullopt;
    const auto value = number(*f, Column::nominal_mm, remedy);
    if (!value || !sane(*f, Column::nominal_mm, *value)) return std::nullopt;
    const bool closed_jaws = c_.kind == Kind::zero;
    if (closed_jaws ? *value == 0 : *value > 0 || !c_.kind) return value;
    tell(*f, said("nominal_mm of kind {} is {}", quote(word(*c_.kind)), shortest(*value)),
         closed_jaws ? tr("closed jaws are 0 apart: write 0") : tr("give the drawn size in mm, above 0"));
    return std::nullopt;
  }

  std::optional<int> count(Column column, const std::string& remedy) {
    const CsvField* f = wanted(column, remedy);
    if (!f) return std::nullopt;
    const auto value = parse_whole(f->text);
    if (value && *value >= 1) return value;
    tell(*f, said("{} {} is not a positive whole number", word(column), quote(f->text)), remedy);
    return std::nullopt;
  }

  /// Steel was not printed, so its copy means nothing; a number is kept to tell rows apart.
  std::optional<int> copy_of_steel() {
    const CsvField* f = given(Column::copy);
    return std::max(1, f ? parse_whole(f->text).value_or(1) : 1);
  }

  std::optional<double> mm_per_unit() {
    const CsvField* f = given(Column::unit);
    if (!f || without_blanks(f->text) == "mm") return 1;
    if (without_blanks(f->text) == "in") return mm_per_inch;
    tell(*f, said("unit {} is not known", quote(f->text)), tr("use mm or in"));
    return std::nullopt;
  }

  /// Whether the reading can be one of the feature; without kind or drawn size only by its sign.
  [[nodiscard]] bool possible(double reading_mm) const {
    if (!c_.kind || !c_.nominal_mm) return reading_mm > 0 || !c_.kind || c_.kind == Kind::zero;
    Feature f;
    f.kind = *c_.kind;
    f.nominal_mm = *c_.nominal_mm;
    return can_be_read(f, reading_mm);
  }

  std::optional<double> reading() {
    const auto factor = mm_per_unit();
    const std::string remedy = tr("give only the number that the caliper shows");
    const CsvField* f = unread_ == Unread::allowed
                            ? given(Column::reading_mm)
                            : wanted(Column::reading_mm, said("{}, or leave the row out", remedy));
    if (!f) return std::nullopt;
    auto value = number(*f, Column::reading_mm, remedy);
    if (!value || !factor) return std::nullopt;
    *value *= *factor;
    if (!sane(*f, Column::reading_mm, *value)) return std::nullopt;
    if (possible(*value)) return value;
    tell(*f,
         said("reading_mm is {}, but a feature of kind {} has a size above 0", shortest(*value), quote(word(*c_.kind))),
         tr("check the sign, and that the caliper was set to zero with its jaws closed"));
    return std::nullopt;
  }

  std::optional<int> turned() {
    const CsvField* f = given(Column::turned_deg);
    if (!f) return 0;
    const auto value = parse_whole(f->text);
    if (value && (*value == 0 || *value == 90 || *value == 180 || *value == 270)) return value;
    tell(*f, said("turned_deg {} is not 0, 90, 180 or 270", quote(f->text)),
         tr("say how the copy lay on the bed, in quarter turns"));
    return std::nullopt;
  }

  std::optional<int> facets() {
    const CsvField* f = given(Column::facets);
    if (!f) return 0;
    const auto value = parse_whole(f->text);
    if (!value || *value < 0 || *value == 1 || *value == 2 || *value > most_facets) {
      tell(*f, said("facets {} is not a number of sides", quote(f->text)),
           tr("give 3 or more, or 0 for a true circle"));
    } else if (*value > 0 && c_.kind && !is_round(*c_.kind)) {
      tell(*f, said("facets is {} for kind {}, which is not round", quote(f->text), quote(word(*c_.kind))),
           tr("leave it empty or 0"));
    } else {
      return value;
    }
    return std::nullopt;
  }

  /// A side of a diagonal's rectangle; 0 stands for none.
  std::optional<double> side(Column column) {
    const CsvField* f = given(column);
    if (!f) return std::nullopt;
    const auto value = number(*f, column, tr("give the side of the rectangle in mm"));
    if (!value || !sane(*f, column, *value) || *value == 0) return std::nullopt;
    if (*value < 0)
      tell(*f, said("{} is {}", word(column), shortest(*value)), tr("give the side of the rectangle in mm, above 0"));
    else if (c_.kind && !is_diagonal(*c_.kind))
      tell(*f, said("{} is given for kind {}", word(column), quote(word(*c_.kind))),
           tr("leave it empty: only diagonals have a rectangle"));
    else
      return value;
    return std::nullopt;
  }

  void sides() {
    const auto before = defects_.count();
    c_.side_a_mm = side(Column::side_a_mm);
    c_.side_b_mm = side(Column::side_b_mm);
    if (defects_.count() != before || c_.side_a_mm.has_value() == c_.side_b_mm.has_value()) return;
    const CsvField* f = given(c_.side_a_mm ? Column::side_a_mm : Column::side_b_mm);
    tell(*f, tr("only one side of the rectangle is given"),
         tr("give side_a_mm and side_b_mm, or neither for a square"));
  }

  void edges() {
    const CsvField* a = given(Column::edge_a);
    const CsvField* b = given(Column::edge_b);
    if (a) c_.edge_a = a->text;
    if (b) c_.edge_b = b->text;
    if ((a == nullptr) != (b == nullptr))
      tell(a ? *a : *b, tr("only one of the two faces is named"), tr("name both in edge_a and edge_b, or neither"));
    else if (a && a->text == b->text)
      tell(*b, said("both faces are called {}", quote(b->text)), tr("name two different faces"));
  }

  void step() {
    const CsvField* f = given(Column::step_mm);
    if (!f) return;
    const auto value = number(*f, Column::step_mm, tr("give the step between the graded shanks in mm"));
    if (value && !(*value > 0 && *value <= 10))
      tell(*f, said("step_mm is {}", shortest(*value)), tr("give the step between the graded shanks in mm, like 0.1"));
    else if (value)
      c_.step_mm = *value;
  }

  std::optional<double> temperature() {
    const CsvField* f = given(Column::part_c);
    if (!f) return std::nullopt;
    const auto value = number(*f, Column::part_c, tr("give degrees Celsius"));
    if (!value || (*value >= -40 && *value <= 120)) return value;
    tell(*f, said("part_c is {}", shortest(*value)),
         tr("give the temperature of the part in degrees Celsius, from -40 to 120"));
    return std::nullopt;
  }
};

}  // namespace

RowContent read_fields(const CsvRow& row, const ColumnMap& columns, char separator, Unread unread, Defects& defects) {
  return FieldReader(row, columns, separator, unread, defects).read();
}

}  // namespace fitwright
