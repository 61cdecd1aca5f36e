#include "record_any.hpp"

#include "base/text.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Code;
using fitwright::Problem;
using fitwright::Problems;
using fitwright::Result;

namespace {

bool none_of_that_name(const Problems& problems) {
  return problems.size() == 1 && problems.front().what.starts_with("the record has no ");
}

template <class T, class Name>
void look(rec::Record& record, const std::string& typed, const char* kind, Name&& name, std::vector<Thing>& found,
          Problems& problems) {
  const auto one = find<T>(record, typed);
  if (one)
    found.push_back({kind, name(one->value), one->thing});
  else if (!none_of_that_name(one.problems()))
    add(problems, one.problems());
}

}  // namespace

Result<Thing> find_any(rec::Record& record, const std::string& typed) {
  std::vector<Thing> found;
  Problems problems;
  const auto name = [](const auto& value) { return value.name; };
  look<rec::Setup>(record, typed, "setup", name, found, problems);
  look<rec::Printer>(record, typed, "printer", name, found, problems);
  look<rec::Spool>(record, typed, "spool", name, found, problems);
  look<rec::Material>(record, typed, "material", name, found, problems);
  look<rec::Caliper>(record, typed, "caliper", name, found, problems);
  look<rec::MadeCoupon>(
      record, typed, "coupon", [](const auto& value) { return value.design; }, found, problems);
  if (found.empty() && problems.empty())
    if (const auto correction = find_correction(record, typed); correction)
      found.push_back({"correction", short_id(correction->correction.thing), correction->correction.thing});
  if (found.empty() && problems.empty())
    return Problem{Code::bad_input,
                   {},
                   "the record has nothing called " + fitwright::quote(typed),
                   "fitw record list names what there is"};
  if (found.empty()) return problems;
  if (found.size() == 1) return found.front();
  std::string both;
  for (const Thing& thing : found) both += (both.empty() ? "" : ", ") + thing.kind + ' ' + short_id(thing.id);
  return Problem{
      Code::bad_input, {}, "more than one thing is called " + fitwright::quote(typed), "name one by its id: " + both};
}

}  // namespace fitw
