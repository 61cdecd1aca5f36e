// The list of features that goes with a coupon: one row a feature, columns as docs/formats.md gives them.

#include "base/number.hpp"
#include "design/design.hpp"

namespace fitwright {
namespace {

/// Quoted where the text would break the row.
std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

std::string cell(const std::optional<double>& value) { return value ? shortest(*value) : ""; }

}  // namespace

std::string features_csv(const Coupon& coupon) {
  std::string csv = "feature_id,kind,axis,nominal_mm,side_a_mm,side_b_mm,facets,edge_a,edge_b,label\n";
  for (const Feature& f : coupon.features) {
    csv += cell(f.id) + ',' + std::string(word(f.kind)) + ',' + std::string(word(f.axis)) + ',' +
           shortest(f.nominal_mm) + ',' + cell(f.side_a_mm) + ',' + cell(f.side_b_mm) + ',' +
           (f.facets ? std::to_string(f.facets) : "") + ',' + cell(f.edge_a) + ',' + cell(f.edge_b) + ',' +
           cell(f.label) + '\n';
  }
  return csv;
}

}  // namespace fitwright
