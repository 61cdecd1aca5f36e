#pragma once
// What a setup is made of, as forms: each field checked as it is typed, giving the next value of the thing.

#include <map>
#include <string>

#include "base/result.hpp"
#include "bench/form.hpp"
#include "correct/state.hpp"
#include "record/things.hpp"

namespace fitwright {

struct FieldOptions {
  bool inches = false;  ///< what a length without a unit means
};

Form printer_form(const record::Printer& printer);
Form material_form(const record::Material& material);
Form spool_form(const record::Spool& spool);
Form caliper_form(const record::Caliper& caliper);
/// Settings that cannot be read are shown as if they had never been noted.
Form setup_form(const record::Setup& setup);

/// The thing with one field as typed. Equal text gives an equal thing. Errors: Code::bad_input, what is wrong with what
/// was typed and what to type. Throws std::logic_error for a key that its form does not have.
Result<record::Printer> with_field(const record::Printer& printer, const std::string& key, const std::string& typed,
                                   const FieldOptions& options = {});
Result<record::Material> with_field(const record::Material& material, const std::string& key, const std::string& typed,
                                    const FieldOptions& options = {});
Result<record::Spool> with_field(const record::Spool& spool, const std::string& key, const std::string& typed,
                                 const FieldOptions& options = {});
Result<record::Caliper> with_field(const record::Caliper& caliper, const std::string& key, const std::string& typed,
                                   const FieldOptions& options = {});
Result<record::Setup> with_field(const record::Setup& setup, const std::string& key, const std::string& typed,
                                 const FieldOptions& options = {});

Form form_of(const record::Printer& printer);
Form form_of(const record::Material& material);
Form form_of(const record::Spool& spool);
Form form_of(const record::Caliper& caliper);
Form form_of(const record::Setup& setup);

/// What stands in a field of a thing.
template <class T>
std::string field_of(const T& thing, const std::string& key) {
  for (const FormField& field : form_of(thing).fields)
    if (field.key == key) return field.value;
  return {};
}

/// One axis of a printer: steps noted, in force, and by motor and drive. Texts; empty where not known.
struct AxisLine {
  char axis = 'x';
  std::vector<FormField> fields;  ///< steps, motor steps, microsteps, belt pitch, teeth, lead
  std::string theory;             ///< "80 steps/mm"
  std::string said;               ///< how theory and steps in force agree, in a sentence
  bool apart = false;             ///< more than belts and pulleys do
};
/// X, Y and Z, with the steps in force now.
std::vector<AxisLine> axis_lines(const record::Printer& printer, const StepsPerMm& in_force);

}  // namespace fitwright
