#include "bench/setup_view.hpp"

#include <memory>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/quantity.hpp"
#include "bench/shown.hpp"
#include "record/state_in_force.hpp"
#include "record/teaching.hpp"

namespace fitwright {
namespace {

constexpr int steel_decimals = 3;

std::string series_line(const SteelSeries& series) {
  const SteelSession& last = series.sessions.back();
  const std::string what = series.kind == Kind::zero   ? std::string(tr("Closed jaws"))
                           : series.kind == Kind::ring ? said("Ring {} mm", said_shortest(series.true_mm))
                                                       : said("Gauge {} mm", said_shortest(series.true_mm));
  const std::string line =
      said_many("{1}: {2} mm on {3}, {0} evening in the log", "{1}: {2} mm on {3}, {0} evenings in the log",
                series.sessions.size(), what, shown_signed(last.error_mm, steel_decimals), date_of(last.day));
  if (series.drift && series.drift->established)
    return said("{}; drifts by {} mm a month.", line, shown_signed(series.drift->per_month_mm, steel_decimals));
  return line + ".";
}

std::vector<std::string> log_lines(Bench& bench, const record::Id& caliper) {
  const auto log = record::caliper_log(bench.record(), caliper);
  if (!log)
    return {
        tr("Nothing of it is in the log yet. Close the jaws and read the zero at the start of an evening: Measure "
           "asks for it.")};
  std::vector<std::string> lines;
  for (const SteelSeries& series : log->series)
    if (!series.sessions.empty()) lines.push_back(series_line(series));
  if (const double tolerance = bench.document().content().wishes.tolerance_mm; tolerance > 0) {
    const CaliperVerdict verdict = judge(*log, tolerance);
    for (const std::string& sentence : {verdict.sentence, verdict.because, verdict.advice})
      if (!sentence.empty()) lines.push_back(typeset(sentence));
  }
  for (const std::string& note : log->notes) lines.push_back(typeset(note));
  return lines;
}

}  // namespace

Result<SetupView> setup_view(Bench& bench) {
  SetupView view;
  const auto setups = record::all<record::Setup>(bench.record());
  if (!setups) return setups.problems();
  for (const auto& setup : *setups)
    view.setups.push_back({setup.thing, setup.value.name, bench.setup() && bench.setup()->setup.thing == setup.thing});
  const auto calipers = record::all<record::Caliper>(bench.record());
  if (!calipers) return calipers.problems();
  for (const auto& caliper : *calipers) {
    if (bench.caliper() && bench.caliper()->thing == caliper.thing)
      view.caliper_chosen = static_cast<int>(view.calipers.size());
    view.calipers.emplace_back(caliper.thing, caliper.value.name);
  }
  if (!bench.setup()) return view;
  const SetupOnBench& on = *bench.setup();
  view.on_bench = true;
  view.setup = setup_form(on.setup.value);
  view.printer = printer_form(on.printer.value);
  view.material = material_form(on.material.value);
  view.spool = spool_form(on.spool.value);
  const StepsPerMm& now = on.in_force.state.steps_per_mm;
  view.axes = axis_lines(on.printer.value, now);
  const record::Printer& p = on.printer.value;
  if (p.steps_x != now.x || p.steps_y != now.y || p.steps_z != now.z)
    view.steps_note = said(
        "A correction changed the steps since they were noted: in force are {} / {} / {}. Change steps in "
        "Correct, so that it is remembered.",
        knob_shown("steps_per_mm", now.x), knob_shown("steps_per_mm", now.y), knob_shown("steps_per_mm", now.z));
  if (bench.caliper()) {
    view.caliper = caliper_form(bench.caliper()->value);
    view.caliper_log = log_lines(bench, bench.caliper()->thing);
  }
  return view;
}

Result<Done> end_setup(Bench& bench) {
  if (!bench.setup()) return Problem{Code::usage, {}, tr("no setup is on the bench"), tr("choose one above")};
  record::Record* record = &bench.record();
  const record::Id setup = bench.setup()->setup.thing;
  const std::string name = bench.setup()->setup.value.name;
  const auto end_it = [record, setup]() -> Result<Done> {
    const auto now = record::one<record::Setup>(*record, setup);
    if (!now) return now.problems();
    return record::end(*record, *now, "ended in Setup");
  };
  if (auto ended = end_it(); !ended) return ended;
  const auto others = record::all<record::Setup>(*record);
  if (!others) return others.problems();
  if (others->empty())
    bench.put_loose({});
  else if (auto put = bench.put_setup(others->back().thing); !put)
    return put;
  bench.made({said("ending {}", name),
              [record, setup]() -> Result<Done> {
                const auto again = record::take_up_again<record::Setup>(*record, setup, "taken back");
                return again ? Result<Done>(Done{}) : Result<Done>(again.problems());
              },
              end_it});
  return Done{};
}

Result<Done> log_steel(Bench& bench, const SteelEntry& entry) {
  if (!bench.caliper()) return Problem{Code::usage, {}, tr("no caliper is in the hand"), tr("choose one above")};
  record::SteelReading steel;
  steel.caliper = bench.caliper()->thing;
  steel.kind = word(entry.kind);
  Problems problems;
  if (const auto reading = from_field(entry.reading, Unit::mm, entry.inches))
    steel.reading_mm = *reading;
  else
    problems = reading.problems();
  if (entry.kind != Kind::zero) {
    const auto size = from_field(entry.true_size, Unit::mm, entry.inches);
    if (!size)
      problems.insert(problems.end(), size.problems().begin(), size.problems().end());
    else if (*size <= 0)
      problems.push_back(
          {Code::bad_input, {}, tr("a gauge is longer than nothing"), tr("type the size engraved on it")});
    else
      steel.true_mm = *size;
  }
  if (!problems.empty()) return problems;
  steel.feature_id = entry.kind == Kind::zero ? "Z0" : (entry.kind == Kind::ring ? "R" : "G") + shortest(steel.true_mm);
  record::Record* record = &bench.record();
  const auto put_in = [record, steel]() -> Result<record::Kept<record::SteelReading>> {
    return record::guarded(*record, [&]() -> Result<record::Kept<record::SteelReading>> {
      record::Transaction transaction(record->database());
      record::Session session;
      session.caliper = steel.caliper;
      session.began = record::now_utc();
      const auto evening = record::add(*record, session);
      if (!evening) return evening.problems();
      record::SteelReading value = steel;
      value.session = evening->thing;
      auto kept = record::add(*record, value);
      if (kept) transaction.commit();
      return kept;
    });
  };
  const auto kept = put_in();
  if (!kept) return kept.problems();
  const auto present = std::make_shared<record::Kept<record::SteelReading>>(*kept);
  bench.made({tr("reading of steel"), [record, present] { return record::end(*record, *present, "taken back"); },
              [present, put_in]() -> Result<Done> {
                const auto again = put_in();
                if (!again) return again.problems();
                *present = *again;
                return Done{};
              }});
  return bench.look_again();
}

}  // namespace fitwright
