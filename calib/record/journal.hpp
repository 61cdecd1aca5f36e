#pragma once
// The journal that SQLite keeps beside a record (its name ends in "-wal") holds the latest writes. At opening SQLite
// takes it up to the first place that is not as written and forgets the rest without a word; here that rest is counted.
// Form of the file: sqlite.org/fileformat2.html, 4.

#include <string>
#include <string_view>

namespace fitwright::record {

struct JournalLook {
  bool sound_header = true;  ///< of a file that has a header at all
  int taken = 0;             ///< complete writes (commits) that SQLite will take
  int lost = 0;              ///< ends of writes that are there, but behind a place that is not as written
};

/// Looks at the bytes of a journal.
JournalLook look_at_journal(std::string_view bytes);

/// The same for a file that other programs may be writing: looked at again until it holds still. A missing file or one
/// that cannot be read is an empty journal: opening will tell.
JournalLook look_at_journal_file(const std::string& path);

}  // namespace fitwright::record
