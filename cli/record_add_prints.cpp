// fitw record add coupon, copy: what was made, and what was printed of it.

#include "base/number.hpp"
#include "design/design.hpp"
#include "mesh/mesh.hpp"
#include "readings.hpp"
#include "record/kept_estimate.hpp"
#include "record_parts.hpp"
#include "report/json_text.hpp"

namespace fitw {

namespace rec = fitwright::record;

namespace {

constexpr const char* coupon_footer = R"(Examples:
  fitw record add coupon frame
  fitw record add coupon frame --set side_mm=90 bed_x_mm=180

Keeps design, parameters, features, grams and a hash of the solid that
fitw make DESIGN --set ... writes: give the same settings to both.)";
constexpr const char* copy_footer = R"(Examples:
  fitw record add copy --setup "slate on Heron" --coupon frame
  fitw record add copy --setup "slate on Heron" --coupon frame --turned 90

The copy is kept with the settings in force; --state gives others, if it was
printed with others. Copies printed together share a --print number.

Take care: hot end and bed burn and stay hot; let the bed cool before taking
a part off, never pry toward the hand.)";

constexpr int most_prints = 100000;

std::string parameters_text(const fitwright::DesignValues& values) {
  fitwright::Json json = fitwright::Json::object();
  for (const auto& [name, value] : values) json[name] = value;
  return json.dump();
}

Outcome add_coupon(Words& words) {
  Outcome outcome;
  const std::string design = words.word();
  const auto settings = words.settings("--set");
  const std::string at = take_at(words), path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  const auto coupon = got(fitwright::make_coupon(design, settings), outcome);
  if (!coupon) return outcome;
  rec::MadeCoupon made;
  made.design = coupon->design;
  made.parameters = parameters_text(coupon->values);
  made.features = fitwright::features_csv(*coupon);
  made.file_hash = rec::content_hash(fitwright::to_stl(fitwright::mesh_of(coupon->solid)));
  made.grams = coupon->grams;
  auto record = open_for(Use::begin, path, outcome);
  if (!record) return outcome;
  const auto all = got(rec::all<rec::MadeCoupon>(*record), outcome);
  if (!all) return outcome;
  const bool as_json = words.flag("--json");
  for (const auto& kept : *all)
    if (kept.value.file_hash == made.file_hash && kept.value.features == made.features) {
      outcome.out = added_text({"coupon", made.design, kept.thing, kept.at, true}, as_json);
      return outcome;
    }
  if (const auto kept = got(rec::add(*record, made, at), outcome))
    outcome.out = added_text({"coupon", made.design, kept->thing, kept->at}, as_json);
  return outcome;
}

/// The day of a time as the record writes it.
std::string day_of(const std::string& at) {
  constexpr std::size_t date_length = 10;
  return at.substr(0, date_length);
}

Outcome add_copy(Words& words) {
  Outcome outcome;
  words.word();
  const std::string setup_name = words.required("--setup"), coupon_name = words.required("--coupon");
  rec::Copy copy;
  copy.turned_deg = fitwright::parse_whole(words.choice("--turned", {"0", "90", "180", "270"})).value_or(0);
  const int print = words.whole("--print", 0, 1, most_prints);
  copy.note = words.text("--note").value_or("");
  const auto state_path = words.text("--state");
  const std::string at = take_at(words), path = take_record_path(words, outcome);
  add(outcome.problems, words.problems());
  std::optional<fitwright::State> state;
  if (state_path) state = read_parsed(*state_path, fitwright::parse_state, outcome);
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::change, path, outcome);
  if (!record) return outcome;
  const auto setup = got(find<rec::Setup>(*record, setup_name), outcome);
  const auto coupon = got(find<rec::MadeCoupon>(*record, coupon_name), outcome);
  if (!setup || !coupon) return outcome;
  const auto now = got(rec::state_in_force(*record, setup->thing, at), outcome);
  const auto copies = got(rec::all_of<rec::Copy>(*record, "setup", setup->thing), outcome);
  if (!now || !copies) return outcome;
  for (const std::string& note : now->notes) outcome.notes.push_back(note);
  if (state)
    if (const auto differing = rec::differences(*state, now->state); !differing.empty())
      outcome.notes.push_back("printed with other settings than those in force: " + rec::in_words(differing));
  copy.setup = setup->thing;
  copy.coupon = coupon->thing;
  copy.state = fitwright::to_json(state.value_or(now->state));
  copy.printed_on = day_of(at.empty() ? rec::now_utc() : at);
  copy.print = print;
  if (print == 0)
    for (const auto& other : *copies) copy.print = std::max(copy.print, other.value.print);
  if (print == 0) ++copy.print;
  if (const auto kept = got(rec::add(*record, copy, at), outcome))
    outcome.out =
        added_text({"copy", "print " + std::to_string(copy.print) + " of " + setup->value.name, kept->thing, kept->at},
                   words.flag("--json"));
  return outcome;
}

}  // namespace

Command add_coupon_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "coupon", "A coupon that was made", coupon_footer);
  words->declare_word("DESIGN", "One of those that fitw coupons lists");
  words->declare_settings("--set", "NAME=VALUE", "A parameter of the design; may be given again");
  declare_at(*words, "When it was made (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_coupon};
}

Command add_copy_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "copy", "A printed specimen of a coupon", copy_footer);
  words->declare("--setup", "NAME", "What it was printed with");
  words->declare("--coupon", "DESIGN|ID", "What was printed");
  words->declare("--turned", "DEG", "How it lay on the bed: 0, 90, 180 or 270 (0)");
  words->declare("--print", "N", "Number of the print (the next one)");
  words->declare("--state", "STATE.json", "The settings it was printed with (those in force)");
  words->declare("--note", "WORDS", "What else is to be known of it");
  declare_at(*words, "When it was printed (now)");
  declare_record(*words);
  words->declare_flag("--json", "One JSON document instead of text");
  return {std::move(words), add_copy};
}

}  // namespace fitw
