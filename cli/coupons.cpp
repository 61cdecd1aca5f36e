// fitw coupons: the designs there are.

#include "base/number.hpp"
#include "commands.hpp"
#include "design/design.hpp"
#include "report/json_text.hpp"
#include "report/layout.hpp"

namespace fitw {
namespace {

using fitwright::Coupon;
using fitwright::DesignInfo;
using fitwright::DesignParameter;
using fitwright::Json;
using fitwright::shortest;

constexpr const char* footer = R"(Examples:
  fitw coupons
  fitw make frame --out heron)";

constexpr int grams_decimals = 1;

/// Size and weight at defaults; the features as features.csv has them.
Json coupon_json(const DesignInfo& info, const Coupon& coupon) {
  Json parameters = Json::array();
  for (const DesignParameter& p : info.parameters)
    parameters.push_back(
        {{"name", p.name}, {"default", p.default_value}, {"min", p.min}, {"max", p.max}, {"unit", p.unit}});
  Json features = Json::array();
  for (const fitwright::Feature& f : coupon.features)
    features.push_back(
        {{"feature_id", f.id}, {"kind", word(f.kind)}, {"axis", word(f.axis)}, {"nominal_mm", f.nominal_mm}});
  return {{"name", info.name},
          {"question", info.question},
          {"size_mm", {coupon.size_x_mm, coupon.size_y_mm, coupon.size_z_mm}},
          {"grams", coupon.grams},
          {"layers", coupon.layers},
          {"parameters", std::move(parameters)},
          {"features", std::move(features)}};
}

std::string coupon_text(const DesignInfo& info, const Coupon& coupon) {
  using fitwright::Align;
  std::string out = fitwright::paragraph(info.question, info.name + ": ", "  ");
  out += fitwright::paragraph(
      shortest(coupon.size_x_mm) + " x " + shortest(coupon.size_y_mm) + " x " + shortest(coupon.size_z_mm) + " mm, " +
          fitwright::fixed(coupon.grams, grams_decimals) + " g, " + std::to_string(coupon.layers) + " layers, " +
          std::to_string(coupon.places.size()) + " places to measure",
      "  ", "  ");
  std::vector<std::vector<std::string>> rows;
  for (const DesignParameter& p : info.parameters)
    rows.push_back({p.name, shortest(p.default_value), p.unit == "1" ? "" : p.unit,
                    shortest(p.min) + " to " + shortest(p.max), p.meaning});
  return out + fitwright::columns(rows, {Align::left, Align::right, Align::left, Align::left, Align::left}, "    ");
}

Outcome run(Words& words) {
  Outcome outcome;
  words.word();
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;

  Json list = Json::array();
  std::string text;
  for (const DesignInfo& info : fitwright::designs()) {
    const auto coupon = fitwright::make_coupon(info.name);
    if (!coupon) {
      add(outcome.problems, coupon.problems());
      continue;
    }
    list.push_back(coupon_json(info, *coupon));
    text += (text.empty() ? "" : "\n") + coupon_text(info, *coupon);
  }
  if (!outcome.problems.empty()) return outcome;
  outcome.out = words.flag("--json")
                    ? fitwright::json_text({{"schema", fitwright::report_schema}, {"coupons", std::move(list)}})
                    : text;
  return outcome;
}

}  // namespace

Command coupons_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "coupons", "The coupons there are, and what each answers", footer);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), run};
}

}  // namespace fitw
