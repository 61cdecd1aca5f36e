// Trials from the record.

#include <map>

#include "fits/trials.hpp"
#include "record/store.hpp"

namespace fitwright {

Result<TrialSet> trials_of(record::Record& record, const record::Id& setup) {
  const auto the_setup = record::one<record::Setup>(record, setup);
  if (!the_setup) return the_setup.problems();
  const auto trials = record::all_of<record::Trial>(record, "setup", setup);
  if (!trials) return trials.problems();
  const auto copies = record::all_of<record::Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  const auto coupons = record::all<record::MadeCoupon>(record);
  if (!coupons) return coupons.problems();
  std::map<record::Id, bool> round_coupon;  // of the ladders
  for (const auto& coupon : *coupons)
    if (coupon.value.design == "rail" || coupon.value.design == "tongue")
      round_coupon[coupon.thing] = coupon.value.design == "rail";
  std::map<record::Id, int> print_of;
  std::map<record::Id, bool> round_copy;
  for (const auto& copy : *copies) {
    print_of[copy.thing] = copy.value.print;
    if (const auto at = round_coupon.find(copy.value.coupon); at != round_coupon.end())
      round_copy[copy.thing] = at->second;
  }

  TrialSet out;
  out.source = the_setup->value.name;
  Problems problems;
  for (const auto& kept : *trials) {
    const record::Trial& t = kept.value;
    if (t.grade < 0 || t.grade >= grade_count) {
      problems.push_back({Code::bad_input,
                          {out.source, 0, 0},
                          "the record holds a trial of grade " + std::to_string(t.grade),
                          "amend it to 0, 1, 2, 3 or 4, or end it"});
      continue;
    }
    const auto print = print_of.find(t.copy);
    const auto shape = round_copy.find(t.copy);
    out.rows.push_back({t.clearance_mm, static_cast<Grade>(t.grade), print == print_of.end() ? 1 : print->second,
                        t.measured_clearance_mm, t.diameter_mm, 0,
                        shape == round_copy.end() ? std::nullopt : std::optional<bool>(shape->second)});
  }
  if (!problems.empty()) return problems;
  if (out.rows.empty())
    return Problem{Code::unanswerable,
                   {out.source, 0, 0},
                   "no place of a fit ladder has been tried on this setup",
                   "print a fit ladder and try its places"};
  return out;
}

}  // namespace fitwright
