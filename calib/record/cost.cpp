#include "record/cost.hpp"

#include "base/json.hpp"
#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright::record {
namespace {

/// Density that coupons are made with unless told otherwise, g/cm3 (common practice for PLA).
constexpr double usual_density_g_cm3 = 1.24;
constexpr const char* density_parameter = "density_g_cm3";
constexpr double grams_per_kg = 1000;

double made_with_density(const MadeCoupon& coupon) {
  const auto parameters = parse_json(coupon.parameters, "record");
  if (!parameters) return usual_density_g_cm3;
  const JsonValue* density = parameters->find(density_parameter);
  return density && density->is(JsonValue::Type::number) && density->number > 0 ? density->number : usual_density_g_cm3;
}

}  // namespace

std::optional<double> grams_of(const MadeCoupon& coupon, double density_g_cm3) {
  if (!coupon.grams) return std::nullopt;
  const double made_with = made_with_density(coupon);
  if (made_with == density_g_cm3) return coupon.grams;
  return *coupon.grams * (density_g_cm3 / made_with);
}

Result<CalibrationCost> cost_of(Record& record, const Id& setup) {
  return guarded(record, [&]() -> Result<CalibrationCost> {
    const auto kept = one<Setup>(record, setup);
    if (!kept) return kept.problems();
    const auto spool = one<Spool>(record, kept->value.spool);
    if (!spool) return spool.problems();
    const auto material = one<Material>(record, spool->value.material);
    if (!material) return material.problems();
    const double density = material->value.density_g_cm3;
    const auto price = spool->value.price_per_kg;

    CalibrationCost out;
    out.currency = spool->value.currency;
    const std::string unit = out.currency.empty() ? "" : ' ' + out.currency;
    out.price_basis = price
                          ? said("{} per kg, {}; density {} g/cm3", said_shortest(*price) + unit, spool->value.name,
                                 said_shortest(density))
                          : said("no price is known, {}; density {} g/cm3", spool->value.name, said_shortest(density));
    const auto copies = all_of<Copy>(record, "setup", setup);
    if (!copies) return copies.problems();
    for (const auto& copy : *copies) {
      const auto coupon = one<MadeCoupon>(record, copy.value.coupon);
      if (!coupon) return coupon.problems();
      CopyCost cost{copy.thing, copy.value.print, coupon->value.design, copy.value.printed_on, {}, {}};
      cost.grams = grams_of(coupon->value, density);
      if (cost.grams) {
        out.grams += *cost.grams;
        if (price) cost.money = *cost.grams / grams_per_kg * *price;
      } else {
        ++out.unknown;
      }
      out.copies.push_back(std::move(cost));
    }
    if (price) out.money = out.grams / grams_per_kg * *price;
    return out;
  });
}

}  // namespace fitwright::record
