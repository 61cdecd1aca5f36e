#pragma once
// For the tests of the record's file: a folder that goes away, a small bench in a record, its content as text, and
// other programs at work on it.

#include <sys/types.h>

#include <cstddef>
#include <string>
#include <vector>

#include "record/store.hpp"

namespace scratch {

/// An empty folder of its own, deleted at the end of its life: on the disk, where each commit waits for it, or in
/// memory (where there is /dev/shm), where some hundred commits are made in the same time.
class Folder {
 public:
  explicit Folder(bool in_memory = false);
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + '/' + name; }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// What a bench has after an evening: printer, spool, coupon, copies and so on.
struct Bench {
  fitwright::record::Id printer, setup, coupon, copy, caliper;
};
/// Puts it into a record; `readings` of them, each tenth amended.
Bench fill(fitwright::record::Record& record, int readings);

/// Every row of every table as text, by id: equal text, equal content. Throws DatabaseError.
std::string content_of(fitwright::record::Database& database);

/// Opens without backups. Fails the test with the messages when it cannot.
fitwright::record::Record opened(const std::string& path);

std::string bytes_of(const std::string& path);
void put(const std::string& path, const std::string& bytes);

/// What all problems say, a line each.
std::string told(const fitwright::Problems& problems);

/// record_writer at work.
class Writer {
 public:
  explicit Writer(const std::vector<std::string>& words);
  ~Writer();
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  /// The next line it says; empty at its end.
  std::string line();
  /// The lines that are left, after its end.
  std::vector<std::string> rest();
  void go();    ///< gives it a line to read
  void kill();  ///< without warning
  int wait();   ///< its exit code

 private:
  bool more();
  pid_t child_ = -1;
  int out_ = -1, in_ = -1;
  std::string held_;
};

}  // namespace scratch
