#pragma once
// What every command of the record shares: which file, and finding things by the names people give them.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "outcome.hpp"
#include "record/life.hpp"
#include "record/record.hpp"
#include "record/store.hpp"
#include "words.hpp"

namespace fitw {

/// --record FILE.
void declare_record(Words& words);
/// The path given, or that of the user's own record. Problems go to `words` or `outcome`.
std::string take_record_path(Words& words, Outcome& outcome);

/// What a command does with the record.
enum class Use {
  look,    ///< nothing is written
  change,  ///< it must be there
  begin,   ///< it is made when it is not there
};

/// Opens it; what the user should know of that goes to the notes, problems to `outcome`.
std::optional<fitwright::record::Record> open_for(Use use, const std::string& path, Outcome& outcome);

/// --at TIME: when it was. "2026-11-25" (noon), "2026-11-25T19:04", with seconds and parts if wished; UTC.
void declare_at(Words& words, const std::string& meaning);
/// As the record writes it, or empty when not given. `end_of_day`: a date alone stands for its last moment.
std::string take_at(Words& words, bool end_of_day = false);

/// A thing by its name (case does not count), its id or the last digits of that (four at least). Errors:
/// Code::bad_input for none, with the names there are, and for several, with all of them.
template <class T>
fitwright::Result<fitwright::record::Kept<T>> find(fitwright::record::Record& record, const std::string& typed);

/// A setup by name; with `typed` empty the only one there is.
fitwright::Result<fitwright::record::Kept<fitwright::record::Setup>> find_setup(fitwright::record::Record& record,
                                                                                const std::string& typed);
/// A correction by id, its last digits, or "last": the newest with one of these standings (none given: of any).
fitwright::Result<fitwright::record::CorrectionLife> find_correction(
    fitwright::record::Record& record, const std::string& typed,
    const std::vector<fitwright::record::Standing>& standings = {});
/// A copy of a setup by the number of its print or its id.
fitwright::Result<fitwright::record::Kept<fitwright::record::Copy>> find_copy(fitwright::record::Record& record,
                                                                              const fitwright::record::Id& setup,
                                                                              const std::string& typed);

/// The last digits of an id, which are random: enough to name it among thousands.
std::string short_id(const fitwright::record::Id& id);
/// "2026-11-25 19:04" of a time as the record writes it.
std::string moment(const std::string& at);

/// The value of a result; its problems go to `outcome`.
template <class T>
std::optional<T> got(fitwright::Result<T> result, Outcome& outcome) {
  if (result) return std::move(*result);
  add(outcome.problems, result.problems());
  return std::nullopt;
}

}  // namespace fitw
