#pragma once
// What estimate and correct share: from a readings file and its options to estimates.

#include <optional>

#include "model/estimate.hpp"
#include "outcome.hpp"
#include "reading/reading.hpp"
#include "words.hpp"

namespace fitw {

/// The word READINGS.csv, --gauge, --suspects, --no-priors, --length, --tolerance.
void declare_readings(Words& words);

/// Those options' values; mistakes are noted in `words`.
struct ReadingsRequest {
  std::string path;
  fitwright::EstimateOptions options;
  double length_mm = 0;     ///< of the user's part
  double tolerance_mm = 0;  ///< what matters on it
};
/// `from_setup`: readings come from the record, and a file besides is a mistake.
ReadingsRequest take_readings_request(Words& words, bool from_setup = false);

/// The readings of a file. Problems go to `outcome`.
std::optional<fitwright::ReadingSet> read_readings(const std::string& path, Outcome& outcome);

/// Estimates from readings; problems, and notes on suspect readings, go to `outcome`.
std::optional<fitwright::Estimates> estimate_noting(const fitwright::ReadingSet& readings,
                                                    const fitwright::EstimateOptions& options, Outcome& outcome);

/// Tells suspect readings, and places that want a third reading, as notes.
void note_suspects(const fitwright::ReadingSet& readings, const std::vector<fitwright::SuspectReading>& suspects,
                   Outcome& outcome);

/// A file read whole and parsed by `parse(text, path)`; problems go to `outcome`.
template <class T>
std::optional<T> read_parsed(const std::string& path,
                             fitwright::Result<T> (*parse)(const std::string&, const std::string&), Outcome& outcome);

}  // namespace fitw

#include "base/file.hpp"

template <class T>
std::optional<T> fitw::read_parsed(const std::string& path,
                                   fitwright::Result<T> (*parse)(const std::string&, const std::string&),
                                   Outcome& outcome) {
  const auto text = fitwright::read_whole(path);
  if (!text) {
    add(outcome.problems, text.problems());
    return std::nullopt;
  }
  auto parsed = parse(*text, path);
  if (!parsed) {
    add(outcome.problems, parsed.problems());
    return std::nullopt;
  }
  return std::move(*parsed);
}
