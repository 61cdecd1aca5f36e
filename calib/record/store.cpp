#include "record/store.hpp"

#include <array>
#include <chrono>
#include <ctime>

#include "record/mapping.hpp"

namespace fitwright::record {
namespace {

using std::chrono::milliseconds;
using Moment = std::chrono::sys_time<milliseconds>;

std::string written(Moment moment) {
  const std::time_t seconds = std::chrono::system_clock::to_time_t(std::chrono::floor<std::chrono::seconds>(moment));
  const auto rest = (moment.time_since_epoch() % std::chrono::seconds(1)).count();
  std::tm t{};
  gmtime_r(&seconds, &t);
  std::array<char, 80> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02d-%02dT%02d:%02d:%02d.%03dZ", t.tm_year + 1900, t.tm_mon + 1,
                t.tm_mday, t.tm_hour, t.tm_min, t.tm_sec, static_cast<int>(rest));
  return text.data();
}

template <class T>
const std::string& column_list() {
  static const std::string list = [] {
    std::string names;
    T sample{};
    Mapping<T>::visit(sample, [&](const char* name, auto&) { names += std::string(", ") + name; });
    return names;
  }();
  return list;
}

template <class T>
std::string select(const std::string& source) {
  return "SELECT r.id, r.thing, r.at, r.why" + column_list<T>() + " FROM " + source + " AS r ";
}

template <class T>
Kept<T> kept_from(Statement& row) {
  Kept<T> kept;
  row.read(0, kept.row);
  row.read(1, kept.thing);
  row.read(2, kept.at);
  row.read(3, kept.why);
  int at = 4;
  Mapping<T>::visit(kept.value, [&](const char*, auto& field) { row.read(at++, field); });
  return kept;
}

template <class T>
std::string now_source() {
  return std::string(Mapping<T>::table) + "_now";
}

/// Things in the order in which they were first entered.
template <class T>
std::string by_entry() {
  const std::string table = Mapping<T>::table;
  return "ORDER BY (SELECT f.at FROM " + table + " AS f WHERE f.id = r.thing), r.thing";
}

template <class T>
void insert(Database& database, const Kept<T>& kept, const Id& amends, bool gone) {
  static const std::string sql = [] {
    std::string marks = "?, ?, ?, ?, ?, ?";
    T sample{};
    Mapping<T>::visit(sample, [&](const char*, auto&) { marks += ", ?"; });
    return std::string("INSERT INTO ") + Mapping<T>::table + " (id, thing, amends, at, why, gone" + column_list<T>() +
           ") VALUES (" + marks + ")";
  }();
  database.each_bound(
      sql,
      [&](Statement& s) {
        s.bind(1, kept.row);
        s.bind(2, kept.thing);
        s.bind(3, amends);
        s.bind(4, std::string_view(kept.at));
        s.bind(5, std::string_view(kept.why));
        s.bind(6, gone ? 1 : 0);
        int at = 7;
        Mapping<T>::visit(kept.value, [&](const char*, const auto& field) { s.bind(at++, field); });
      },
      [](Statement&) {});
}

template <class T>
Kept<T> fresh(const T& value, const std::string& at) {
  Kept<T> kept;
  kept.row = kept.thing = new_id();
  kept.at = at.empty() ? now_utc() : at;
  kept.value = value;
  return kept;
}

template <class T>
bool equal(const T& a, const T& b) {
  bool same = true;
  std::vector<const void*> theirs;
  Mapping<T>::visit(b, [&](const char*, const auto& field) { theirs.push_back(&field); });
  std::size_t k = 0;
  Mapping<T>::visit(a, [&](const char*, const auto& field) {
    using Field = std::remove_cvref_t<decltype(field)>;
    same = same && field == *static_cast<const Field*>(theirs[k++]);
  });
  return same;
}

/// Writes a row after `seen`, unless something came after it already.
template <class T>
Result<Kept<T>> follow(Record& record, const Kept<T>& seen, const T& value, const std::string& why,
                       const std::string& at, bool gone) {
  return guarded(record, [&]() -> Result<Kept<T>> {
    Database& db = record.database();
    Transaction whole(db);
    const std::string table = Mapping<T>::table;
    const auto newest =
        db.word("SELECT id FROM " + table + " WHERE thing = ? ORDER BY at DESC, id DESC LIMIT 1", seen.thing);
    if (!newest)
      return Problem{
          Code::bad_input, {record.path(), 0, 0}, "there is no such " + table + " in the record", "list it again"};
    if (*newest != seen.row.text)
      return Problem{Code::bad_input,
                     {record.path(), 0, 0},
                     "this " + table + " was changed by another window or program in the meantime",
                     "look at what it says now, then change it again"};
    Kept<T> next;
    next.row = new_id();
    next.thing = seen.thing;
    next.at = at.empty() ? now_utc() : at;
    if (next.at <= seen.at) next.at = just_after(seen.at);  // a clock set back does not undo the order
    next.why = why;
    next.value = value;
    insert(db, next, seen.row, gone);
    whole.commit();
    return next;
  });
}

template <class T>
Result<std::vector<Kept<T>>> listed(Record& record, const std::string& sql, const std::vector<Id>& ids) {
  return guarded(record, [&]() -> Result<std::vector<Kept<T>>> {
    std::vector<Kept<T>> out;
    record.database().each_bound(
        sql,
        [&](Statement& s) {
          int at = 0;
          for (const Id& id : ids) s.bind(++at, id);
        },
        [&](Statement& row) { out.push_back(kept_from<T>(row)); });
    return out;
  });
}

}  // namespace

