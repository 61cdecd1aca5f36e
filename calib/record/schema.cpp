#include "record/schema.hpp"

#include <stdexcept>

namespace fitwright::record {
namespace {

struct Table {
  const char* name;
  const char* columns;  ///< besides the common ones
  const char* indices;
};

// References name the thing, that is its first row. JSON stands where the program keeps a value whole.
const std::vector<Table>& tables_of_version_1() {
  static const std::vector<Table> tables{
      {"printer",
       "name TEXT NOT NULL, bed_x_mm REAL NOT NULL, bed_y_mm REAL NOT NULL,"
       "steps_x REAL NOT NULL, steps_y REAL NOT NULL, steps_z REAL NOT NULL, steps_e REAL NOT NULL,"
       "drive TEXT NOT NULL, note TEXT NOT NULL",
       ""},
      {"material", "name TEXT NOT NULL, density_g_cm3 REAL NOT NULL, note TEXT NOT NULL", ""},
      {"spool",
       "material TEXT NOT NULL REFERENCES material(id), name TEXT NOT NULL, colour TEXT NOT NULL, batch TEXT NOT NULL,"
       "price_per_kg REAL, currency TEXT NOT NULL, note TEXT NOT NULL",
       ""},
      {"caliper", "name TEXT NOT NULL, resolution_mm REAL NOT NULL, serial TEXT NOT NULL, note TEXT NOT NULL", ""},
      {"setup",
       "name TEXT NOT NULL, printer TEXT NOT NULL REFERENCES printer(id), spool TEXT NOT NULL REFERENCES spool(id),"
       "nozzle_mm REAL NOT NULL, nozzle_c REAL, bed_c REAL, state TEXT NOT NULL, note TEXT NOT NULL",
       ""},
      {"travel",
       "printer TEXT NOT NULL REFERENCES printer(id), axis TEXT NOT NULL CHECK (axis IN ('x','y','z')),"
       "commanded_mm REAL NOT NULL, travelled_mm REAL NOT NULL, u_mm REAL",
       ""},
      {"coupon",
       "design TEXT NOT NULL, parameters TEXT NOT NULL, features TEXT NOT NULL, file_hash TEXT NOT NULL,"
       "grams REAL, note TEXT NOT NULL",
       ""},
      {"copy",
       "setup TEXT NOT NULL REFERENCES setup(id), coupon TEXT NOT NULL REFERENCES coupon(id),"
       "print INTEGER NOT NULL CHECK (print >= 1), turned_deg INTEGER NOT NULL CHECK (turned_deg IN (0,90,180,270)),"
       "state TEXT NOT NULL, printed_on TEXT NOT NULL, note TEXT NOT NULL",
       "CREATE INDEX copy_setup ON copy(setup);"},
      {"session",
       "setup TEXT REFERENCES setup(id), caliper TEXT REFERENCES caliper(id), began TEXT NOT NULL, room_c REAL,"
       "note TEXT NOT NULL",
       "CREATE INDEX session_caliper ON session(caliper);"},
      {"reading",
       "copy TEXT NOT NULL REFERENCES copy(id), session TEXT REFERENCES session(id), feature_id TEXT NOT NULL,"
       "repeat INTEGER NOT NULL CHECK (repeat >= 1), reading_mm REAL,"
       "standing TEXT NOT NULL CHECK (standing IN ('read','skipped','damaged')), step_mm REAL NOT NULL, part_c REAL,"
       "note TEXT NOT NULL, CHECK ((standing = 'read') = (reading_mm IS NOT NULL))",
       "CREATE INDEX reading_copy ON reading(copy);"},
      {"steel",
       "caliper TEXT REFERENCES caliper(id), session TEXT NOT NULL REFERENCES session(id),"
       "kind TEXT NOT NULL CHECK (kind IN ('zero','gauge','ring')), feature_id TEXT NOT NULL, true_mm REAL NOT NULL,"
       "repeat INTEGER NOT NULL CHECK (repeat >= 1), reading_mm REAL NOT NULL, note TEXT NOT NULL",
       "CREATE INDEX steel_session ON steel(session); CREATE INDEX steel_caliper ON steel(caliper);"},
      {"estimate",
       "setup TEXT NOT NULL REFERENCES setup(id), input_hash TEXT NOT NULL, copies TEXT NOT NULL, state TEXT NOT NULL,"
       "options TEXT NOT NULL, method TEXT NOT NULL, program TEXT NOT NULL, result TEXT NOT NULL",
       "CREATE INDEX estimate_setup ON estimate(setup);"},
      {"correction",
       "setup TEXT NOT NULL REFERENCES setup(id), estimate TEXT REFERENCES estimate(id),"
       "origin TEXT NOT NULL CHECK (origin IN ('estimate','re-expression','by hand')), policy TEXT NOT NULL,"
       "before TEXT NOT NULL, after TEXT NOT NULL, detail TEXT NOT NULL",
       "CREATE INDEX correction_setup ON correction(setup);"},
      {"correction_event",
       "correction TEXT NOT NULL REFERENCES correction(id),"
       "what TEXT NOT NULL CHECK (what IN ('proposed','applied','proved','withdrawn')), reason TEXT NOT NULL,"
       "detail TEXT NOT NULL",
       "CREATE INDEX correction_event_of ON correction_event(correction);"},
      {"remark", "about TEXT NOT NULL, words TEXT NOT NULL, picture TEXT NOT NULL, picture_hash TEXT NOT NULL",
       "CREATE INDEX remark_about ON remark(about);"},
      {"trial",
       "setup TEXT NOT NULL REFERENCES setup(id), copy TEXT REFERENCES copy(id), feature_id TEXT NOT NULL,"
       "clearance_mm REAL NOT NULL, grade INTEGER NOT NULL CHECK (grade BETWEEN 0 AND 4), measured_clearance_mm REAL,"
       "diameter_mm REAL, note TEXT NOT NULL",
       "CREATE INDEX trial_setup ON trial(setup);"},
      {"drawn_size",
       "setup TEXT NOT NULL REFERENCES setup(id), kind TEXT NOT NULL, nominal_mm REAL NOT NULL, fit TEXT NOT NULL,"
       "drawn_mm REAL NOT NULL, note TEXT NOT NULL",
       "CREATE INDEX drawn_size_setup ON drawn_size(setup);"},
  };
  return tables;
}

std::string create(const Table& table) {
  const std::string name = table.name;
  return "CREATE TABLE " + name +
         " (id TEXT NOT NULL PRIMARY KEY CHECK (length(id) = 32),"
         " thing TEXT NOT NULL REFERENCES " +
         name + "(id), amends TEXT REFERENCES " + name +
         "(id),"
         " at TEXT NOT NULL, why TEXT NOT NULL, gone INTEGER NOT NULL CHECK (gone IN (0,1)), " +
         table.columns +
         ", CHECK ((amends IS NULL) = (thing = id))) STRICT, WITHOUT ROWID;\n"
         "CREATE INDEX " +
         name + "_thing ON " + name + "(thing, at, id);\n" + table.indices +
         "\n"
         "CREATE TRIGGER " +
         name + "_keeps BEFORE UPDATE ON " + name +
         " BEGIN SELECT RAISE(ABORT, 'facts are never changed'); END;\n"
         "CREATE TRIGGER " +
         name + "_stays BEFORE DELETE ON " + name +
         " BEGIN SELECT RAISE(ABORT, 'facts are never deleted'); END;\n"
         // What holds now: the newest row of each thing that has not ended.
         "CREATE VIEW " +
         name + "_now AS SELECT * FROM " + name +
         " AS r WHERE gone = 0 AND id ="
         " (SELECT id FROM " +
         name + " AS q WHERE q.thing = r.thing ORDER BY q.at DESC, q.id DESC LIMIT 1);\n";
}

std::string version_1() {
  std::string sql = "CREATE TABLE about (key TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;\n";
  for (const Table& table : tables_of_version_1()) sql += create(table);
  return sql;
}

}  // namespace

const std::vector<Migration>& migrations() {
  static const std::vector<Migration> steps{{1, version_1()}};
  return steps;
}

const std::vector<std::string>& thing_tables() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Table& table : tables_of_version_1()) all.emplace_back(table.name);
    return all;
  }();
  return names;
}

std::vector<std::string> columns_of(Database& database, const std::string& table) {
  std::vector<std::string> names;
  database.each(
      "SELECT name FROM pragma_table_info(?) ORDER BY cid", [&](Statement& row) { names.push_back(row.text(0)); },
      table);
  return names;
}

void migrate(Database& database, const std::vector<Migration>& steps) {
  const auto reached = [&](int version) { return database.number("PRAGMA user_version").value_or(0) >= version; };
  for (const Migration& step : steps) {
    if (reached(step.to)) continue;  // without a lock: opening does not wait for who writes
    Transaction whole(database);
    if (reached(step.to)) continue;  // another program has done it meanwhile
    database.script(step.sql);
    database.script("PRAGMA user_version = " + std::to_string(step.to));
    database.script("PRAGMA application_id = " + std::to_string(application_id));
    whole.commit();
  }
}

}  // namespace fitwright::record
