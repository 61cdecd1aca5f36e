// fitw record: what is kept, and what becomes of it.

#include "record_parts.hpp"
#include "report/json_text.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples, the first evening:
  fitw record add printer Heron --set bed_x_mm=220 bed_y_mm=220
  fitw record add material PLA --set density_g_cm3=1.24
  fitw record add spool "PLA slate, batch 14" --material PLA
  fitw record add caliper "tool library" --set resolution_mm=0.01
  fitw record add setup "slate on Heron" --printer Heron \
       --spool "PLA slate, batch 14"
  fitw record add coupon frame
  fitw record add copy --setup "slate on Heron" --coupon frame
  fitw record add readings frame.csv --setup "slate on Heron"
  fitw estimate --setup "slate on Heron"
  fitw correct --setup "slate on Heron" --policy shrink
  fitw record apply last

Each of these has a --help of its own. Nothing is overwritten: what is amended
keeps its old value, and each change has its date.

Take care: changed steps per mm change how far the machine moves. Note the old
values first; a wrong Z value can drive the nozzle into the bed; keep a hand on
the power switch for the first move.)";

constexpr const char* add_footer = R"(Examples:
  fitw record add printer Wren --set bed_x_mm=180 bed_y_mm=180
  fitw record add readings frame.csv --setup "slate on Wren"

fitw record add KIND --help tells what each takes.)";

Outcome nothing_chosen(Words& words) {
  words.no_command_below();
  return {"", {}, words.problems()};
}

}  // namespace

std::string added_text(const Added& added, bool as_json) {
  if (as_json)
    return fitwright::json_text(fitwright::Json{{"schema", fitwright::report_schema},
                                                {"kind", added.kind},
                                                {"name", added.name},
                                                {"id", added.id.text},
                                                {"at", added.at},
                                                {"was_there", added.was_there}});
  return added.kind + " \"" + added.name + (added.was_there ? "\" was there already" : "\" added") + ", id " +
         short_id(added.id) + '\n';
}

std::vector<Command> record_commands(CLI::App& root) {
  auto record =
      std::make_unique<Words>(root, "record", "Keeps everything measured and corrected, with its dates", footer);
  std::vector<Command> commands;
  CLI::App& below = record->app();
  for (const auto make : {record_list_command, record_show_command}) commands.push_back(make(below));
  auto add = std::make_unique<Words>(below, "add", "Adds a thing to the record", add_footer);
  for (const auto make : {add_printer_command, add_material_command, add_spool_command, add_caliper_command,
                          add_setup_command, add_coupon_command, add_copy_command, add_readings_command,
                          add_gauge_command, add_travel_command, add_note_command})
    commands.push_back(make(add->app()));
  commands.push_back({std::move(add), nothing_chosen});
  for (const auto make : {record_apply_command, record_prove_command, record_withdraw_command, record_change_command,
                          record_amend_command, record_end_command, record_export_command, record_import_command,
                          record_merge_command, record_check_command, record_backup_command, record_restore_command})
    commands.push_back(make(below));
  commands.push_back({std::move(record), nothing_chosen});
  return commands;
}

}  // namespace fitw
