#include "design/parameters.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {
namespace {

std::string with_unit(double value, const std::string& unit) {
  return said_shortest(value) + (unit == "1" ? "" : " " + unit);
}

const DesignParameter* find(const DesignInfo& info, const std::string& name) {
  const auto at = std::find_if(info.parameters.begin(), info.parameters.end(),
                               [&](const DesignParameter& p) { return p.name == name; });
  return at == info.parameters.end() ? nullptr : &*at;
}

std::string names_of(const DesignInfo& info) {
  std::string names;
  for (const DesignParameter& p : info.parameters) names += (names.empty() ? "" : ", ") + p.name;
  return names;
}

std::optional<Problem> defect(const DesignParameter& p, double value) {
  if (!(value >= p.min && value <= p.max))
    return Problem{Code::bad_input,
                   {},
                   said("{} is out of range ({})", named_value(p.name, value), tr(p.meaning.c_str())),
                   said("choose a value from {} to {}", with_unit(p.min, p.unit), with_unit(p.max, p.unit))};
  if (p.whole && value != std::floor(value))
    return Problem{Code::bad_input,
                   {},
                   said("{} is not a whole number ({})", named_value(p.name, value), tr(p.meaning.c_str())),
                   said("choose a whole number such as {}", said_shortest(p.default_value))};
  return std::nullopt;
}

}  // namespace

std::string named_value(const std::string& name, double value) { return name + " = " + said_shortest(value); }

std::vector<DesignParameter> with_setup(std::vector<DesignParameter> own) {
  // Ranges: from the finest to the coarsest that filament machines of a desk do, and calipers that are sold.
  const std::vector<DesignParameter> setup{
      {param::caliper_range, 150, 50, 1000, "mm", noted("largest length the caliper reads")},
      {param::bed_x, 180, 30, 2000, "mm", noted("bed along the machine's X")},
      {param::bed_y, 180, 30, 2000, "mm", noted("bed along the machine's Y")},
      {param::layer_height, 0.2, 0.05, 0.6, "mm", noted("layer height to be printed with")},
      {param::first_layer_height, 0.2, 0.05, 0.8, "mm", noted("height of the first layer")},
      {param::bead_width, 0.45, 0.2, 1.2, "mm", noted("width of one bead")},
      {param::density, 1.24, 0.5, 10, "g/cm3", noted("density of the material")},
  };
  own.insert(own.end(), setup.begin(), setup.end());
  return own;
}

Result<DesignValues> parse_values(const DesignInfo& info,
                                  const std::vector<std::pair<std::string, std::string>>& overrides) {
  DesignValues values;
  for (const DesignParameter& p : info.parameters) values[p.name] = p.default_value;

  Problems problems;
  std::vector<std::string> seen;
  for (const auto& [name, typed] : overrides) {
    const DesignParameter* p = find(info, name);
    if (!p) {
      problems.push_back({Code::usage,
                          {},
                          "the design " + info.name + " has no parameter '" + name + "'",
                          "use one of " + names_of(info)});
      continue;
    }
    if (std::find(seen.begin(), seen.end(), name) != seen.end()) {
      problems.push_back({Code::usage, {}, name + " is given twice", "give it once"});
      continue;
    }
    seen.push_back(name);
    const std::optional<double> value = parse_number(typed);
    if (!value) {
      problems.push_back({Code::usage,
                          {},
                          name + " = '" + typed + "' is not a number",
                          "give a number with a decimal point, such as " + name + "=" + shortest(p->default_value)});
      continue;
    }
    if (const auto bad = defect(*p, *value)) problems.push_back(*bad);
    values[name] = *value;
  }
  if (!problems.empty()) return problems;
  return values;
}

}  // namespace fitwright
