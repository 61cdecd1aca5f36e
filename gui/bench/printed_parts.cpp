#include "bench/printed_parts.hpp"

#include "base/json.hpp"
#include "base/number.hpp"
#include "bench/shown.hpp"
#include "design/design.hpp"
#include "reading/features_csv.hpp"
#include "record/copy_names.hpp"

namespace fitwright {

const Feature* PrintedPart::feature(const std::string& id) const {
  for (const Feature& f : part.features)
    if (const auto it = stored_id.find(f.id); it != stored_id.end() && it->second == id) return &f;
  return nullptr;
}

std::shared_ptr<const Coupon> coupon_again(const record::MadeCoupon& made) {
  const auto values = parse_json(made.parameters.empty() ? "{}" : made.parameters, "the record");
  if (!values || !values->is(JsonValue::Type::object)) return nullptr;
  std::vector<std::pair<std::string, std::string>> overrides;
  for (const JsonValue::Member& m : values->members)
    if (m.value.is(JsonValue::Type::number)) overrides.emplace_back(m.name, shortest(m.value.number));
  auto coupon = make_coupon(made.design, overrides);
  if (!coupon || features_csv(*coupon) != made.features) return nullptr;
  return std::make_shared<const Coupon>(*std::move(coupon));
}

namespace {

/// Gives the features of a part the names they have beside other coupons.
void call(PrintedPart& part, const record::CopyName& name) {
  part.part.copy = name.number;
  for (Feature& f : part.part.features) {
    part.stored_id[name.prefix + f.id] = f.id;
    f.id = name.prefix + f.id;
  }
  if (name.prefix.empty() || !part.part.coupon) return;
  auto named = std::make_shared<Coupon>(*part.part.coupon);
  named->features = part.part.features;
  for (JawPlace& place : named->places) place.feature_id = name.prefix + place.feature_id;
  part.part.coupon = std::move(named);
}

}  // namespace

Result<std::vector<PrintedPart>> printed_parts(record::Record& record,
                                               const std::vector<record::Kept<record::Copy>>& copies) {
  std::vector<PrintedPart> parts;
  std::vector<record::CopyToName> to_name;
  std::map<record::Id, std::shared_ptr<const Coupon>> coupons;
  for (const record::Kept<record::Copy>& copy : copies) {
    const auto made = record::one<record::MadeCoupon>(record, copy.value.coupon);
    if (!made) return made.problems();
    if (!coupons.contains(made->thing)) coupons[made->thing] = coupon_again(made->value);
    PrintedPart part;
    part.copy = copy.thing;
    part.coupon = made->thing;
    part.part.coupon = coupons[made->thing];
    if (part.part.coupon) {
      part.part.features = part.part.coupon->features;
    } else {
      auto features = parse_features(made->value.features, "the record's " + made->value.design);
      if (!features) return features.problems();
      part.part.features = *std::move(features);
    }
    part.part.name = capitalised(made->value.design);
    part.part.turned_deg = copy.value.turned_deg;
    record::CopyToName name{copy.value.print, made->value.design, made->value.features, {}};
    for (const Feature& f : part.part.features) name.feature_ids.push_back(f.id);
    to_name.push_back(std::move(name));
    parts.push_back(std::move(part));
  }
  const auto names = record::copy_names(to_name);
  for (std::size_t i = 0; i < parts.size(); ++i) call(parts[i], names[i]);
  return parts;
}

}  // namespace fitwright
