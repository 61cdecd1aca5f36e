#include "record/database.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <mutex>
#include <random>

#include "record/pages.hpp"

namespace fitwright::record {
namespace {

/// How long a statement waits for another program's write, ms. Writes here take milliseconds; a wait this long means
/// that the other program holds the record open for something big.
constexpr int busy_wait_ms = 5000;

/// `system`: errno as the failing call left it; SQLite itself keeps it for some calls only.
[[noreturn]] void fail(sqlite3* handle, int code, int system = 0) {
  if (!handle) throw DatabaseError(code, sqlite3_errstr(code));
  const int known = sqlite3_extended_errcode(handle);
  const bool of_the_system = (known & 0xff) == SQLITE_IOERR || (known & 0xff) == SQLITE_CANTOPEN;
  const int kept = sqlite3_system_errno(handle);
  throw DatabaseError(known, sqlite3_errmsg(handle), !of_the_system ? 0 : kept != 0 ? kept : system);
}

/// A path as SQLite takes it with words of its own: no character of it has a meaning there.
std::string uri_of(const std::string& path, Access access) {
  constexpr char digits[] = "0123456789ABCDEF";
  std::string uri = path.starts_with('/') ? "file://" : "file:";
  for (const char c : path) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' || c == '.' || c == '-';
    const auto byte = static_cast<unsigned char>(c);
    if (plain)
      uri += c;
    else
      uri += {'%', digits[byte >> 4], digits[byte & 15]};
  }
  return access == Access::unchanging ? uri + "?immutable=1" : uri;
}

void check(sqlite3_stmt* statement, int code) {
  if (code != SQLITE_OK) fail(sqlite3_db_handle(statement), code);
}

}  // namespace

void Statement::bind(int at, std::string_view text) {
  check(statement_, sqlite3_bind_text64(statement_, at, text.data() ? text.data() : "", text.size(), SQLITE_TRANSIENT,
                                        SQLITE_UTF8));
}

void Statement::bind(int at, const Id& id) {
  if (id.empty())
    check(statement_, sqlite3_bind_null(statement_, at));
  else
    bind(at, std::string_view(id.text));
}

void Statement::bind(int at, double number) { check(statement_, sqlite3_bind_double(statement_, at, number)); }
void Statement::bind(int at, int number) { check(statement_, sqlite3_bind_int(statement_, at, number)); }
void Statement::bind(int at, long long number) { check(statement_, sqlite3_bind_int64(statement_, at, number)); }

void Statement::bind(int at, const std::optional<double>& number) {
  if (number)
    bind(at, *number);
  else
    check(statement_, sqlite3_bind_null(statement_, at));
}

bool Statement::step() {
  errno = 0;
  const int code = sqlite3_step(statement_);
  const int system = errno;
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) fail(sqlite3_db_handle(statement_), code, system);
  return false;
}

void Statement::reset() {
  sqlite3_reset(statement_);  // repeats the error of the last step, which was told then
  sqlite3_clear_bindings(statement_);
}

int Statement::columns() const { return sqlite3_column_count(statement_); }
bool Statement::is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }

std::string Statement::text(int column) const {
  const unsigned char* begin = sqlite3_column_text(statement_, column);
  if (!begin) return {};
  return {reinterpret_cast<const char*>(begin), static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

double Statement::real(int column) const { return sqlite3_column_double(statement_, column); }
long long Statement::integer(int column) const { return sqlite3_column_int64(statement_, column); }

void Statement::read(int column, std::optional<double>& into) const {
  if (is_null(column))
    into.reset();
  else
    into = real(column);
}

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
void Database::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
Database::Use::~Use() { statement.reset(); }

Database::Database(const std::string& path, Access access) : path_(path), access_(access) {
  const bool reads = access == Access::read_only || access == Access::unchanging;
  const int flags = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_URI |
                    (reads ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
  sqlite3* raw = nullptr;
  const int code = access == Access::memory
                       ? sqlite3_open_v2(":memory:", &raw, flags, nullptr)
                       : sqlite3_open_v2(uri_of(path, access).c_str(), &raw, flags, summed_files());
  handle_.reset(raw);
  if (code != SQLITE_OK) fail(raw, code);
  int reserved = sum_bytes;  // heeded for new files only
  sqlite3_file_control(raw, "main", SQLITE_FCNTL_RESERVE_BYTES, &reserved);
  sqlite3_busy_timeout(raw, busy_wait_ms);
}

Database::~Database() = default;

void Database::script(const std::string& sql) {
  errno = 0;
  const int code = sqlite3_exec(handle(), sql.c_str(), nullptr, nullptr, nullptr);
  const int system = errno;
  if (code != SQLITE_OK) fail(handle(), code, system);
}

void Database::each_bound(const std::string& sql, const std::function<void(Statement&)>& bind,
                          const std::function<void(Statement&)>& take) {
  const Use use(prepared(sql));
  bind(use.statement);
  while (use.statement.step()) take(use.statement);
}

bool Database::in_transaction() const { return sqlite3_get_autocommit(handle()) == 0; }

sqlite3_stmt* Database::prepared(const std::string& sql) {
  if (const auto known = statements_.find(sql); known != statements_.end() && !sqlite3_stmt_busy(known->second.get()))
    return known->second.get();
  sqlite3_stmt* raw = nullptr;
  const int code =
      sqlite3_prepare_v3(handle(), sql.c_str(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT, &raw, nullptr);
  if (code != SQLITE_OK) fail(handle(), code);
  if (statements_.count(sql)) throw std::logic_error("a statement used within its own loop: " + sql);
  statements_[sql].reset(raw);
  return raw;
}

Transaction::Transaction(Database& database) : database_(database), outermost_(!database.in_transaction()) {
  if (outermost_) database_.script("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  if (!outermost_ || done_ || !database_.in_transaction()) return;
  try {
    database_.script("ROLLBACK");
  } catch (const DatabaseError&) {
    // Nothing was committed; the connection's end rolls back.
  }
}

void Transaction::commit() {
  if (outermost_) database_.script("COMMIT");
  done_ = true;
}

Id new_id() {
  // Milliseconds of the clock, a count within them, 64 random bits: ids of one bench sort as they were made.
  static std::mutex one_at_a_time;
  static std::random_device source;
  static unsigned long long last = 0;
  const std::lock_guard lock(one_at_a_time);
  const auto since_epoch = std::chrono::system_clock::now().time_since_epoch();
  const auto ms = std::chrono::duration_cast<std::chrono::milliseconds>(since_epoch).count();
  last = std::max(last + 1, static_cast<unsigned long long>(ms) << 16);
  const unsigned long long random = static_cast<unsigned long long>(source()) << 32 | source();
  constexpr char digits[] = "0123456789abcdef";
  Id id;
  for (const unsigned long long half : {last, random})
    for (int shift = 60; shift >= 0; shift -= 4) id.text += digits[half >> shift & 15u];
  return id;
}

}  // namespace fitwright::record
