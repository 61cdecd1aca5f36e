#include <algorithm>
#include <map>
#include <set>

#include "base/number.hpp"
#include "base/text.hpp"
#include "reading/features_csv.hpp"
#include "record/mapping.hpp"
#include "record/rows.hpp"
#include "record/sheet.hpp"

namespace fitwright::record {
namespace {

const std::vector<std::string> columns{"feature_id", "kind",       "axis",     "nominal_mm", "copy",      "repeat",
                                       "reading_mm", "turned_deg", "unit",     "facets",     "side_a_mm", "side_b_mm",
                                       "edge_a",     "edge_b",     "step_mm",  "part_c",     "note",      "design",
                                       "setup",      "printer",    "material", "spool",      "copy_id",   "printed_on",
                                       "session",    "caliper",    "standing", "entered",    "holds",     "why"};

/// What a row says of a reading, besides its own columns.
struct Entered {
  std::string at, why, holds;
};

/// The newest row of a thing, ended or not.
template <class T>
std::optional<T> newest(Database& database, const Id& thing) {
  T value{};
  std::string names;
  Mapping<T>::visit(value, [&](const char* name, auto&) { names += (names.empty() ? "" : ", ") + std::string(name); });
  bool found = false;
  database.each(
      "SELECT " + names + " FROM " + Mapping<T>::table + " WHERE thing = ? ORDER BY at DESC, id DESC LIMIT 1",
      [&](Statement& row) {
        int at = 0;
        Mapping<T>::visit(value, [&](const char*, auto& field) { row.read(at++, field); });
        found = true;
      },
      thing);
  return found ? std::optional<T>(value) : std::nullopt;
}

class ReadingSheet {
 public:
  ReadingSheet(Database& database, bool superseded) : db_(database), superseded_(superseded), sheet_(columns) {}

  void add_setup(const SetupNames& names) {
    std::vector<Id> copies;
    db_.each(
        "SELECT c.thing FROM copy AS c WHERE c.id = c.thing AND"
        " (SELECT setup FROM copy AS q WHERE q.thing = c.thing ORDER BY q.at DESC, q.id DESC LIMIT 1) = ?"
        " ORDER BY c.print, c.at, c.thing",
        [&](Statement& row) { copies.push_back({row.text(0)}); }, names.id);
    for (const Id& copy : copies) add_copy(names, copy);
    std::vector<Id> sessions;
    db_.each("SELECT thing FROM session WHERE id = thing ORDER BY at, thing",
             [&](Statement& row) { sessions.push_back({row.text(0)}); });
    for (const Id& id : sessions) {
      const auto session = newest<Session>(db_, id);
      if (session && (session->setup == names.id || (session->setup.empty() && sessions_.contains(id))))
        add_steel(names, id, *session);
    }
  }

  /// Steel that was read without a setup.
  void add_rest() {
    std::vector<Id> sessions;
    db_.each("SELECT DISTINCT session FROM steel ORDER BY session",
             [&](Statement& row) { sessions.push_back({row.text(0)}); });
    for (const Id& id : sessions)
      if (const auto session = newest<Session>(db_, id); session && !steel_done_.contains(id))
        add_steel({}, id, *session);
  }

  Spreadsheet take() && { return std::move(sheet_.sheet); }

 private:
  Database& db_;
  bool superseded_;
  Sheet sheet_;
  std::map<std::string, std::map<std::string, Feature>> features_;  ///< by the coupon's text, then by id
  std::set<Id> sessions_, steel_done_;
  std::map<Id, std::pair<std::string, std::string>> session_names_;  ///< when it began, caliper

  const std::map<std::string, Feature>& features_of(const MadeCoupon& coupon) {
    const auto known = features_.find(coupon.features);
    if (known != features_.end()) return known->second;
    auto& features = features_[coupon.features];
    const auto parsed = parse_features(coupon.features, "features of coupon " + coupon.design);
    if (parsed)
      for (const Feature& feature : *parsed) features.emplace(feature.id, feature);
    else
      sheet_.sheet.notes.push_back("The features of coupon " + quote(coupon.design) +
                                   " could not be read: its readings stand without kind and nominal.");
    return features;
  }

  const std::pair<std::string, std::string>& session_names(const Id& id) {
    const auto known = session_names_.find(id);
    if (known != session_names_.end()) return known->second;
    auto& names = session_names_[id];
    if (const auto session = newest<Session>(db_, id)) {
      names.first = session->began;
      if (const auto caliper = newest<Caliper>(db_, session->caliper)) names.second = caliper->name;
    }
    return names;
  }

