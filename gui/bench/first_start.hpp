#pragma once
// From a few answers to a setup in the record: the first start, and every further setup.

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "base/words.hpp"
#include "record/record.hpp"
#include "record/store.hpp"

namespace fitwright {

/// What is answered, as typed. The defaults are what is taken when nothing is said.
struct SetupAnswers {
  bool inches = false;
  std::string printer = tr("My printer");  ///< name; one that the record has is taken as it is
  std::string bed_x = "220 mm", bed_y = "220 mm";
  std::string material = "PLA";
  std::string spool;  ///< name; empty: called by its material; one that the record has is taken as it is
  std::string caliper = tr("My caliper");
  std::string nozzle = said_fixed(0.4, 1) + " mm", layer = said_fixed(0.2, 1) + " mm";
};

/// A kind of filament with its usual density, to begin with.
struct MaterialKind {
  std::string name;
  double density_g_cm3;
};
const std::vector<MaterialKind>& material_kinds();

/// What can be chosen from the record, by name.
struct SetupChoices {
  bool first = true;  ///< the record has no setup yet
  std::vector<std::string> printers, spools, calipers, materials;
};
Result<SetupChoices> setup_choices(record::Record& record);

/// What is wrong with the answers, by field: "bed_x", "nozzle", ... Empty: begin_setup() takes them.
std::map<std::string, std::string> wrong_answers(const SetupAnswers& answers);

struct Begun {
  record::Id setup, caliper;
};
/// Adds the setup with whatever of it is new (printer, material, spool, caliper), all or nothing. Errors:
/// Code::bad_input for wrong answers; the record's.
Result<Begun> begin_setup(record::Record& record, const SetupAnswers& answers);

}  // namespace fitwright
