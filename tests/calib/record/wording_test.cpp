// Every fault that SQLite may report, in our own words, with what to do.

#include "record/wording.hpp"

#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <cerrno>

using namespace fitwright;
using namespace fitwright::record;
using Catch::Matchers::Contains;

namespace {

Problem told(int code, int system = 0) {
  return problem_of(DatabaseError(code, "library text", system), "heron.fitwright");
}

}  // namespace

TEST_CASE("each of SQLite's codes has words of ours, what to do, and nothing of the library's") {
  // Primary codes 1 to 26 (sqlite.org/rescode.html) with each extended code 0 to 40 of them.
  for (int primary = SQLITE_ERROR; primary <= SQLITE_NOTADB; ++primary)
    for (int more = 0; more <= 40; ++more) {
      const Problem problem = told(primary | more << 8);
      INFO("code " << primary << " more " << more << ": " << problem.text());
      CHECK(problem.where.file == "heron.fitwright");
      CHECK(problem.what.starts_with("the record "));
      CHECK(problem.remedy.size() > 10);
      const std::string text = problem.text();
      CHECK(text.find("library text") == std::string::npos);
      CHECK(text.find("SQL") == std::string::npos);
      CHECK(text.find(sqlite3_errstr(primary)) == std::string::npos);
    }
}

TEST_CASE("what the user meets most") {
  CHECK_THAT(told(SQLITE_BUSY).what, Contains("being written by another program"));
  CHECK_THAT(told(SQLITE_FULL).what, Contains("disk is full"));
  CHECK_THAT(told(SQLITE_IOERR_WRITE, ENOSPC).what, Contains("disk is full"));
  CHECK_THAT(told(SQLITE_IOERR_WRITE, EDQUOT).what, Contains("used up"));
  CHECK_THAT(told(SQLITE_IOERR_WRITE, EIO).what, Contains("disk reported an error"));
  CHECK_THAT(told(SQLITE_READONLY).what, Contains("read-only"));
  CHECK_THAT(told(SQLITE_READONLY_DBMOVED).what, Contains("moved"));
  CHECK_THAT(told(SQLITE_CANTOPEN, EACCES).what, Contains("permission is denied"));
  CHECK_THAT(told(SQLITE_CANTOPEN, EROFS).what, Contains("disk is read-only"));
  CHECK_THAT(told(SQLITE_NOTADB).what, Contains("damaged"));
  CHECK_THAT(told(SQLITE_CORRUPT).what, Contains("damaged"));
  CHECK_THAT(told(SQLITE_IOERR_DATA).what, Contains("damaged"));
  CHECK_THAT(told(SQLITE_CONSTRAINT_TRIGGER).what, Contains("keeps every entry"));
  CHECK_THAT(told(SQLITE_CONSTRAINT_FOREIGNKEY).what, Contains("does not hold what the entry refers to"));
  CHECK(told(SQLITE_CORRUPT).code == Code::bad_input);
  CHECK(told(SQLITE_CONSTRAINT_CHECK).code == Code::bad_input);
  CHECK(told(SQLITE_BUSY).code == Code::io);
}

TEST_CASE("a damaged record without a backup says so") {
  CHECK_THAT(damaged_problem("nowhere/heron.fitwright", "is damaged").remedy,
             Contains("nothing was written to it; there is no good backup in nowhere/backups"));
}

TEST_CASE("paths as words of a shell") {
  CHECK(shell_word("/data/record.fitwright") == "/data/record.fitwright");
  CHECK(shell_word("my record") == "'my record'");
  CHECK(shell_word("it's") == "'it'\\''s'");
  CHECK(shell_word("") == "''");
}
