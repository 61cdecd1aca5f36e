#pragma once
// What happened to a setup along time: prints, evenings, steel, estimates, corrections and remarks, with what was in
// force at any of these dates, what it has cost and how spools of its material compare.

#include <string>
#include <vector>

#include "base/result.hpp"
#include "record/record.hpp"

namespace fitwright {

/// What kind of thing happened: a lane of the drawing along time.
enum class HistoryLane { setup, printed, measured, understood, corrected };

struct HistoryRow {
  std::string at;    ///< UTC, as the record writes it; a day that is known without its hour counts to its end
  std::string date;  ///< as told: "2026-11-25 19:04", or the day alone
  std::string what;  ///< "Copy printed", "Measured", "Correction applied"
  std::string detail;
  record::Id thing;  ///< copy, session, estimate, correction, remark or setup
  HistoryLane lane = HistoryLane::setup;
  bool settings_changed = false;  ///< a correction came into force here, or was taken back
};

struct HistoryView {
  std::string empty;             ///< what will stand here and the step that fills it; empty when something does
  std::vector<HistoryRow> rows;  ///< newest first
  std::string cost;              ///< grams and money so far, in a sentence
  std::vector<std::string> cost_notes;
  std::vector<std::string> spools;  ///< spools of the material compared, a sentence each
};

/// The history of a setup; for an empty id only `empty` is filled. Reads the record, changes nothing. Errors: Code::io,
/// Code::bad_input.
Result<HistoryView> history_view(record::Record& record, const record::Id& setup);

/// The state in force at a moment (UTC; empty: now), in sentences. Errors as above.
Result<std::vector<std::string>> state_at(record::Record& record, const record::Id& setup, const std::string& at);

/// How the spool of a setup compares with the other spools of its material: shrinkage with the settings taken out.
Result<std::vector<std::string>> spools_compared(record::Record& record, const record::Id& setup);

enum class HistoryFile { record, readings, corrections };

/// Writes the whole record as JSON, or readings or corrections of a setup as CSV: whole or not at all. Gives what is to
/// be said of it, in sentences. Errors: Code::io.
Result<std::vector<std::string>> write_history(record::Record& record, const record::Id& setup, HistoryFile what,
                                               const std::string& path);

}  // namespace fitwright
