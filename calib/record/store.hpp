#pragma once
// Keeping things: add, amend, end, and list. Nothing is overwritten: an amendment is a row of its own.

#include <optional>
#include <string>
#include <vector>

#include "record/record.hpp"
#include "record/things.hpp"

namespace fitwright::record {

/// A thing as the record holds it.
template <class T>
struct Kept {
  Id row;          ///< the row that says so
  Id thing;        ///< stays the same through amendments
  std::string at;  ///< UTC, "2026-11-25T19:04:05.123Z"
  std::string why;
  T value;
};

/// Now, as `at` is written.
std::string now_utc();
/// Milliseconds since 1970 of such a time; empty when it is written otherwise.
std::optional<long long> moment_ms(const std::string& at);
/// The next millisecond after such a time: for what has to come after it although a clock was set back.
std::string just_after(const std::string& at);

/// Adds a thing. `at` empty: now. Errors: Code::io; Code::bad_input when it refers to what is not there.
template <class T>
Result<Kept<T>> add(Record& record, const T& value, const std::string& at = {});

/// Adds many in one transaction: all or none.
template <class T>
Result<std::vector<Kept<T>>> add_all(Record& record, const std::vector<T>& values, const std::string& at = {});

/// Amends what `seen` says. When someone else amended it in the meantime, nothing is written and the problem
/// (Code::bad_input) says so: no update is lost. Equal values are not written again: `seen` comes back.
template <class T>
Result<Kept<T>> amend(Record& record, const Kept<T>& seen, const T& value, const std::string& why,
                      const std::string& at = {});

/// Ends a thing: it is no longer listed, and its rows stay.
template <class T>
Result<Done> end(Record& record, const Kept<T>& seen, const std::string& why, const std::string& at = {});

/// A thing that was ended holds again, as it was. Errors: Code::bad_input when there is none, or it never ended.
template <class T>
Result<Kept<T>> take_up_again(Record& record, const Id& thing, const std::string& why, const std::string& at = {});

/// All things of a kind that hold now, in the order in which they were first entered (then by id).
template <class T>
Result<std::vector<Kept<T>>> all(Record& record);

/// Those whose column `column` refers to `id`.
template <class T>
Result<std::vector<Kept<T>>> all_of(Record& record, const std::string& column, const Id& id);

/// One thing as it is now. Errors: Code::bad_input when there is none.
template <class T>
Result<Kept<T>> one(Record& record, const Id& thing);

/// Every row of a thing, oldest first, ended or not.
template <class T>
Result<std::vector<Kept<T>>> history(Record& record, const Id& thing);

}  // namespace fitwright::record
