// A coupon that was printed goes into the record; its files onto the disk.

#include <algorithm>
#include <filesystem>

#include "base/file.hpp"
#include "base/json.hpp"
#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/make_view.hpp"
#include "bench/shown.hpp"
#include "design/trials_template.hpp"
#include "mesh/mesh.hpp"
#include "record/kept_estimate.hpp"
#include "record/state_in_force.hpp"

namespace fitwright {
namespace {

using record::Id;
using record::Kept;

/// As the record keeps it, without the sum of its file.
record::MadeCoupon made_coupon(const Coupon& coupon) {
  record::MadeCoupon made;
  made.design = coupon.design;
  for (const auto& [name, value] : coupon.values)
    made.parameters += (made.parameters.empty() ? "{" : ",") + json_string(name) + ":" + shortest(value);
  made.parameters += made.parameters.empty() ? "{}" : "}";
  made.features = features_csv(coupon);
  made.grams = coupon.grams;
  return made;
}

/// The coupon in the record, when it is there with the same parameters.
Result<Id> known_coupon(record::Record& record, const record::MadeCoupon& made) {
  const auto all = record::all<record::MadeCoupon>(record);
  if (!all) return all.problems();
  for (const auto& kept : *all)
    if (kept.value.design == made.design && kept.value.parameters == made.parameters &&
        kept.value.features == made.features)
      return kept.thing;
  return Id{};
}

constexpr int quarter_turn_deg = 90;

}  // namespace

Result<NextCopy> next_copy(Bench& bench, const Coupon& coupon) {
  NextCopy next;
  if (!bench.setup()) return next;
  const auto known = known_coupon(bench.record(), made_coupon(coupon));
  if (!known) return known.problems();
  next.coupon = *known;
  const auto copies = record::all_of<record::Copy>(bench.record(), "setup", bench.setup()->setup.thing);
  if (!copies) return copies.problems();
  int turned = 0;
  for (const auto& copy : *copies) {
    next.print = std::max(next.print, copy.value.print + 1);
    const auto state = parse_state(copy.value.state, "the record");
    if (next.coupon.empty() || copy.value.coupon != next.coupon || !state) continue;
    if (!record::differences(*state, bench.setup()->in_force.state).empty()) continue;
    ++next.earlier;
    turned += copy.value.turned_deg != 0;
  }
  next.turned_deg = 2 * turned < next.earlier ? quarter_turn_deg : 0;
  next.reason =
      next.turned_deg
          ? tr("There is a copy that lay as drawn. Turn this one by 90\u00b0 on the bed (anticlockwise, seen from "
               "above): errors of the machine stay with its axes, errors of the part turn with it, and so the "
               "two are told apart.")
          : tr("Lay it as drawn, the marked corner at the front left. A second copy, turned by 90\u00b0, will tell "
               "errors of the machine from those of the part.");
  return next;
}

Result<Done> printed(Bench& bench, const Coupon& coupon, int turned_deg, const std::string& date) {
  if (!bench.setup())
    return Problem{Code::usage,
                   {},
                   tr("no setup is on the bench"),
                   tr("choose or begin one in Setup, so that the print is "
                      "remembered with its printer and material")};
  record::Record& record = bench.record();
  const auto next = next_copy(bench, coupon);
  if (!next) return next.problems();
  const SetupOnBench& on = *bench.setup();
  record::Copy copy;
  copy.setup = on.setup.thing;
  copy.print = next->print;
  copy.turned_deg = turned_deg;
  copy.state = to_json(on.in_force.state);
  copy.printed_on = date;
  copy.coupon = next->coupon;
  record::MadeCoupon its_coupon = made_coupon(coupon);
  its_coupon.file_hash = record::content_hash(to_stl(mesh_of(coupon.solid)));
  const auto put_in = [&record, made = std::move(its_coupon)](record::Copy value) {
    return record::guarded(record, [&]() -> Result<Kept<record::Copy>> {
      record::Transaction transaction(record.database());
      if (value.coupon.empty()) {
        const auto kept = record::add(record, made);
        if (!kept) return kept.problems();
        value.coupon = kept->thing;
      }
      auto kept = record::add(record, value);
      if (kept) transaction.commit();
      return kept;
    });
  };
  auto kept = put_in(copy);
  if (!kept) return kept.problems();
  // The coupon itself stays: it is a fact about a file. Only that it was printed is taken back.
  copy.coupon = kept->value.coupon;
  const auto present = std::make_shared<Kept<record::Copy>>(*kept);
  RecordStep step;
  step.label = said("{}, copy {}", tr(coupon.design.c_str()), next->earlier + 1);
  step.undo = [&record, present] { return record::end(record, *present, "taken back: it was not printed"); };
  step.redo = [present, put_in, copy]() -> Result<Done> {
    auto again = put_in(copy);
    if (!again) return again.problems();
    *present = *again;
    return Done{};
  };
  bench.made(std::move(step));
  return bench.look_again();
}

Result<std::vector<std::string>> save_solid(const Coupon& coupon, const std::string& path) {
  const std::filesystem::path file(path);
  const std::string ending = folded(file.extension().string());
  if (ending != ".stl" && ending != ".3mf")
    return Problem{Code::usage, {path}, tr("is neither STL nor 3MF"), tr("end the name in .stl or .3mf")};
  const Mesh mesh = mesh_of(coupon.solid);
  const auto written = ending == ".3mf" ? write_3mf(mesh, coupon.design, path) : write_whole(path, to_stl(mesh));
  if (!written) return written.problems();
  const std::filesystem::path beside = file.parent_path() / (file.stem().string() + ".features.csv");
  if (const auto features = write_whole(beside.string(), features_csv(coupon)); !features) return features.problems();
  std::vector<std::string> names{file.filename().string(), beside.filename().string()};
  if (coupon.trials.places.empty()) return names;
  const std::filesystem::path trials = file.parent_path() / (file.stem().string() + ".trials.csv");
  if (const auto kept = write_whole(trials.string(), trials_template(coupon)); !kept) return kept.problems();
  names.push_back(trials.filename().string());
  return names;
}

}  // namespace fitwright
