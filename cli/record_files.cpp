// fitw record export, import, merge, check, backup, restore: the record as a file.

#include <filesystem>

#include "base/file.hpp"
#include "reading/csv.hpp"
#include "record/backup.hpp"
#include "record/exchange.hpp"
#include "record/integrity.hpp"
#include "record/reading_set.hpp"
#include "record/spreadsheet.hpp"
#include "record_parts.hpp"
#include "report/json_text.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Json;

namespace {

constexpr const char* export_footer = R"(Examples:
  fitw record export evening.json
                            all of it, for another bench or for keeping
  fitw record export --readings readings.csv --setup "slate on Heron"
  fitw record export --corrections corrections.csv
                            for a spreadsheet
  fitw record export --measured slate.csv --setup "slate on Heron"
                            a readings file: what fitw estimate --setup takes)";
constexpr const char* import_footer = R"(Examples:
  fitw record import evening.json
  fitw record import evening.json --dry-run

Nothing is overwritten. Taken a second time the same file adds nothing.)";
constexpr const char* merge_footer = R"(Examples:
  fitw record merge other-bench.fitwright
  fitw record merge evening.json --dry-run

The rows that are not there yet are added, all or none. What does not fit
together is listed with both sides, for you to decide.)";
constexpr const char* check_footer = R"(Examples:
  fitw record check

Looks at every page, reference and amendment; writes nothing.)";
constexpr const char* backup_footer = R"(Examples:
  fitw record backup /media/stick/record.fitwright
  fitw record backup
                            lists the copies that are made by themselves at
                            opening: the last 5 days, 4 weeks, 12 months)";
constexpr const char* restore_footer = R"(Examples:
  fitw record restore backups/record-2026-11-24.fitwright

What is there now is set aside under a name of its own, never deleted.)";

/// What these commands share.
struct Request {
  std::string word, path;
  bool as_json = false;
};

Request take_request(Words& words, Outcome& outcome) {
  Request r;
  r.word = words.word();
  r.path = take_record_path(words, outcome);
  r.as_json = words.flag("--json");
  add(outcome.problems, words.problems());
  return r;
}

void declare_common(Words& words) {
  declare_record(words);
  words.declare_flag("--json", "One JSON document instead of text");
}

std::string written_text(const std::string& file, std::size_t rows, bool as_json) {
  if (as_json) return fitwright::json_text(Json{{"schema", fitwright::report_schema}, {"file", file}, {"rows", rows}});
  return std::to_string(rows) + " rows written to " + file + '\n';
}

void export_sheet(rec::Record& record, const std::string& file, bool readings, const rec::SpreadsheetOptions& options,
                  bool as_json, Outcome& outcome) {
  const auto sheet =
      got(readings ? rec::readings_csv(record, options) : rec::corrections_csv(record, options), outcome);
  if (!sheet) return;
  if (!got(fitwright::write_whole(file, sheet->csv), outcome)) return;
  for (const std::string& note : sheet->notes) outcome.notes.push_back(note);
  outcome.out += written_text(file, sheet->rows, as_json);
}

/// The readings that an estimate of the setup takes, as a readings file.
void export_measured(rec::Record& record, const std::string& file, const rec::Id& setup, bool as_json,
                     Outcome& outcome) {
  const auto from = got(rec::readings_for(record, setup), outcome);
  if (!from || !got(fitwright::write_whole(file, fitwright::to_csv(from->readings)), outcome)) return;
  for (const std::string& note : from->notes) outcome.notes.push_back(note);
  for (const auto& left : from->left_out) outcome.notes.push_back("left out: " + left.because);
  outcome.out = written_text(file, from->readings.rows.size(), as_json);
}

Outcome run_export(Words& words) {
  Outcome outcome;
  const auto readings = words.text("--readings"), corrections = words.text("--corrections"),
             measured = words.text("--measured"), setup = words.text("--setup");
  const int tables = readings.has_value() + corrections.has_value() + measured.has_value();
  const std::string file = tables > 0 ? words.optional_word() : words.word();
  const std::string path = take_record_path(words, outcome);
  const bool as_json = words.flag("--json");
  if (tables > 1 || (tables == 1 && !file.empty()))
    words.complain("FILE.json, --readings, --corrections and --measured are different files", "give one at a time");
  if (setup && tables == 0)
    words.complain("--setup is for --readings, --corrections and --measured", "the JSON file always holds all of it");
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::look, path, outcome);
  if (!record) return outcome;
  rec::SpreadsheetOptions options;
  options.superseded = words.flag("--all-rows");
  if (setup || measured)
    if (const auto kept = got(find_setup(*record, setup.value_or("")), outcome)) options.setup = kept->thing;
  if (!outcome.problems.empty()) return outcome;
  if (measured) {
    export_measured(*record, *measured, options.setup, as_json, outcome);
  } else if (tables > 0) {
    export_sheet(*record, readings ? *readings : *corrections, readings.has_value(), options, as_json, outcome);
  } else if (const auto count = got(rec::export_json(*record, file), outcome)) {
    outcome.notes = count->notes;
    outcome.out = written_text(file, count->rows, as_json);
  }
  return outcome;
}

