#pragma once
// SQLite behind values: prepared statements only, errors as one exception that never leaves calib/record.

#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

struct sqlite3;
struct sqlite3_stmt;

namespace fitwright::record {

/// What SQLite said. Caught at the border of calib/record and told in our own words (problem_of in record.hpp).
struct DatabaseError : std::runtime_error {
  DatabaseError(int result_code, const std::string& message, int system_error = 0)
      : std::runtime_error(message), code(result_code), system(system_error) {}
  int code;    ///< SQLite's extended result code
  int system;  ///< the system's error number that led to it; 0 when there is none
};

/// The id of a row or a thing, 32 hexadecimal digits; empty stands for "none" and is stored as NULL.
struct Id {
  std::string text;
  [[nodiscard]] bool empty() const { return text.empty(); }
  auto operator<=>(const Id&) const = default;
};

/// One prepared statement. Parameters are bound in order; a result row is read by column number.
class Statement {
 public:
  explicit Statement(sqlite3_stmt* statement) : statement_(statement) {}

  void bind(int at, std::string_view text);
  void bind(int at, const Id& id);
  void bind(int at, double number);
  void bind(int at, int number);
  void bind(int at, long long number);
  void bind(int at, const std::optional<double>& number);
  /// True when there is a row; throws DatabaseError.
  bool step();
  /// Ready to be bound and run again; bindings are cleared.
  void reset();

  [[nodiscard]] int columns() const;
  [[nodiscard]] bool is_null(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] long long integer(int column) const;
  void read(int column, std::string& into) const { into = text(column); }
  void read(int column, Id& into) const { into.text = text(column); }
  void read(int column, double& into) const { into = real(column); }
  void read(int column, int& into) const { into = static_cast<int>(integer(column)); }
  void read(int column, std::optional<double>& into) const;

 private:
  sqlite3_stmt* statement_;
};

/// How a database is opened. `unchanging`: read only, from where nobody writes (a disc, a folder that is read-only), so
/// that no locks and no files beside it are needed.
enum class Access { read_write, read_only, unchanging, memory };

/// One connection. Movable; not to be shared between threads.
class Database {
 public:
  /// Opens without looking at the content. For Access::read_write a missing file is made. New files get pages with sums
  /// (pages.hpp). Throws DatabaseError.
  Database(const std::string& path, Access access);
  ~Database();
  Database(Database&&) noexcept = default;
  Database& operator=(Database&&) noexcept = default;

  /// Runs statements that take no parameters and give no rows: schema and pragmas.
  void script(const std::string& sql);

  /// Runs one statement with parameters, for what it does.
  template <class... P>
  void run(const std::string& sql, const P&... parameters) {
    each(
        sql, [](Statement&) {}, parameters...);
  }
  /// Calls `take` for each row of the result.
  template <class Take, class... P>
  void each(const std::string& sql, Take&& take, const P&... parameters) {
    const Use use(prepared(sql));
    int at = 0;
    (use.statement.bind(++at, parameters), ...);
    while (use.statement.step()) take(use.statement);
  }
  /// The first column of the first row as a whole number; empty when there is no row.
  template <class... P>
  std::optional<long long> number(const std::string& sql, const P&... parameters) {
    std::optional<long long> found;
    each(
        sql,
        [&](Statement& s) {
          if (!found) found = s.integer(0);
        },
        parameters...);
    return found;
  }
  /// The same as text.
  template <class... P>
  std::optional<std::string> word(const std::string& sql, const P&... parameters) {
    std::optional<std::string> found;
    each(
        sql,
        [&](Statement& s) {
          if (!found) found = s.text(0);
        },
        parameters...);
    return found;
  }
  /// For statements with a number of parameters not known when compiling: `bind` is called once, then as each().
  void each_bound(const std::string& sql, const std::function<void(Statement&)>& bind,
                  const std::function<void(Statement&)>& take);

  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] Access access() const { return access_; }
  [[nodiscard]] bool in_transaction() const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const;
  };
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  /// Leaves the statement reset whatever happens.
  struct Use {
    explicit Use(sqlite3_stmt* raw) : statement(raw) {}
    ~Use();
    Use(const Use&) = delete;
    Use& operator=(const Use&) = delete;
    mutable Statement statement;
  };
  sqlite3_stmt* prepared(const std::string& sql);

  std::string path_;
  Access access_ = Access::memory;
  std::unique_ptr<sqlite3, Close> handle_;
  // After the handle: statements end first. Held by text; each is used by one loop at a time.
  std::unordered_map<std::string, std::unique_ptr<sqlite3_stmt, Finalize>> statements_;
};

/// Everything in it is written, or nothing. Begins at once for writing (so that two writers queue instead of failing);
/// rolls back unless commit() was reached. Nested ones join the outermost.
class Transaction {
 public:
  explicit Transaction(Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool outermost_;
  bool done_ = false;
};

/// A new id: time, count and 64 random bits; those made by one program sort in the order they were made.
Id new_id();

}  // namespace fitwright::record
