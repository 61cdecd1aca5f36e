#include "setup_readings.hpp"

#include "report/layout.hpp"

namespace fitw {

namespace rec = fitwright::record;

void declare_setup(Words& words) {
  words.declare("--setup", "NAME", "A setup of the record, instead of a readings file");
  declare_record(words);
  words.declare_flag("--no-history", "With --setup: assume the typical scatter between copies, not the printer's own");
}

std::optional<SetupRequest> take_setup_request(Words& words, Outcome& outcome) {
  const auto setup = words.text("--setup");
  if (!setup) {
    if (words.text("--record")) words.complain("--record is given without --setup", "name a setup: --setup NAME");
    if (words.flag("--no-history")) words.complain("--no-history is given without --setup", "a file has no history");
    return std::nullopt;
  }
  return SetupRequest{*setup, take_record_path(words, outcome), !words.flag("--no-history")};
}

namespace {

/// For keeping what is found; if it can only be read, without.
std::optional<rec::Record> open_to_keep(const std::string& path, bool& may_keep, Outcome& outcome) {
  Outcome to_change;
  auto record = open_for(Use::change, path, to_change);
  if (!record || record->read_only()) {
    Outcome to_look;
    auto only_read = open_for(Use::look, path, to_look);
    if (only_read) {
      may_keep = false;
      outcome.notes.insert(outcome.notes.end(), to_look.notes.begin(), to_look.notes.end());
      outcome.notes.push_back(path + ": the record can only be read, so nothing of this is kept in it");
      return only_read;
    }
  }
  outcome.notes.insert(outcome.notes.end(), to_change.notes.begin(), to_change.notes.end());
  add(outcome.problems, to_change.problems);
  return record;
}

}  // namespace

std::optional<SetupEvening> estimate_from_record(const SetupRequest& request, const fitwright::EstimateOptions& options,
                                                 Outcome& outcome) {
  bool may_keep = true;
  auto record = open_to_keep(request.path, may_keep, outcome);
  if (!record) return std::nullopt;
  auto setup = got(find_setup(*record, request.setup), outcome);
  if (!setup) return std::nullopt;
  rec::EstimateSetupOptions wanted;
  wanted.estimate = options;
  wanted.use_history = request.use_history;
  auto estimate = got(rec::estimate_setup(*record, setup->thing, wanted), outcome);
  if (!estimate) return std::nullopt;
  for (const std::string& note : estimate->from.notes) outcome.notes.push_back(note);
  for (const auto& left : estimate->from.left_out) outcome.notes.push_back("left out: " + left.because);
  note_suspects(estimate->from.readings, estimate->estimates.suspects, outcome);
  return SetupEvening{std::move(*record), std::move(*setup), std::move(*estimate), may_keep};
}

std::string rests_on(const SetupEvening& evening) {
  std::string text = evening.estimate.copy_prior + '.';
  if (text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return fitwright::paragraph(text, "", "  ");
}

rec::Id keep(SetupEvening& evening, const std::string& result_json, Outcome& outcome) {
  if (!evening.may_keep) return {};
  const auto kept = got(rec::keep_estimate(evening.record, evening.estimate, result_json, FITWRIGHT_VERSION), outcome);
  return kept ? kept->thing : rec::Id{};
}

}  // namespace fitw
