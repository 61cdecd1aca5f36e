#pragma once
// Copies of the record: one a day beside it, older ones thinned out; on demand anywhere; and the way back.

#include <optional>
#include <string>
#include <vector>

#include "record/record.hpp"

namespace fitwright::record {

struct Backup {
  std::string path;
  std::string date;  ///< "2026-11-25"
};

/// The folder "backups" beside the record.
std::string backup_folder(const std::string& record_path);

/// The backups in that folder, newest first.
std::vector<Backup> backups_of(const std::string& record_path);

/// The newest of them that is a sound record.
std::optional<Backup> newest_good_backup(const std::string& record_path);

/// Copies the record, as it is now, to `to`: a temporary file, checked, made sure of on the disk and renamed. Another
/// window may go on writing meanwhile. Errors: Code::bad_input when there is a file already (unless `replace`) or `to`
/// is the record itself; Code::io.
Result<Done> back_up(Record& record, const std::string& to, bool replace = false);

/// The backup of `today` ("2026-11-25"), unless there is one or the record holds nothing yet; then older ones are
/// thinned out (rotation.hpp). What went wrong comes back as notes: work goes on without a backup.
std::vector<std::string> back_up_today(Record& record, const std::string& today);

/// A backup before the tables are brought to another version; it is never thinned out. The path, or empty when the
/// record holds nothing yet.
Result<std::string> back_up_before(Record& record, int version, const std::string& today);

struct Restored {
  std::string set_aside;  ///< where the file went that was there; empty when there was none
};

/// Puts `backup` in the place of the record at `record_path`. What is there now, with its journal, is set aside under a
/// name of its own beside it, never deleted. Errors: Code::bad_input for a backup that is damaged or no record,
/// Code::io when another program has the record open, or for the disk.
Result<Restored> restore_backup(const std::string& record_path, const std::string& backup);

}  // namespace fitwright::record
