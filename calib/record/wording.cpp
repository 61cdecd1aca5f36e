#include "record/wording.hpp"

#include <sqlite3.h>

#include <cerrno>
#include <cstring>

#include "record/backup.hpp"
#include "record/look.hpp"
#include "record/pages.hpp"

namespace fitwright::record {
namespace {

constexpr const char* nothing_written = "nothing of this was written: ";
constexpr const char* elsewhere = "work can go on in memory and be saved elsewhere";

struct Words {
  int code;  ///< SQLite's, extended where it is one
  Code kind;
  const char* what;
  const char* remedy;
};

// Looked up by the extended code, then by its primary one.
constexpr Words words[] = {
    {SQLITE_BUSY, Code::io, "is being written by another program",
     "nothing of this was written: wait until the other window or program is done, or close it, and try again"},
    {SQLITE_BUSY_SNAPSHOT, Code::io, "was changed by another program in the middle of this",
     "nothing of this was written: look at what it says now and do it again"},
    {SQLITE_LOCKED, Code::io, "is still being read by this program", "nothing of this was written: try again"},
    {SQLITE_PROTOCOL, Code::io, "could not be locked, since too many programs tried at once",
     "nothing of this was written: try again; if it stays, keep the record on a disk of this computer"},
    {SQLITE_READONLY, Code::io, "cannot be written, since the file or its folder is read-only",
     "change its permissions, or name another file with --record FILE"},
    {SQLITE_READONLY_DBMOVED, Code::io, "was moved, renamed or replaced while it was open",
     "nothing of this was written: open it again where it is now"},
    {SQLITE_READONLY_ROLLBACK, Code::io, "was left in the middle of a write and cannot be put right without writing",
     "make the file and its folder writable and open it again"},
    {SQLITE_READONLY_RECOVERY, Code::io, "was left in the middle of a write and cannot be put right without writing",
     "make the file and its folder writable and open it again"},
    {SQLITE_READONLY_CANTLOCK, Code::io, "cannot be read here, since nothing can be written beside it",
     "copy the file, together with the one whose name ends in -wal, to a folder that can be written"},
    {SQLITE_READONLY_CANTINIT, Code::io, "cannot be read here, since nothing can be written beside it",
     "copy the file, together with the one whose name ends in -wal, to a folder that can be written"},
    {SQLITE_CANTOPEN, Code::io, "could not be opened",
     "check the name, that the folder is there, and that you may write in it"},
    {SQLITE_CANTOPEN_ISDIR, Code::io, "is a folder", "name a file with --record FILE"},
    {SQLITE_FULL, Code::io, "could not grow, since the disk is full",
     "nothing of this was written and what was there is unharmed: make room and try again, or save a copy elsewhere"},
    {SQLITE_NOMEM, Code::io, "could not be used, since memory ran out",
     "nothing of this was written: close other programs and try again"},
    {SQLITE_IOERR_NOMEM, Code::io, "could not be used, since memory ran out",
     "nothing of this was written: close other programs and try again"},
    {SQLITE_IOERR, Code::io, "could not be read or written, since the disk reported an error",
     "look after the disk, and copy the record and its backups elsewhere"},
    {SQLITE_IOERR_FSYNC, Code::io, "could not be written for good, since the disk reported an error",
     "do not trust the disk: save a copy elsewhere"},
    {SQLITE_IOERR_DIR_FSYNC, Code::io, "could not be written for good, since the disk reported an error",
     "do not trust the disk: save a copy elsewhere"},
    {SQLITE_IOERR_LOCK, Code::io, "could not be locked, since its disk knows no locks",
     "keep the record on a disk of this computer"},
    {SQLITE_IOERR_RDLOCK, Code::io, "could not be locked, since its disk knows no locks",
     "keep the record on a disk of this computer"},
    {SQLITE_IOERR_SHMOPEN, Code::io, "could not be shared with other programs, since nothing can be made beside it",
     "check that you may write in its folder, or keep the record on a disk of this computer"},
    {SQLITE_IOERR_SHMSIZE, Code::io, "could not be shared with other programs, since there is no room beside it",
     "make room on the disk, or keep the record elsewhere"},
    {SQLITE_IOERR_SHMMAP, Code::io, "could not be shared with other programs, since its disk does not allow it",
     "keep the record on a disk of this computer"},
    {SQLITE_PERM, Code::io, "may not be used", "check the permissions of the file and its folder"},
    {SQLITE_AUTH, Code::io, "may not be used", "check the permissions of the file and its folder"},
    {SQLITE_NOLFS, Code::io, "is too large for its disk", "keep the record on another disk"},
    {SQLITE_TOOBIG, Code::bad_input, "cannot hold a text as long as this one",
     "shorten it: nothing of this was written"},
    {SQLITE_INTERRUPT, Code::io, "was left alone in the middle, as asked", "nothing of this was written: do it again"},
    {SQLITE_ABORT, Code::io, "was left alone in the middle", "nothing of this was written: do it again"},
    {SQLITE_CONSTRAINT, Code::bad_input, "does not take such an entry",
     "nothing of this was written: check the values"},
    {SQLITE_CONSTRAINT_FOREIGNKEY, Code::bad_input, "does not hold what the entry refers to",
     "nothing of this was written: enter that first, or list what there is"},
    {SQLITE_CONSTRAINT_CHECK, Code::bad_input, "does not take such an entry: a value is outside what is allowed",
     "nothing of this was written: check the values"},
    {SQLITE_CONSTRAINT_NOTNULL, Code::bad_input, "does not take such an entry: a value is missing",
     "nothing of this was written: check that all are numbers"},
    {SQLITE_CONSTRAINT_DATATYPE, Code::bad_input, "does not take such an entry: a value is of the wrong kind",
     "nothing of this was written: check the values"},
    {SQLITE_CONSTRAINT_PRIMARYKEY, Code::bad_input, "holds an entry of that id already",
     "nothing of this was written: look at what it says"},
    {SQLITE_CONSTRAINT_UNIQUE, Code::bad_input, "holds that entry already",
     "nothing of this was written: look at what it says"},
    {SQLITE_CONSTRAINT_TRIGGER, Code::bad_input, "keeps every entry as it was written",
     "nothing of this was written: amend the entry instead"},
    {SQLITE_ERROR, Code::bad_input, "does not have the tables that this program knows",
     "check it with: fitw record check"},
    {SQLITE_SCHEMA, Code::io, "was brought to another version by another program meanwhile",
     "nothing of this was written: open it again"},
};

const Words* words_for(int code) {
  for (const Words& w : words)
    if (w.code == code) return &w;
  for (const Words& w : words)
    if (w.code == (code & 0xff)) return &w;
  return nullptr;
}

bool no_room(int error) { return error == ENOSPC || error == EDQUOT || error == EFBIG; }

}  // namespace

std::string shell_word(const std::string& path) {
  constexpr const char* plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/._-+,:@%=";
  if (!path.empty() && path.find_first_not_of(plain) == std::string::npos) return path;
  std::string out = "'";
  for (const char c : path) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string way_back(const std::string& path) {
  const auto good = newest_good_backup(path);
  if (!good)
    return "there is no good backup in " + backup_folder(path) +
           ": keep the file as it is, and look for a copy of it elsewhere";
  return "the newest good backup is of " + good->date + "; take it with: fitw record restore " +
         shell_word(good->path) + " --record " + shell_word(path) +
         " (what is there now is set aside under another name, not deleted)";
}

Problem damaged_problem(const std::string& path, const std::string& found) {
  return {Code::bad_input, {path, 0, 0}, "the record " + found, "nothing was written to it; " + way_back(path)};
}

Problem system_problem(const std::string& path, int error, const std::string& what) {
  std::string because, remedy = "check the name, and the permissions of the file and its folder";
  switch (error) {
    case EACCES:
    case EPERM:
      because = "permission is denied";
      remedy = "change the permissions of the file and its folder, or name another file with --record FILE";
      break;
    case EROFS:
      because = "the disk is read-only";
      remedy = "name another file with --record FILE";
      break;
    case ENOENT:
      because = "it is not there";
      break;
    case ENOTDIR:
      because = "a part of the path is not a folder";
      break;
    case EISDIR:
      because = "it is a folder";
      remedy = "name a file with --record FILE";
      break;
    case ENAMETOOLONG:
      because = "the name is too long";
      remedy = "name another file with --record FILE";
      break;
    case ENOSPC:
    case EDQUOT:
      because = error == ENOSPC ? "the disk is full" : "the room allowed to you on the disk is used up";
      remedy = "make room and try again, or name a file on another disk with --record FILE";
      break;
    case EFBIG:
      because = "the file may not grow further";
      remedy = "lift the limit on the size of files, or name a file on another disk with --record FILE";
      break;
    case EMFILE:
    case ENFILE:
      because = "too many files are open";
      remedy = "close other programs and try again";
      break;
    case EIO:
      because = "the disk reported an error";
      remedy = "look after the disk, and copy the record and its backups elsewhere";
      break;
    default:
      because = std::string("the system says: ") + std::strerror(error);
      break;
  }
  return {Code::io, {path, 0, 0}, "the record " + what + ", since " + because, remedy};
}

Problem problem_of(const DatabaseError& error, const std::string& path) {
  if (const auto page = take_bad_page(); page && error.code == SQLITE_IOERR_DATA)
    return damaged_problem(path, "is damaged: page " + std::to_string(*page) + " does not hold what was written to it");
  if (tells_damage(error.code)) return damaged_problem(path, "is damaged: its content is not what was written");
  const int primary = error.code & 0xff;
  if (no_room(error.system) && (primary == SQLITE_IOERR || primary == SQLITE_CANTOPEN)) {
    Problem full = system_problem(path, error.system, "could not grow");
    full.remedy = "nothing of this was written and what was there is unharmed: " + full.remedy;
    return full;
  }
  if (primary == SQLITE_CANTOPEN && error.system != 0 && error.code != SQLITE_CANTOPEN_ISDIR)
    return system_problem(path, error.system, "could not be opened");
  const Words* known = words_for(error.code);
  if (!known)
    return {Code::io,
            {path, 0, 0},
            "the record could not be used (fault " + std::to_string(error.code) + " of the database)",
            std::string(nothing_written) + "try again; " + elsewhere};
  return {known->kind, {path, 0, 0}, std::string("the record ") + known->what, known->remedy};
}

}  // namespace fitwright::record
