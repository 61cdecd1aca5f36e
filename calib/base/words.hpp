#pragma once
// Texts that people read, in the language of the window. A text stands in the source in English, whole sentences with
// {} where values go; tr() and said() look it up in the catalogue that the window has chosen. Nobody
// has chosen one in the command line and in the tests: the English text comes out. Files never hold translated text.

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <string_view>

#include "base/words.hpp"

namespace fitwright {

/// Looks texts up: `many` is null where there is one form only. Null for a text that the catalogue does not have.
/// Called from several threads at once.
class Catalogue {
 public:
  virtual ~Catalogue() = default;
  virtual const char* find(const char* one, const char* many, std::size_t number) const = 0;
};

/// The catalogue for all texts from now on (null: English) and the decimal sign of shown numbers ('.' or ',').
/// Set once, before a second thread starts; `catalogue` must outlive every use.
void speak(const Catalogue* catalogue, char decimal_sign);

/// While one lives, its thread's texts are English with '.': for what is written into a file or a record.
class InFileWords {
 public:
  InFileWords();
  ~InFileWords();
  InFileWords(const InFileWords&) = delete;
  InFileWords& operator=(const InFileWords&) = delete;
};

/// The decimal sign of numbers in texts that people read; files and values to be copied keep '.'.
char decimal_sign();

/// `text` in the chosen language.
const char* tr(const char* text);
/// The form of a counted text that `number` asks for ("{} reading", "{} readings").
const char* tr(const char* one, const char* many, std::size_t number);

/// `text` as it stands, marked for the catalogue: for tables filled before a language is chosen. Say tr() at its use.
constexpr const char* noted(const char* text) { return text; }

/// `text` in the chosen language with the values in its braces: said("{} of {} readings", 3, 5). The English text is
/// checked by the compiler, its translations by a test.
template <class... Values>
std::string said(fmt::format_string<Values...> text, Values&&... values) {
  return fmt::vformat(tr(fmt::string_view(text).data()), fmt::make_format_args(values...));
}

/// `translated` is what tr() gave for a text that was chosen among several, with the values in its braces:
/// filled(longer ? tr("{} is long by {}.") : tr("{} is short by {}."), axis, mm).
template <class... Values>
std::string filled(const char* translated, const Values&... values) {
  return fmt::vformat(translated, fmt::make_format_args(values...));
}

/// A counted sentence: said_many("{} reading", "{} readings", n) puts n into the braces of the form that n asks for.
/// Further values go to the braces after it.
template <class... Values>
std::string said_many(const char* one, const char* many, std::size_t number, const Values&... values) {
  return fmt::vformat(tr(one, many, number), fmt::make_format_args(number, values...));
}

/// `value` with exactly `decimals` places and the decimal sign of the chosen language; never "-0.00".
std::string said_fixed(double value, int decimals);
/// `value` in the shortest decimal text that is exact, with that sign.
std::string said_shortest(double value);

}  // namespace fitwright
