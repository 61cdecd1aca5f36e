// fitw record add readings, gauge: what the caliper showed.

#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"
#include "readings.hpp"
#include "record/waiting_copies.hpp"
#include "record_parts.hpp"
#include "report/json_text.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::quote;

namespace {

constexpr const char* readings_footer = R"(Examples:
  fitw record add readings frame.csv --setup "slate on Heron" \
       --caliper "tool library"
  fitw record add readings again.csv --setup "slate on Heron" --copy 3

Readings go to the copies that wait for them (fitw record add copy), by their
numbers; where none waits, copies are made. The same file again adds nothing;
a row with another value amends, and the old value is kept.)";
constexpr const char* gauge_footer = R"(Examples:
  fitw record add gauge 0 --reads 0.00,0.01,0.00 --caliper "tool library"
                            closed jaws
  fitw record add gauge 10.002 --reads 10.00,10.01 --caliper "tool library"
  fitw record add gauge 20.001 --ring --reads 19.98,19.99 \
       --caliper "tool library"

Gauge, ring and caliper at room temperature, jaws wiped.)";

std::string kept_text(const rec::KeptReadings& kept, const std::string& setup, rec::Record& record, bool as_json) {
  std::vector<int> prints;
  for (const rec::Id& id : kept.copies)
    if (const auto copy = rec::one<rec::Copy>(record, id)) prints.push_back(copy->value.print);
  if (as_json) {
    fitwright::Json copies = fitwright::Json::array();
    for (const rec::Id& id : kept.copies) copies.push_back(id.text);
    return fitwright::json_text(fitwright::Json{{"schema", fitwright::report_schema},
                                                {"kind", "readings"},
                                                {"setup", setup},
                                                {"added", kept.added},
                                                {"known", kept.known},
                                                {"amended", kept.amended},
                                                {"session", kept.session.text},
                                                {"prints", prints},
                                                {"copies", std::move(copies)}});
  }
  std::string on;
  for (const int print : prints) on += (on.empty() ? " on print " : ", ") + std::to_string(print);
  return std::to_string(kept.added) + " readings added to " + setup + on + "; " + std::to_string(kept.known) +
         " were there already, " + std::to_string(kept.amended) + " amended\n";
}

Outcome add_readings(Words& words) {
  Outcome outcome;
  const std::string file = words.word();
  const std::string setup_name = words.text("--setup").value_or("");
  const auto caliper = words.text("--caliper"), coupon = words.text("--coupon"), copy = words.text("--copy"),
             state_path = words.text("--state");
  rec::KeepOptions options;
  for (const auto& [name, typed] : words.settings("--gauge"))
    if (const auto size = number_in(words, "--gauge " + name, typed)) options.true_size_mm[name] = *size;
  options.at = take_at(words);
  const std::string path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  std::optional<fitwright::State> state;
  if (state_path) state = read_parsed(*state_path, fitwright::parse_state, outcome);
  if (!outcome.problems.empty()) return outcome;
  const auto readings = read_readings(file, outcome);
  if (!readings) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto setup = got(find_setup(*record, setup_name), outcome);
  if (!setup) return outcome;
  options.setup = setup->thing;
  if (caliper)
    if (const auto kept = got(find<rec::Caliper>(*record, *caliper), outcome)) options.caliper = kept->thing;
  if (coupon)
    if (const auto kept = got(find<rec::MadeCoupon>(*record, *coupon), outcome)) options.coupon = kept->thing;
  if (copy)
    if (const auto kept = got(find_copy(*record, setup->thing, *copy), outcome)) options.copy = kept->thing;
  if (!state)
    if (const auto now = got(rec::state_in_force(*record, setup->thing, options.at), outcome)) state = now->state;
  if (!outcome.problems.empty()) return outcome;
  options.printed_with = *state;
  if (!options.at.empty()) options.printed_on = options.at.substr(0, options.at.find('T'));
  const auto kept = got(rec::keep_on_waiting_copies(*record, *readings, options), outcome);
  if (!kept) return outcome;
  for (const std::string& note : kept->notes) outcome.notes.push_back(note);
  outcome.out = kept_text(*kept, setup->value.name, *record, words.flag("--json"));
  return outcome;
}