std::optional<long long> moment_ms(const std::string& at) {
  std::tm t{};
  int ms = 0;
  if (std::sscanf(at.c_str(), "%4d-%2d-%2dT%2d:%2d:%2d.%3dZ", &t.tm_year, &t.tm_mon, &t.tm_mday, &t.tm_hour, &t.tm_min,
                  &t.tm_sec, &ms) != 7)
    return std::nullopt;
  t.tm_year -= 1900;
  t.tm_mon -= 1;
  return static_cast<long long>(timegm(&t)) * 1000 + ms;
}

std::string just_after(const std::string& at) {
  const auto ms = moment_ms(at);
  if (!ms) return at + "~";  // a foreign form of time: still later as text
  return written(Moment(milliseconds(*ms + 1)));
}

std::string now_utc() { return written(std::chrono::floor<milliseconds>(std::chrono::system_clock::now())); }

template <class T>
Result<Kept<T>> add(Record& record, const T& value, const std::string& at) {
  return guarded(record, [&]() -> Result<Kept<T>> {
    const Kept<T> kept = fresh(value, at);
    insert(record.database(), kept, Id{}, false);
    return kept;
  });
}

template <class T>
Result<std::vector<Kept<T>>> add_all(Record& record, const std::vector<T>& values, const std::string& at) {
  return guarded(record, [&]() -> Result<std::vector<Kept<T>>> {
    std::vector<Kept<T>> out;
    const std::string when = at.empty() ? now_utc() : at;
    Transaction whole(record.database());
    for (const T& value : values) {
      out.push_back(fresh(value, when));
      insert(record.database(), out.back(), Id{}, false);
    }
    whole.commit();
    return out;
  });
}

template <class T>
Result<Kept<T>> amend(Record& record, const Kept<T>& seen, const T& value, const std::string& why,
                      const std::string& at) {
  if (equal(seen.value, value)) return seen;
  return follow(record, seen, value, why, at, false);
}

template <class T>
Result<Done> end(Record& record, const Kept<T>& seen, const std::string& why, const std::string& at) {
  const auto row = follow(record, seen, seen.value, why, at, true);
  if (!row) return row.problems();
  return Done{};
}

template <class T>
Result<Kept<T>> take_up_again(Record& record, const Id& thing, const std::string& why, const std::string& at) {
  const auto rows = history<T>(record, thing);
  if (!rows) return rows.problems();
  const auto now = one<T>(record, thing);
  if (rows->empty() || now)
    return Problem{Code::bad_input,
                   {record.path(), 0, 0},
                   std::string("there is no ") + Mapping<T>::table + " of that id that ended",
                   "list what there is"};
  return follow(record, rows->back(), rows->back().value, why, at, false);
}

template <class T>
Result<std::vector<Kept<T>>> all(Record& record) {
  static const std::string sql = select<T>(now_source<T>()) + by_entry<T>();
  return listed<T>(record, sql, {});
}

template <class T>
Result<std::vector<Kept<T>>> all_of(Record& record, const std::string& column, const Id& id) {
  bool known = false;
  T sample{};
  Mapping<T>::visit(sample, [&](const char* name, auto&) { known = known || column == name; });
  if (!known) throw std::logic_error("no column \"" + column + "\" in " + Mapping<T>::table);
  return listed<T>(record, select<T>(now_source<T>()) + "WHERE r." + column + " = ? " + by_entry<T>(), {id});
}

template <class T>
Result<Kept<T>> one(Record& record, const Id& thing) {
  static const std::string sql = select<T>(now_source<T>()) + "WHERE r.thing = ?";
  auto found = listed<T>(record, sql, {thing});
  if (!found) return found.problems();
  if (found->empty())
    return Problem{Code::bad_input,
                   {record.path(), 0, 0},
                   std::string("there is no such ") + Mapping<T>::table + " in the record",
                   "list what there is"};
  return found->front();
}

template <class T>
Result<std::vector<Kept<T>>> history(Record& record, const Id& thing) {
  static const std::string sql = select<T>(Mapping<T>::table) + "WHERE r.thing = ? ORDER BY r.at, r.id";
  return listed<T>(record, sql, {thing});
}

#define FW_KEPT(T)                                                                                           \
  template Result<Kept<T>> add(Record&, const T&, const std::string&);                                       \
  template Result<std::vector<Kept<T>>> add_all(Record&, const std::vector<T>&, const std::string&);         \
  template Result<Kept<T>> amend(Record&, const Kept<T>&, const T&, const std::string&, const std::string&); \
  template Result<Done> end(Record&, const Kept<T>&, const std::string&, const std::string&);                \
  template Result<Kept<T>> take_up_again(Record&, const Id&, const std::string&, const std::string&);        \
  template Result<std::vector<Kept<T>>> all(Record&);                                                        \
  template Result<std::vector<Kept<T>>> all_of(Record&, const std::string&, const Id&);                      \
  template Result<Kept<T>> one(Record&, const Id&);                                                          \
  template Result<std::vector<Kept<T>>> history(Record&, const Id&)
FW_KEPT(Printer);
FW_KEPT(Material);
FW_KEPT(Spool);
FW_KEPT(Caliper);
FW_KEPT(Setup);
FW_KEPT(Travelled);
FW_KEPT(MadeCoupon);
FW_KEPT(Copy);
FW_KEPT(Session);
FW_KEPT(StoredReading);
FW_KEPT(SteelReading);
FW_KEPT(StoredEstimate);
FW_KEPT(StoredCorrection);
FW_KEPT(CorrectionEvent);
FW_KEPT(Remark);
FW_KEPT(Trial);
FW_KEPT(DrawnSize);
#undef FW_KEPT

}  // namespace fitwright::record
