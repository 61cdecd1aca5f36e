#include <sqlite3.h>

#include <algorithm>
#include <filesystem>
#include <optional>

#include "base/file.hpp"
#include "reading/defects.hpp"
#include "record/exchange.hpp"
#include "record/merge_rows.hpp"
#include "record/schema.hpp"
#include "record/staging.hpp"

namespace fitwright::record {
namespace {

/// All problems, within what a person can read.
Problems within_reason(Problems problems, const std::string& source) {
  Defects defects(source);
  for (Problem& problem : problems)
    defects.add(problem.where.line, problem.where.column, std::move(problem.what), std::move(problem.remedy));
  return defects.take();
}

Result<MergeReport> merge_databases(Record& record, Database& theirs, const std::string& source,
                                    const MergeOptions& options) {
  Database& ours = record.database();
  try {
    MergeReport report;
    report.source = source;
    report.dry_run = options.dry_run;
    Transaction whole(ours);
    const Snapshot as_it_is(theirs);
    ours.script("PRAGMA defer_foreign_keys = ON");  // within a table amendments may stand before what they amend
    const std::vector<TableInfo> tables = describe_things(ours);
    Merging merging{ours, theirs, tables, report, {}, {}};
    const auto both = amended_by_both(merging);
    const NamesNow before = names_now(ours, tables);
    take_rows(merging);
    if (!merging.problems.empty()) return within_reason(std::move(merging.problems), source);
    list_amendments(merging, both);
    list_equal_names(merging, before);
    std::stable_partition(report.conflicts.begin(), report.conflicts.end(),
                          [](const Conflict& conflict) { return !conflict.known; });
    if (!options.dry_run) whole.commit();
    return report;
  } catch (const DatabaseError& error) {
    const int of_theirs = sqlite3_errcode(theirs.handle());
    const bool theirs_failed = of_theirs != SQLITE_OK && of_theirs != SQLITE_ROW && of_theirs != SQLITE_DONE;
    return problem_of(error, theirs_failed ? source : record.path());
  }
}

}  // namespace

std::string_view word(Conflict::Kind kind) {
  switch (kind) {
    case Conflict::Kind::changed_row:
      return "changed row";
    case Conflict::Kind::two_amendments:
      return "two amendments";
    case Conflict::Kind::same_name:
      return "same name";
  }
  return "?";
}

std::size_t MergeReport::new_conflicts() const {
  return static_cast<std::size_t>(
      std::count_if(conflicts.begin(), conflicts.end(), [](const Conflict& c) { return !c.known; }));
}

Result<MergeReport> merge(Record& ours, Record& theirs, const MergeOptions& options) {
  const std::string source = theirs.in_memory() ? "the other record" : theirs.path();
  std::optional<Database> up_to_date;
  const auto prepared = guarded(theirs, [&]() -> Result<Done> {
    const auto version = theirs.database().number("PRAGMA user_version").value_or(0);
    if (version > schema_version)
      return Problem{Code::bad_input,
                     {source, 0, 0},
                     "is a record of a newer version of the program",
                     "merge the two with the newer version"};
    if (version < schema_version) up_to_date = stage_older(theirs.database());
    return Done{};
  });
  if (!prepared) return prepared.problems();
  return merge_databases(ours, up_to_date ? *up_to_date : theirs.database(), source, options);
}

Result<MergeReport> import_json_text(Record& record, const std::string& json, const std::string& source,
                                     const MergeOptions& options) {
  return guarded(record, [&]() -> Result<MergeReport> {
    auto staged = stage_json(json, source);
    if (!staged) return staged.problems();
    return merge_databases(record, *staged, source, options);
  });
}

Result<MergeReport> merge_file(Record& ours, const std::string& path, const MergeOptions& options) {
  std::error_code none;
  if (std::filesystem::equivalent(path, ours.path(), none))
    return Problem{Code::bad_input,
                   {path, 0, 0},
                   "is the record itself",
                   "name the other record, or a JSON file made by fitw record export"};
  if (is_record_file(path)) {
    OpenOptions looking;
    looking.read_only = looking.must_exist = true;
    looking.keep_backups = false;
    auto theirs = open_record(path, looking);
    if (!theirs) return theirs.problems();
    return merge(ours, *theirs, options);
  }
  const auto json = read_whole(path);
  if (!json) return json.problems();
  return import_json_text(ours, *json, path, options);
}

}  // namespace fitwright::record
