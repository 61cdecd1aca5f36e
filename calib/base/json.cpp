#include "base/json.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <string_view>

#include "base/text.hpp"

namespace fitwright {
namespace {

constexpr std::size_t deepest_nesting = 100;
constexpr std::size_t most_problems = 100;  // nobody reads more; a hostile text could make millions
constexpr std::size_t few_members = 32;     // up to here a name is looked for one by one

/// Builds the tree from the parser's events. The events carry no position, so a cursor of our own walks the same
/// text: each event is one token, and between tokens stand only blanks, commas and colons.
class TreeBuilder {
 public:
  using Json = nlohmann::json;
  using Type = JsonValue::Type;

  TreeBuilder(std::string_view text, const std::string& source, const JsonItems* items)
      : text_(text), source_(source), items_(items) {}

  bool null() { return add(token(Type::null, 4)); }
  bool boolean(bool value) {
    JsonValue v = token(Type::boolean, value ? 4 : 5);
    v.boolean = value;
    return add(std::move(v));
  }
  bool number_integer(Json::number_integer_t value) { return number(static_cast<double>(value)); }
  bool number_unsigned(Json::number_unsigned_t value) { return number(static_cast<double>(value)); }
  bool number_float(Json::number_float_t value, const std::string&) { return number(value); }
  bool string(std::string& value) {
    JsonValue v = token(Type::string, string_length());
    v.string = std::move(value);
    return add(std::move(v));
  }
  bool binary(Json::binary_t&) { return false; }  // not in JSON text
  bool start_object(std::size_t) { return open(Type::object); }
  bool start_array(std::size_t) { return open(Type::array); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool key(std::string& name) {
    const JsonValue at = token(Type::string, string_length());
    if (is_known(name) && problems_.size() < most_problems)
      problems_.push_back(
          {Code::bad_input, {source_, at.line, at.column}, quote(name) + " is given twice", "keep one of the two"});
    stack_.back().members.push_back({std::move(name), {}, at.line, at.column});
    return true;
  }
  template <class Exception>
  bool parse_error(std::size_t bytes_read, const std::string&, const Exception&) {
    if (!gave_up_) {
      move_to(std::min(bytes_read > 0 ? bytes_read - 1 : 0, text_.size()));
      const bool at_end = cursor_ >= text_.size();
      problems_.push_back({Code::bad_input,
                           {source_, line_, column_},
                           at_end ? "the JSON text ends too early" : "this is not valid JSON from here on",
                           at_end ? "close every bracket and quote that was opened"
                                  : "look for a missing comma, quote or bracket, or a number that is too large"});
    }
    return false;
  }

  Result<JsonValue> result() && {
    if (!problems_.empty()) return std::move(problems_);
    return std::move(root_);
  }

 private:
  std::string_view text_;
  const std::string& source_;
  const JsonItems* items_;
  std::size_t cursor_ = 0;
  int line_ = 1, column_ = 1;
  JsonValue root_;
  std::vector<JsonValue> stack_;
  std::vector<std::set<std::string>> names_;  ///< for each open value: its names, once there are many
  std::size_t held_outside_ = 0, held_in_item_ = 0;
  Problems problems_;
  bool gave_up_ = false;

  /// Moves the cursor forward to `offset`, counting lines and characters.
  void move_to(std::size_t offset) {
    while (cursor_ < offset) {
      const char c = text_[cursor_++];
      if (c == '\n') {
        ++line_;
        column_ = 1;
      } else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) {  // not a continuation byte
        ++column_;
      }
    }
  }

  void skip_between() { move_to(std::min(text_.find_first_not_of(" \t\r\n,:", cursor_), text_.size())); }

  JsonValue token(Type type, std::size_t length) {
    skip_between();
    JsonValue v;
    v.type = type;
    v.line = line_;
    v.column = column_;
    move_to(std::min(cursor_ + length, text_.size()));
    return v;
  }

