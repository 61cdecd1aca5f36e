#pragma once
// Keeping readings on disk: open, save, and a side file that survives a crash.

#include <optional>
#include <string>

#include "base/result.hpp"
#include "bench/bench.hpp"
#include "bench/document.hpp"

namespace fitwright {

/// Opens readings. Errors: those of the file (Code::io) and every defect of its text (Code::bad_input).
Result<Document> open_document(const std::string& path);

/// The readings that ship with the program: our own scenario, made by the practice printer.
Document demo_document();

/// Readings of a file as an evening: every place that it names is due, `unread` ones too, in the order that spares
/// moves. Without any reading the evening has no plan. Errors: Code::bad_input for readings that contradict each other.
Result<Measuring> evening_of_file(const ReadingSet& read, const std::vector<Reading>& unread = {});

/// A bench on the record of the demo, in memory: whatever is done there is gone when the window closes. The setup with
/// a proved correction is on it. Throws std::logic_error when our own record cannot be taken in (a defect).
Bench demo_bench();

/// Writes the readings that hold a value to `path`, whole or not at all. Errors: Code::io.
Result<Done> save_readings(const ReadingSet& readings, const std::string& path);

/// The user's data folder of this program by the XDG base directory rules; made when it is not there. Errors: Code::io.
Result<std::string> data_folder();

/// Side file in `folder` for the document at `path` (empty: the one without a file yet).
std::string side_file(const std::string& folder, const std::string& path);

/// Readings left in the side file by a run that did not end well, if they differ from `opened`.
std::optional<ReadingSet> left_behind(const std::string& side_file, const ReadingSet& opened);

/// Removes a side file; a missing one is fine.
void forget(const std::string& side_file);

}  // namespace fitwright