Outcome take_in(Words& words, Use use) {
  Outcome outcome;
  const Request r = take_request(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  rec::MergeOptions options;
  options.dry_run = words.flag("--dry-run");
  auto record = open_for(use, r.path, outcome);
  if (!record) return outcome;
  if (const auto report = got(rec::merge_file(*record, r.word, options), outcome))
    outcome.out = r.as_json ? rec::merge_json(*report) : rec::merge_text(*report);
  return outcome;
}

Outcome run_import(Words& words) { return take_in(words, Use::begin); }
Outcome run_merge(Words& words) { return take_in(words, Use::change); }

Outcome run_check(Words& words) {
  Outcome outcome;
  const Request r = take_request(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  auto record = open_for(Use::look, r.path, outcome);
  if (!record) return outcome;
  outcome.problems = rec::check_record(*record);
  if (!outcome.problems.empty()) return outcome;
  outcome.out =
      r.as_json ? fitwright::json_text(Json{{"schema", fitwright::report_schema}, {"record", r.path}, {"sound", true}})
                : r.path + " is sound\n";
  return outcome;
}

Outcome list_backups(const Request& r) {
  Outcome outcome;
  const auto backups = rec::backups_of(r.path);
  Json list = Json::array();
  for (const auto& backup : backups) {
    list.push_back({{"file", backup.path}, {"date", backup.date}});
    outcome.out += backup.date + "  " + backup.path + '\n';
  }
  if (backups.empty()) outcome.out = "No backup yet; fitw record backup FILE makes one\n";
  if (r.as_json)
    outcome.out =
        fitwright::json_text(Json{{"schema", fitwright::report_schema}, {"record", r.path}, {"backups", list}});
  return outcome;
}

Outcome run_backup(Words& words) {
  Outcome outcome;
  Request r;
  r.word = words.optional_word();
  r.path = take_record_path(words, outcome);
  r.as_json = words.flag("--json");
  add(outcome.problems, words.problems());
  if (!outcome.problems.empty()) return outcome;
  if (r.word.empty()) return list_backups(r);
  auto record = open_for(Use::look, r.path, outcome);
  if (!record) return outcome;
  if (got(rec::back_up(*record, r.word, words.flag("--replace")), outcome))
    outcome.out = r.as_json ? fitwright::json_text(Json{{"schema", fitwright::report_schema}, {"file", r.word}})
                            : "Copied to " + r.word + '\n';
  return outcome;
}

Outcome run_restore(Words& words) {
  Outcome outcome;
  const Request r = take_request(words, outcome);
  if (!outcome.problems.empty()) return outcome;
  const auto done = got(rec::restore_backup(r.path, r.word), outcome);
  if (!done) return outcome;
  if (r.as_json)
    outcome.out = fitwright::json_text(
        Json{{"schema", fitwright::report_schema}, {"record", r.path}, {"set_aside", done->set_aside}});
  else
    outcome.out = r.path + " is " + r.word + " now\n" +
                  (done->set_aside.empty() ? std::string() : "What was there is kept as " + done->set_aside + '\n');
  return outcome;
}

}  // namespace

Command record_export_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "export", "Writes the record as one JSON file, or as a spreadsheet",
                                       export_footer);
  words->declare_word("FILE.json", "Where all of it goes");
  words->declare("--readings", "FILE.csv", "Readings for a spreadsheet, instead");
  words->declare("--corrections", "FILE.csv", "Corrections for a spreadsheet, instead");
  words->declare("--measured", "FILE.csv",
                 "The readings that an estimate of --setup takes, as a readings file, instead");
  words->declare("--setup", "NAME", "For CSV: of this setup only");
  words->declare_flag("--all-rows", "For a spreadsheet: readings that were amended since, too");
  declare_common(*words);
  return {std::move(words), run_export};
}

Command record_import_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "import", "Takes in a JSON file; makes the record if it is not there",
                                       import_footer);
  words->declare_word("FILE.json", "What fitw record export wrote");
  words->declare_flag("--dry-run", "Look only");
  declare_common(*words);
  return {std::move(words), run_import};
}

Command record_merge_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "merge", "Brings the record of another bench into this one", merge_footer);
  words->declare_word("FILE", "Another record, or a JSON file; it is only read");
  words->declare_flag("--dry-run", "Look only");
  declare_common(*words);
  return {std::move(words), run_merge};
}

Command record_check_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "check", "Looks whether all of the record is sound", check_footer);
  declare_common(*words);
  return {std::move(words), run_check};
}

Command record_backup_command(CLI::App& above) {
  auto words =
      std::make_unique<Words>(above, "backup", "Copies the record, or lists the copies there are", backup_footer);
  words->declare_word("FILE", "Where the copy goes");
  words->declare_flag("--replace", "Over a file that is there");
  declare_common(*words);
  return {std::move(words), run_backup};
}

Command record_restore_command(CLI::App& above) {
  auto words = std::make_unique<Words>(above, "restore", "Puts a backup in the place of the record", restore_footer);
  words->declare_word("BACKUP", "A copy that fitw record backup lists, or made");
  declare_common(*words);
  return {std::move(words), run_restore};
}

}  // namespace fitw