  std::size_t string_length() {
    skip_between();
    std::size_t i = cursor_ + 1;
    while (i < text_.size() && text_[i] != '"') i += text_[i] == '\\' ? 2 : 1;
    return i + 1 - cursor_;
  }

  bool number(double value) {
    skip_between();
    const std::size_t end = std::min(text_.find_first_not_of("+-.0123456789eE", cursor_), text_.size());
    const std::string_view written = text_.substr(cursor_, end - cursor_);
    JsonValue v = token(Type::number, written.size());
    v.number = value == 0 && written.starts_with('-') ? -0.0 : value;
    v.whole = written.find_first_of(".eE") == std::string_view::npos;
    return add(std::move(v));
  }

  bool open(Type type) {
    JsonValue v = token(type, 1);
    if (stack_.size() >= deepest_nesting)
      return give_up(v, "brackets are nested too deep", "check that it is the file you meant");
    stack_.push_back(std::move(v));
    names_.emplace_back();
    return true;
  }

  bool give_up(const JsonValue& at, std::string what, std::string remedy) {
    problems_.push_back({Code::bad_input, {source_, at.line, at.column}, std::move(what), std::move(remedy)});
    gave_up_ = true;
    return false;
  }

  bool close() {
    token(Type::null, 1);
    JsonValue done = std::move(stack_.back());
    stack_.pop_back();
    names_.pop_back();
    return add(std::move(done));
  }

  /// Whether the innermost object has the name already.
  bool is_known(const std::string& name) {
    const auto& members = stack_.back().members;
    auto& many = names_.back();
    if (members.size() < few_members)
      return std::any_of(members.begin(), members.end(), [&](const auto& m) { return m.name == name; });
    if (many.empty())
      for (const auto& member : members) many.insert(member.name);
    return !many.insert(name).second;
  }

  bool add(JsonValue value) {
    if (items_ && stack_.size() == items_->depth && stack_.back().is(Type::array)) {
      held_in_item_ = 0;
      items_->take(names_around(), std::move(value));
      return true;
    }
    if (items_) {
      std::size_t& held = stack_.size() > items_->depth ? held_in_item_ : held_outside_;
      if (++held > items_->most_values)
        return give_up(value, "there are more values here than belong together", "check that it is the file you meant");
    }
    if (stack_.empty())
      root_ = std::move(value);
    else if (stack_.back().is(Type::array))
      stack_.back().items.push_back(std::move(value));
    else
      stack_.back().members.back().value = std::move(value);
    return true;
  }

  std::vector<std::string> names_around() const {
    std::vector<std::string> names;
    for (const JsonValue& open : stack_)
      if (open.is(Type::object)) names.push_back(open.members.back().name);
    return names;
  }
};

}  // namespace

const JsonValue* JsonValue::find(std::string_view name) const {
  for (const Member& member : members)
    if (member.name == name) return &member.value;
  return nullptr;
}

std::string_view word(JsonValue::Type type) {
  switch (type) {
    case JsonValue::Type::null:
      return "null";
    case JsonValue::Type::boolean:
      return "true or false";
    case JsonValue::Type::number:
      return "a number";
    case JsonValue::Type::string:
      return "text";
    case JsonValue::Type::array:
      return "a list";
    case JsonValue::Type::object:
      return "an object";
  }
  return "?";
}

std::string json_string(std::string_view text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

namespace {

Result<JsonValue> parsed(const std::string& text, const std::string& source, const JsonItems* items) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  std::string_view body = text;
  if (body.starts_with(byte_order_mark)) body.remove_prefix(byte_order_mark.size());
  TreeBuilder builder(body, source, items);
  nlohmann::json::sax_parse(body.begin(), body.end(), &builder);
  return std::move(builder).result();
}

}  // namespace

Result<JsonValue> parse_json(const std::string& text, const std::string& source) {
  return parsed(text, source, nullptr);
}

Result<JsonValue> parse_json(const std::string& text, const std::string& source, const JsonItems& items) {
  return parsed(text, source, &items);
}

}  // namespace fitwright
