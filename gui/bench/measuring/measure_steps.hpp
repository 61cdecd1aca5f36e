#pragma once
// What a person does while measuring: each step takes an evening and gives the next one, or says why not. Nothing is
// changed in place, so that undo is a matter of keeping the old value.

#include <optional>
#include <string>

#include "base/result.hpp"
#include "bench/measuring/measuring.hpp"

namespace fitwright {

struct MeasureStep {
  Measuring next;
  std::string label;  ///< names the step for undo: "reading of X40"
  std::string said;   ///< a sentence for the status line and the screen reader
};

/// Takes one line for the present place and goes to the next. A reading that looks like a slip is taken all the same;
/// its doubt stays beside it (doubts_of) until it is answered. A line that is no reading changes nothing. Errors:
/// Code::bad_input with what was typed; Code::usage when all is read.
/// An empty line is an error too: whether Enter then answers a doubt is for the window to decide.
Result<MeasureStep> type_line(const Measuring& m, const std::string& text, std::optional<double> at_s = {});

/// Puts another value at a reading that was taken. Errors: Code::bad_input; Code::usage when there is no such reading.
Result<MeasureStep> amend_reading(const Measuring& m, const ReadingKey& key, const std::string& text);

/// The three answers to a doubt: it is really so; the proposal was meant; the jaws are put on again (the next line goes
/// there, then on from the present place). Errors: Code::usage when the reading is gone, or nothing is proposed.
Result<MeasureStep> keep_doubtful(const Measuring& m, const MeasureDoubt& doubt);
Result<MeasureStep> take_proposal(const Measuring& m, const MeasureDoubt& doubt);
Result<MeasureStep> read_again(const Measuring& m, const MeasureDoubt& doubt);

/// Leaves the present reading out; go_to() comes back to it. Errors: Code::usage.
Result<MeasureStep> skip_here(const Measuring& m);
/// Leaves out all that is still to be read of the present feature on this copy. Errors: Code::usage.
Result<MeasureStep> part_damaged(const Measuring& m, const std::string& note = "part damaged");
/// One more reading at the present place, or at the last one when all is read. It comes next after the present one;
/// what was left out there as damaged is due again.
Result<MeasureStep> one_more_here(const Measuring& m);
/// Goes to any reading. What is typed at one that was taken replaces it, and the next line goes on where the hand was;
/// one that was left out is taken up again. Errors: Code::usage.
Result<MeasureStep> go_to(const Measuring& m, const ReadingKey& key);
/// Leaves a reading that was to be typed again as it is, and goes on where the hand was. Errors: Code::usage.
Result<MeasureStep> go_on(const Measuring& m);
/// Goes to the first reading that is due.
Result<MeasureStep> to_first_due(const Measuring& m);
/// Takes a reading out; its place is due again. Errors: Code::usage.
Result<MeasureStep> delete_reading(const Measuring& m, const ReadingKey& key);

/// `m` with the reading of `line` set to `mm` (taken, or changed for the reason `why`), the hand left where it is.
/// Precondition: can_be_read(). For those who fill many places at once.
Measuring with_reading(const Measuring& m, const Due& due, const ReadingKey& key, double mm, const std::string& why,
                       std::optional<double> at_s = {});
/// Why a value cannot be a reading at this place, or nothing.
std::optional<Problem> not_readable(const Measuring& m, std::size_t spot, double mm);
/// The hand at a place that is still there; at the first that is due when it was nowhere.
Measuring settled(Measuring m);

/// "X40, 2nd reading" or, where copies differ, "X40 of copy 2, 2nd reading".
std::string reading_words(const Measuring& m, const ReadingKey& key);

}  // namespace fitwright