/// "10.00,10.01"
std::vector<double> take_reads(Words& words) {
  std::vector<double> out;
  const std::string typed = words.required("--reads");
  for (std::size_t begin = 0; !typed.empty() && begin <= typed.size();) {
    const std::size_t end = std::min(typed.find(',', begin), typed.size());
    if (const auto number = number_in(words, "--reads", typed.substr(begin, end - begin))) out.push_back(*number);
    begin = end + 1;
  }
  return out;
}

Outcome add_gauge(Words& words) {
  Outcome outcome;
  rec::SteelReading steel;
  const std::string typed = words.word();
  if (const auto size = typed.empty() ? std::nullopt : number_in(words, "MM", typed)) steel.true_mm = *size;
  if (steel.true_mm < 0)
    words.complain("a gauge of " + typed + " mm cannot be", "give its true size; 0 for closed jaws");
  const bool ring = words.flag("--ring");
  if (ring && steel.true_mm == 0) words.complain("a ring of 0 mm cannot be", "give its true size");
  const std::string caliper = words.required("--caliper");
  const auto reads = take_reads(words);
  steel.kind = ring ? "ring" : steel.true_mm == 0 ? "zero" : "gauge";
  steel.feature_id = words.text("--name").value_or(
      steel.kind == "zero" ? "jaws" : (ring ? "R" : "G") + fitwright::shortest(std::round(steel.true_mm)));
  const std::string at = take_at(words), path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto of = got(find<rec::Caliper>(*record, caliper), outcome);
  if (!of) return outcome;
  const auto done = rec::guarded(*record, [&]() -> fitwright::Result<rec::Kept<rec::Session>> {
    rec::Transaction whole(record->database());
    rec::Session session;
    session.caliper = of->thing;
    session.began = at.empty() ? rec::now_utc() : at;
    const auto kept = rec::add(*record, session, at);
    if (!kept) return kept.problems();
    std::vector<rec::SteelReading> rows;
    for (const double read : reads) {
      steel.caliper = of->thing;
      steel.session = kept->thing;
      steel.reading_mm = read;
      rows.push_back(steel);
      ++steel.repeat;
    }
    if (const auto added = rec::add_all(*record, rows, at); !added) return added.problems();
    whole.commit();
    return kept;
  });
  if (const auto kept = got(done, outcome))
    outcome.out = added_text(
        {steel.kind, std::to_string(reads.size()) + " readings with " + of->value.name, kept->thing, kept->at},
        words.flag("--json"));
  return outcome;
}

}  // namespace

Command add_readings_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "readings", "Readings of printed copies, from a file", readings_footer);
  words->declare_word("READINGS.csv", "As fitw estimate takes them (docs/formats.md)");
  words->declare("--setup", "NAME", "What was printed with (the only one, if there is one)");
  words->declare("--caliper", "NAME", "What was read with");
  words->declare("--coupon", "DESIGN|ID", "What was printed, where no copy waits (one of the file's own features)");
  words->declare("--copy", "PRINT|ID", "The copy they were read on (as above)");
  words->declare("--state", "STATE.json", "Settings of copies that are made (those in force)");
  words->declare_settings("--gauge", "NAME=MM", "True size of the steel that has this feature_id; may be given again");
  declare_at(*words, "When they were read (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_readings};
}

Command add_gauge_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "gauge",
                                       "Readings of closed jaws, a gauge or a ring, for a caliper's log", gauge_footer);
  words->declare_word("MM", "True size; 0 for closed jaws");
  words->declare("--caliper", "NAME", "What was read with");
  words->declare("--reads", "MM,MM,...", "What the caliper showed, time by time");
  words->declare_flag("--ring", "A ring, read with the inside jaws");
  words->declare("--name", "NAME", "Which gauge it was");
  declare_at(*words, "When it was read (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_gauge};
}

}  // namespace fitw
