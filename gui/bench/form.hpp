#pragma once
// A form as values: fields with what stands in them and what is said beside them.

#include <string>
#include <vector>

namespace fitwright {

struct FormField {
  std::string key;     ///< tells it apart: "bed_x_mm"
  std::string label;   ///< "Bed along X"
  std::string value;   ///< with its unit
  std::string hint;    ///< in the empty field: an example
  std::string note;    ///< beside the field, quiet
  bool words = false;  ///< takes words, not a number: a wide field
};

struct Form {
  std::string key;  ///< "printer"
  std::string title;
  std::vector<FormField> fields;
  std::vector<std::string> lines;  ///< below the fields, in sentences
};

}  // namespace fitwright
