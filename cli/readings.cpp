#include "readings.hpp"

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/checks.hpp"
#include "reading/csv.hpp"
#include "report/estimate_report.hpp"

namespace fitw {
namespace {

constexpr double default_length_mm = 100;
constexpr double default_tolerance_mm = 0.1;

std::map<std::string, double> true_sizes(Words& words) {
  std::map<std::string, double> sizes;
  for (const auto& [name, typed] : words.settings("--gauge")) {
    const auto size = number_in(words, "--gauge " + name, typed);
    if (!size) continue;
    if (*size < 0) {
      words.complain("--gauge " + name + ": " + fitwright::quote(typed) + " is below zero", "give its true size in mm");
      continue;
    }
    sizes[name] = *size;
  }
  return sizes;
}

std::string third_reading_note(const fitwright::ReadingSet& readings) {
  std::string places;
  for (const auto& [feature_id, copy] : fitwright::places_wanting_a_third(readings))
    places += (places.empty() ? "" : ", ") + feature_id + " on copy " + std::to_string(copy);
  return places.empty() ? places
                        : readings.source + ": two readings differ by more than 0.05 mm, read a third time: " + places;
}

/// "r.csv: 5 of 12 rows have no reading yet and are passed over: lines 3 to 6, 9".
std::string unread_note(const fitwright::PartlyRead& parsed) {
  constexpr std::size_t most_told = 8;
  std::string lines;
  std::size_t told = 0;
  const auto& rows = parsed.unread;
  for (std::size_t i = 0; i < rows.size();) {
    std::size_t last = i;
    while (last + 1 < rows.size() && rows[last + 1].row == rows[last].row + 1) ++last;
    if (++told > most_told) {
      lines += " and more";
      break;
    }
    lines += (lines.empty() ? "" : ", ") + std::to_string(rows[i].row);
    if (last > i) lines += (last > i + 1 ? " to " : ", ") + std::to_string(rows[last].row);
    i = last + 1;
  }
  const std::size_t all = rows.size() + parsed.read.rows.size();
  const bool one = rows.size() == 1;
  return parsed.read.source + ": " + std::to_string(rows.size()) + " of " + std::to_string(all) +
         (one ? " rows has no reading yet and is passed over: line "
              : " rows have no reading yet and are passed over: lines ") +
         lines;
}

}  // namespace

void declare_readings(Words& words) {
  words.declare_word(
      "READINGS.csv",
      "Readings, one a row: feature_id, kind, axis, nominal_mm, copy, repeat, reading_mm; more in docs/formats.md");
  words.declare_settings(
      "--gauge", "NAME=MM",
      "True size of the steel gauge or ring that has this feature_id in the readings; may be given again");
  words.declare("--suspects", "set-aside|keep",
                "Readings that look like slips: set aside (the default) or counted all the same; told either way");
  words.declare_flag("--no-priors", "Assume no typical values; tells less, and rests on the readings alone");
  words.declare("--length", "MM", "Length of your part on which an error should matter (100)");
  words.declare("--tolerance", "MM", "Error that matters on that length (0.1)");
}

ReadingsRequest take_readings_request(Words& words, bool from_setup) {
  ReadingsRequest request;
  request.path = from_setup ? words.optional_word() : words.word();
  if (from_setup && !request.path.empty())
    words.complain("a readings file and --setup are two sources", "give one of them at a time");
  request.options.true_size_mm = true_sizes(words);
  request.options.set_suspects_aside = words.choice("--suspects", {"set-aside", "keep"}) == "set-aside";
  request.options.use_priors = !words.flag("--no-priors");
  request.length_mm = words.positive("--length", default_length_mm);
  request.tolerance_mm = words.positive("--tolerance", default_tolerance_mm);
  return request;
}

std::optional<fitwright::ReadingSet> read_readings(const std::string& path, Outcome& outcome) {
  auto parsed = read_parsed(path, fitwright::parse_partly_read, outcome);
  if (!parsed) return std::nullopt;
  if (parsed->read.rows.empty()) {
    add(outcome.problems,
        {{fitwright::Code::unanswerable,
          {path, 0, 0},
          "no reading has been typed: reading_mm is empty in all rows (" + std::to_string(parsed->unread.size()) + ')',
          "read the coupon and type what the caliper shows; places may be left empty"}});
    return std::nullopt;
  }
  if (!parsed->unread.empty()) outcome.notes.push_back(unread_note(*parsed));
  return std::move(parsed->read);
}

void note_suspects(const fitwright::ReadingSet& readings, const std::vector<fitwright::SuspectReading>& suspects,
                   Outcome& outcome) {
  for (const fitwright::SuspectReading& s : suspects) {
    const fitwright::Place place{readings.source, readings.rows.at(s.suspect.index).row, 0};
    outcome.notes.push_back(fitwright::Problem{{}, place, fitwright::suspect_text(s, readings), ""}.text());
  }
  const std::string third = third_reading_note(readings);
  if (!third.empty()) outcome.notes.push_back(third);
}

std::optional<fitwright::Estimates> estimate_noting(const fitwright::ReadingSet& readings,
                                                    const fitwright::EstimateOptions& options, Outcome& outcome) {
  auto estimates = fitwright::estimate(readings, options);
  std::vector<fitwright::SuspectReading> suspects;
  if (estimates)
    suspects = estimates->suspects;
  else  // perhaps because too many were set aside: tell which
    for (const fitwright::Suspect& s : fitwright::check_readings(readings))
      suspects.push_back({s, !options.set_suspects_aside});
  note_suspects(readings, suspects, outcome);
  if (estimates) return std::move(*estimates);
  add(outcome.problems, estimates.problems());
  return std::nullopt;
}

}  // namespace fitw
