#pragma once
// The commands below `fitw record`, one declaration each; record.cpp puts them together.

#include <string>
#include <vector>

#include "commands.hpp"
#include "record_open.hpp"

namespace fitw {

// record_add.cpp and record_add_*.cpp: below `fitw record add`.
Command add_printer_command(CLI::App& add);
Command add_material_command(CLI::App& add);
Command add_spool_command(CLI::App& add);
Command add_caliper_command(CLI::App& add);
Command add_setup_command(CLI::App& add);
Command add_coupon_command(CLI::App& add);
Command add_copy_command(CLI::App& add);
Command add_readings_command(CLI::App& add);
Command add_gauge_command(CLI::App& add);
Command add_travel_command(CLI::App& add);
Command add_note_command(CLI::App& add);

// record_list.cpp, record_show.cpp
Command record_list_command(CLI::App& record);
Command record_show_command(CLI::App& record);

// record_life.cpp
Command record_apply_command(CLI::App& record);
Command record_prove_command(CLI::App& record);
Command record_withdraw_command(CLI::App& record);

// record_amend.cpp
Command record_amend_command(CLI::App& record);
Command record_end_command(CLI::App& record);
Command record_change_command(CLI::App& record);

// record_files.cpp
Command record_export_command(CLI::App& record);
Command record_import_command(CLI::App& record);
Command record_merge_command(CLI::App& record);
Command record_check_command(CLI::App& record);
Command record_backup_command(CLI::App& record);
Command record_restore_command(CLI::App& record);

/// Text, or the same as one JSON document, of a thing that was added.
struct Added {
  std::string kind, name;
  fitwright::record::Id id;
  std::string at;
  bool was_there = false;
};
std::string added_text(const Added& added, bool as_json);

/// A step in the life of a correction, done or only shown: old and new values, other setups, cautions before commands.
std::string step_told(fitwright::record::Record& record, const fitwright::record::StepTaken& step, bool done,
                      bool as_json);

}  // namespace fitw
