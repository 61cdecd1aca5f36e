#pragma once
// JSON text as values that know where they stood, so that a defect can be told by line and column.

#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace fitwright {

/// One JSON value and the line and column (1-based, in characters) at which it begins.
struct JsonValue {
  enum class Type { null, boolean, number, string, array, object };
  struct Member;

  Type type = Type::null;
  bool boolean = false;
  double number = 0;
  bool whole = false;  ///< a number written without fraction and exponent
  std::string string;
  std::vector<JsonValue> items;  ///< of an array
  std::vector<Member> members;   ///< of an object, in the order of the text; names are unique
  int line = 0, column = 0;

  [[nodiscard]] bool is(Type t) const { return type == t; }
  /// The member called `name`, or null.
  [[nodiscard]] const JsonValue* find(std::string_view name) const;
};

struct JsonValue::Member {
  std::string name;
  JsonValue value;
  int line = 0, column = 0;  ///< of the name
};

/// "a number", "an object", ...: for messages.
std::string_view word(JsonValue::Type type);

/// Reads one JSON document (RFC 8259). Errors: Code::bad_input with line and column: not JSON at all (the first
/// place where it stops being so), a name given twice in one object, nesting deeper than 100.
Result<JsonValue> parse_json(const std::string& text, const std::string& source);

}  // namespace fitwright
