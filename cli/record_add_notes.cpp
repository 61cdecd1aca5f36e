// fitw record add travel, note.

#include "axes.hpp"
#include "base/file.hpp"
#include "record/kept_estimate.hpp"
#include "record_any.hpp"
#include "record_parts.hpp"

namespace fitw {

namespace rec = fitwright::record;

namespace {

constexpr const char* travel_footer = R"(Examples:
  fitw record add travel Heron --travel x=150:150.12,y=150:149.95

Tells machine and material apart: how far the axis itself went, against a fixed
stop, not on a print.

Take care: keep hands out of the way of a moving axis, and a hand on the power
switch.)";
constexpr const char* note_footer = R"(Examples:
  fitw record add note "new nozzle, 0.4 brass" --about Heron
  fitw record add note "corner lifted" --about "slate on Heron" \
       --picture corner.jpg

A picture is kept as the name of its file and its hash; leave it where it is.)";

Outcome add_travel(Words& words) {
  Outcome outcome;
  const std::string printer = words.word();
  words.required("--travel");
  const auto travel = take_travel(words);
  const std::string at = take_at(words), path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto of = got(find<rec::Printer>(*record, printer), outcome);
  if (!of) return outcome;
  std::vector<rec::Travelled> rows;
  for (const auto& [axis, t] : travel)
    rows.push_back({of->thing, std::string(1, axis), t.commanded_mm, t.travelled_mm, t.u_mm});
  if (const auto kept = got(rec::add_all(*record, rows, at), outcome); kept && !kept->empty())
    outcome.out = added_text(
        {"travel", std::to_string(kept->size()) + " axes of " + of->value.name, kept->front().thing, kept->front().at},
        words.flag("--json"));
  return outcome;
}

Outcome add_note(Words& words) {
  Outcome outcome;
  rec::Remark remark;
  remark.words = words.word();
  const std::string about = words.required("--about");
  const auto picture = words.text("--picture");
  const std::string at = take_at(words), path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  if (picture) {
    const auto bytes = got(fitwright::read_whole(*picture), outcome);
    if (!bytes) return outcome;
    remark.picture = *picture;
    remark.picture_hash = rec::content_hash(*bytes);
  }
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto thing = got(find_any(*record, about), outcome);
  if (!thing) return outcome;
  remark.about = thing->id;
  if (const auto kept = got(rec::add(*record, remark, at), outcome))
    outcome.out =
        added_text({"note", "about " + thing->kind + ' ' + thing->name, kept->thing, kept->at}, words.flag("--json"));
  return outcome;
}

}  // namespace

Command add_travel_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "travel", "How far axes really went, measured on the machine", travel_footer);
  words->declare_word("PRINTER", "A printer of the record");
  declare_travel(*words);
  declare_at(*words, "When it was measured (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_travel};
}

Command add_note_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "note", "Words, or a picture, about a thing of the record", note_footer);
  words->declare_word("WORDS", "What is to be known");
  words->declare("--about", "NAME|ID", "A setup, printer, spool, caliper, coupon or correction");
  words->declare("--picture", "FILE", "A picture of it");
  declare_at(*words, "When it was noted (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_note};
}

}  // namespace fitw