  /// The rows of things whose `column` is `id`: those that hold, or all, in the order in which the things were entered.
  template <class T, class Take>
  void rows_of(const std::string& column, const Id& id, Take&& take) {
    const std::string table = Mapping<T>::table;
    std::string names;
    T sample{};
    Mapping<T>::visit(sample, [&](const char* name, auto&) { names += std::string(", r.") + name; });
    const std::string newest_row =
        "(SELECT q.id FROM " + table + " AS q WHERE q.thing = r.thing ORDER BY q.at DESC, q.id DESC LIMIT 1)";
    db_.each(
        "SELECT r.at, r.why, CASE WHEN r.gone THEN 'ended' WHEN r.id = " + newest_row +
            " THEN 'yes' ELSE 'superseded' END AS holds" + names + " FROM " + table + " AS r WHERE r." + column +
            " = ?" + (superseded_ ? "" : " AND r.gone = 0 AND r.id = " + newest_row) + " ORDER BY (SELECT f.at FROM " +
            table + " AS f WHERE f.id = r.thing), r.thing, r.at, r.id",
        [&](Statement& row) {
          const Entered entered{row.text(0), row.text(1), row.text(2)};
          T value{};
          int at = 3;
          Mapping<T>::visit(value, [&](const char*, auto& field) { row.read(at++, field); });
          take(value, entered);
        },
        id);
  }

  void add_copy(const SetupNames& names, const Id& id) {
    const bool ended = !db_.number("SELECT 1 FROM copy_now WHERE thing = ?", id);
    if (ended && !superseded_) return;  // its readings ended with it
    const auto copy = newest<Copy>(db_, id);
    const auto coupon = newest<MadeCoupon>(db_, copy->coupon);
    const auto& features = features_of(*coupon);
    rows_of<StoredReading>("copy", id, [&](const StoredReading& r, const Entered& entered) {
      const std::string holds = ended && entered.holds == "yes" ? "ended" : entered.holds;
      const auto known = features.find(r.feature_id);
      const Feature* f = known == features.end() ? nullptr : &known->second;
      if (!r.session.empty()) sessions_.insert(r.session);
      const auto [session, caliper] =
          r.session.empty() ? std::pair<std::string, std::string>() : session_names(r.session);
      sheet_.add({sheet_text(r.feature_id),
                  f ? sheet_text(std::string(word(f->kind))) : "",
                  f ? sheet_text(std::string(word(f->axis))) : "",
                  f ? shortest(f->nominal_mm) : "",
                  std::to_string(copy->print),
                  std::to_string(r.repeat),
                  sheet_number(r.reading_mm),
                  std::to_string(copy->turned_deg),
                  "mm",
                  f ? std::to_string(f->facets) : "",
                  f ? sheet_number(f->side_a_mm) : "",
                  f ? sheet_number(f->side_b_mm) : "",
                  f ? sheet_text(f->edge_a) : "",
                  f ? sheet_text(f->edge_b) : "",
                  shortest(r.step_mm),
                  sheet_number(r.part_c),
                  sheet_text(r.note),
                  sheet_text(coupon->design),
                  sheet_text(names.setup),
                  sheet_text(names.printer),
                  sheet_text(names.material),
                  sheet_text(names.spool),
                  id.text,
                  sheet_text(copy->printed_on),
                  sheet_text(session),
                  sheet_text(caliper),
                  r.standing,
                  sheet_text(entered.at),
                  holds,
                  sheet_text(entered.why)});
    });
  }

  void add_steel(const SetupNames& names, const Id& id, const Session& session) {
    if (!steel_done_.insert(id).second) return;
    rows_of<SteelReading>("session", id, [&](const SteelReading& r, const Entered& entered) {
      const auto caliper = newest<Caliper>(db_, r.caliper.empty() ? session.caliper : r.caliper);
      sheet_.add({sheet_text(r.feature_id),
                  sheet_text(r.kind),
                  "n",
                  shortest(r.true_mm),
                  "",
                  std::to_string(r.repeat),
                  shortest(r.reading_mm),
                  "0",
                  "mm",
                  "0",
                  "",
                  "",
                  "",
                  "",
                  "",
                  "",
                  sheet_text(r.note),
                  "",
                  sheet_text(names.setup),
                  sheet_text(names.printer),
                  sheet_text(names.material),
                  sheet_text(names.spool),
                  "",
                  "",
                  sheet_text(session.began),
                  caliper ? sheet_text(caliper->name) : "",
                  "read",
                  sheet_text(entered.at),
                  entered.holds,
                  sheet_text(entered.why)});
    });
  }
};

}  // namespace

Result<Spreadsheet> readings_csv(Record& record, const SpreadsheetOptions& options) {
  return guarded(record, [&]() -> Result<Spreadsheet> {
    const Snapshot together(record.database());
    const auto setups = setups_for(record, options.setup);
    if (!setups) return setups.problems();
    ReadingSheet sheet(record.database(), options.superseded);
    for (const SetupNames& names : *setups) sheet.add_setup(names);
    if (options.setup.empty()) sheet.add_rest();
    return std::move(sheet).take();
  });
}

}  // namespace fitwright::record
