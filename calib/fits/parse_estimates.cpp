// Estimates from their JSON.

#include <cmath>

#include "base/json.hpp"
#include "fits/basis.hpp"

namespace fitwright {
namespace {

class Reader {
 public:
  Reader(const JsonValue& document, const std::string& source) : document_(document), source_(source) {}

  Result<Estimates> read() {
    const JsonValue* parameters = list(document_, "parameters");
    const JsonValue* covariance = document_.is(JsonValue::Type::object) ? document_.find("covariance") : nullptr;
    if (!parameters || !covariance) {
      if (problems_.empty())
        tell(document_, "this is no estimate: it has no covariance",
             "write one with fitw estimate READINGS.csv --json");
      return problems_;
    }
    for (const JsonValue& item : parameters->items) parameter(item);
    read_covariance(*covariance);
    if (const JsonValue* method = document_.find("method"); method && method->is(JsonValue::Type::string))
      out_.method = method->string;
    if (const JsonValue* counts = document_.find("counts"); counts && counts->is(JsonValue::Type::object)) {
      out_.counts.features = static_cast<int>(number(*counts, "features", false));
      out_.counts.copies = static_cast<int>(number(*counts, "copies", false));
      out_.counts.readings = static_cast<int>(number(*counts, "readings", false));
    }
    if (const JsonValue* scatter = document_.find("scatter"); scatter && scatter->is(JsonValue::Type::object))
      for (const auto& member : scatter->members)
        if (member.value.is(JsonValue::Type::number)) out_.scatter[member.name] = member.value.number;
    if (const JsonValue* priors = document_.find("priors"); priors && priors->is(JsonValue::Type::array))
      for (const JsonValue& p : priors->items)
        if (p.is(JsonValue::Type::object) && p.find("parameter"))
          out_.priors.push_back({p.find("parameter")->string, number(p, "mean", false), number(p, "sd", false), ""});
    if (!problems_.empty()) return problems_;
    return std::move(out_);
  }

 private:
  const JsonValue& document_;
  std::string source_;
  Estimates out_;
  Problems problems_;

  void tell(const JsonValue& at, std::string what, std::string remedy) {
    problems_.push_back({Code::bad_input, {source_, at.line, at.column}, std::move(what), std::move(remedy)});
  }

  const JsonValue* list(const JsonValue& in, const char* name) {
    const JsonValue* found = in.is(JsonValue::Type::object) ? in.find(name) : nullptr;
    if (found && found->is(JsonValue::Type::array)) return found;
    tell(found ? *found : in, std::string("this is no estimate: it has no list ") + name,
         "write one with fitw estimate READINGS.csv --json");
    return nullptr;
  }

  /// A number by its name; null (not finite) is infinity. `needed`: its absence is told.
  double number(const JsonValue& in, const char* name, bool needed) {
    const JsonValue* found = in.find(name);
    if (found && found->is(JsonValue::Type::number)) return found->number;
    if (found && found->is(JsonValue::Type::null)) return INFINITY;
    if (needed || found) tell(found ? *found : in, std::string(name) + " should be a number", "write one");
    return 0;
  }

  void parameter(const JsonValue& item) {
    const JsonValue* name = item.is(JsonValue::Type::object) ? item.find("name") : nullptr;
    if (!name || !name->is(JsonValue::Type::string)) {
      tell(item, "a parameter without a name", "write the estimate anew");
      return;
    }
    Parameter p;
    p.name = name->string;
    p.value = number(item, "value", true);
    p.u = number(item, "u", true);
    p.df = number(item, "df", true);
    p.lower = number(item, "lower", false);
    p.upper = number(item, "upper", false);
    if (!std::isfinite(p.value)) tell(*name, p.name + " has no value", "write the estimate anew");
    out_.parameters.push_back(std::move(p));
  }

  void read_covariance(const JsonValue& covariance) {
    const JsonValue* names = list(covariance, "names");
    const JsonValue* matrix = list(covariance, "matrix");
    if (!names || !matrix) return;
    const std::size_t n = out_.parameters.size();
    bool fits = names->items.size() == n && matrix->items.size() == n;
    for (std::size_t i = 0; fits && i < n; ++i)
      fits = names->items[i].string == out_.parameters[i].name && matrix->items[i].items.size() == n;
    if (!fits) {
      tell(covariance, "the covariance does not belong to the parameters", "write the estimate anew");
      return;
    }
    const auto size = static_cast<Eigen::Index>(n);
    out_.covariance.resize(size, size);
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j) {
        const JsonValue& value = matrix->items[i].items[j];
        if (!value.is(JsonValue::Type::number))
          tell(value, "a covariance that is no number", "write the estimate anew");
        out_.covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = value.number;
      }
    for (Eigen::Index i = 0; i < size; ++i)
      for (Eigen::Index j = 0; j <= i; ++j) {
        const double a = out_.covariance(i, j), b = out_.covariance(j, i);
        const double most = std::sqrt(std::abs(out_.covariance(i, i) * out_.covariance(j, j)));
        if (out_.covariance(i, i) < 0 || std::abs(a - b) > 1e-9 * most + 1e-300 || std::abs(a) > most * (1 + 1e-9)) {
          tell(covariance, "the matrix is no covariance", "write the estimate anew");
          return;
        }
      }
  }
};

}  // namespace

Result<Estimates> parse_estimates(const std::string& json, const std::string& source) {
  const auto document = parse_json(json, source);
  if (!document) return document.problems();
  return Reader(*document, source).read();
}

}  // namespace fitwright
