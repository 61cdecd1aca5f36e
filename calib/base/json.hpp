#pragma once
// JSON text as values that know where they stood, so that a defect can be told by line and column.

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
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

/// Takes the items of long lists one by one, so that a large document is never held whole.
struct JsonItems {
  std::size_t depth = 1;  ///< how many lists and objects stand around an item
  /// Called with the names of the objects around the list, outermost first, and the item. The lists stay empty in the
  /// tree that is returned.
  std::function<void(const std::vector<std::string>& names, JsonValue&& item)> take;
  std::size_t most_values = 10000;  ///< more values than these in one item, or outside of items, are an error
};

/// As above, with the items of the lists at `items.depth` handed over and not kept. Items handed over before a defect
/// was met stay handed over.
Result<JsonValue> parse_json(const std::string& text, const std::string& source, const JsonItems& items);

/// `text` as a JSON string with its quotes; bytes that are not UTF-8 become U+FFFD.
std::string json_string(std::string_view text);

}  // namespace fitwright
