// record_writer: writes to a record as told, and says on standard output what it has begun and what is confirmed. Run
// and killed by the tests of the record.
//
//   stream PATH COPY TAG        batches of readings without end: "R" when open, "B n k" begins, "C n" is committed
//   many PATH COPY TAG COUNT    COUNT readings, each by itself: "C n" for each, "E" with the message for a failure
//   fill PATH COPY TAG BYTES    the same without end, where no file may grow beyond BYTES
//   amend PATH PRINTER WORD     waits for a line on standard input, then amends the printer's note: "W" or "L message"
//   open PATH [nobody]          opens (as the user nobody): "O" and notes, or "E" with the message
//   read PATH [nobody]          the same for reading only: "O n" with the number of readings

#include <grp.h>
#include <signal.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "record/store.hpp"

namespace {

using namespace fitwright;
using namespace fitwright::record;

constexpr unsigned nobody = 65534;  ///< user and group of that name on Linux

/// One write to the pipe a line, so that what was said before a kill is all there.
void say(const std::string& line) {
  const std::string whole = line + '\n';
  if (::write(1, whole.data(), whole.size()) != static_cast<ssize_t>(whole.size())) std::_Exit(3);
}

int told(const Problems& problems) {
  for (const Problem& problem : problems) say("E " + problem.text());
  return 1;
}

StoredReading reading(const Id& copy, const std::string& note, int repeat) {
  StoredReading r;
  r.copy = copy;
  r.feature_id = "X1";
  r.repeat = repeat;
  r.reading_mm = 20 + 0.01 * repeat;
  r.note = note;
  return r;
}

int stream(Record& record, const Id& copy, const std::string& tag) {
  say("R");
  for (int n = 0;; ++n) {
    const int count = 1 + n % 4;
    Transaction whole(record.database());
    say("B " + std::to_string(n) + ' ' + std::to_string(count));
    const std::string note = tag + '.' + std::to_string(n);
    for (int k = 1; k <= count; ++k) {
      const auto added = add(record, reading(copy, note, k));
      if (!added) return told(added.problems());
      if (k > 1) continue;
      StoredReading better = added->value;
      better.reading_mm = 21;
      if (const auto amended = amend(record, *added, better, "misread"); !amended) return told(amended.problems());
    }
    whole.commit();
    say("C " + std::to_string(n));
  }
}

int many(Record& record, const Id& copy, const std::string& tag, int count) {
  for (int n = 0; count < 0 || n < count; ++n) {
    if (const auto added = add(record, reading(copy, tag, n + 1)); !added) return told(added.problems());
    say("C " + std::to_string(n));
  }
  return 0;
}

int amend_once(Record& record, const Id& printer, const std::string& word) {
  const auto seen = one<Printer>(record, printer);
  if (!seen) return told(seen.problems());
  say("R");
  if (std::getchar() == EOF) return 2;
  Printer next = seen->value;
  next.note = word;
  const auto amended = amend(record, *seen, next, word);
  say(amended ? "W" : "L " + amended.problems().front().text());
  return 0;
}

void become_nobody() {
  if (::geteuid() != 0) return;  // permissions hold for us as they are
  if (::setgroups(0, nullptr) != 0 || ::setresgid(nobody, nobody, nobody) != 0 ||
      ::setresuid(nobody, nobody, nobody) != 0)
    std::_Exit(4);
}

void limit_files(const std::string& bytes) {
  ::signal(SIGXFSZ, SIG_IGN);
  const auto most = static_cast<rlim_t>(std::strtoull(bytes.c_str(), nullptr, 10));
  const rlimit limit{most, most};
  if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) std::_Exit(4);
}

int run(const std::vector<std::string>& words) {
  const std::string& what = words.at(0);
  const bool opens = what == "open" || what == "read";
  if (opens && words.size() > 2) become_nobody();
  OpenOptions options;
  options.read_only = what == "read";
  auto record = open_record(words.at(1), options);
  if (!record) return told(record.problems());
  if (what == "open") {
    std::string notes = "O";
    for (const std::string& note : record->notes()) notes += ' ' + note;
    say(notes);
    return 0;
  }
  if (what == "read") {
    say("O " + std::to_string(all<StoredReading>(*record)->size()));
    return 0;
  }
  const Id id{words.at(2)};
  if (what == "stream") return stream(*record, id, words.at(3));
  if (what == "many") return many(*record, id, words.at(3), std::stoi(words.at(4)));
  if (what == "amend") return amend_once(*record, id, words.at(3));
  if (what == "fill") {
    limit_files(words.at(4));
    return many(*record, id, words.at(3), -1);
  }
  return 2;
}

}  // namespace

int main(int argc, char** argv) { return run({argv + 1, argv + argc}); }
