#pragma once
// The record as one JSON file, out and in, and two records made one (docs/formats.md).
//
// Rows are facts that are never changed, each with an id of its own: bringing two records together is taking the rows
// of both. What then does not fit together is listed for a person to decide; nothing is overwritten and nothing joined.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "record/record.hpp"

namespace fitwright::record {

/// Version of the JSON file's own shape (key "fitwright_record"); the tables' version stands beside it.
inline constexpr int export_format = 1;

struct ExportCount {
  std::size_t rows = 0;
  std::vector<std::string> notes;  ///< what could not be written as it is, in sentences
};

/// Writes every row of the record to a JSON file, whole or not at all; equal records give equal bytes. Takes little
/// memory however many rows there are. Errors: Code::io.
Result<ExportCount> export_json(Record& record, const std::string& path);

/// The same document as text.
Result<std::string> export_json_text(Record& record);

/// One side of what does not fit together: a row, and what it says.
struct ConflictSide {
  Id row, thing;
  std::string at, why;
  bool ended = false;
};

/// A field of a row in which the sides differ, as they would stand in the JSON file (text without its quotes); empty
/// where the field is.
struct FieldDifference {
  std::string field;
  std::string before;  ///< in the newest row that both go back to; empty when there is none
  std::string ours, theirs;
};

struct Conflict {
  enum class Kind {
    changed_row,     ///< one id, two contents: someone changed a fact by hand. Ours is kept
    two_amendments,  ///< both benches amended the same thing. Both rows are kept, the newest by `at` and id holds
    same_name,       ///< two things that have the same name, or two spools of one batch. Both are kept
  };
  Kind kind = Kind::changed_row;
  std::string table;
  std::string name;  ///< of the thing, or what tells it apart
  ConflictSide ours, theirs;
  std::vector<FieldDifference> fields;
  bool theirs_holds = false;  ///< two_amendments: which of the two holds now
  bool known = false;         ///< was there before this merge already, on one of the two benches
};
std::string_view word(Conflict::Kind kind);

struct TableMerged {
  std::string table;
  std::size_t added = 0, present = 0;
};

/// What a merge did, or would do.
struct MergeReport {
  std::string source;
  bool dry_run = false;
  std::size_t added = 0;            ///< rows new to our record
  std::size_t present = 0;          ///< rows that were there already
  std::size_t agreed = 0;           ///< things that both benches amended in the same way: no conflict
  std::vector<TableMerged> tables;  ///< those with rows in the source, in the order of thing_tables()
  std::vector<Conflict> conflicts;  ///< new ones first
  [[nodiscard]] std::size_t new_conflicts() const;
};

struct MergeOptions {
  bool dry_run = false;  ///< look only: nothing is written
};

/// Takes the rows of `theirs` that `ours` does not have, all in one transaction or none. `theirs` is only read. Errors:
/// Code::bad_input when rows of `theirs` refer to what neither has, or amend what they cannot, all of them; Code::io.
Result<MergeReport> merge(Record& ours, Record& theirs, const MergeOptions& options = {});

/// The same from a file: another record, or a JSON file; which of the two is told by its first bytes. The file is only
/// read. Errors, besides those above: Code::bad_input for every defect of a JSON file with line and column (the first
/// hundred in full), a file of a newer program, the record itself.
Result<MergeReport> merge_file(Record& ours, const std::string& path, const MergeOptions& options = {});

/// Takes in a JSON document; into an empty record it is restored as it was. `source` names it in messages.
Result<MergeReport> import_json_text(Record& record, const std::string& json, const std::string& source,
                                     const MergeOptions& options = {});

/// The report for people, and as a JSON document.
std::string merge_text(const MergeReport& report);
std::string merge_json(const MergeReport& report);

}  // namespace fitwright::record
