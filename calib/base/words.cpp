#include "base/words.hpp"

#include <algorithm>

#include "base/number.hpp"

namespace fitwright {
namespace {

const Catalogue* chosen = nullptr;
char sign = '.';
thread_local int in_file_words = 0;

const char* found(const char* one, const char* many, std::size_t number) {
  return chosen != nullptr && in_file_words == 0 && *one != '\0' ? chosen->find(one, many, number) : nullptr;
}

std::string with_sign_of_language(std::string number) {
  std::replace(number.begin(), number.end(), '.', decimal_sign());
  return number;
}

}  // namespace

void speak(const Catalogue* catalogue, char decimal_sign) {
  chosen = catalogue;
  sign = decimal_sign;
}

InFileWords::InFileWords() { ++in_file_words; }
InFileWords::~InFileWords() { --in_file_words; }

char decimal_sign() { return in_file_words == 0 ? sign : '.'; }

const char* tr(const char* text) {
  const char* translated = found(text, nullptr, 1);
  return translated != nullptr ? translated : text;
}

const char* tr(const char* one, const char* many, std::size_t number) {
  if (const char* translated = found(one, many, number)) return translated;
  return number == 1 ? one : many;
}

std::string said_fixed(double value, int decimals) { return with_sign_of_language(fixed(value, decimals)); }
std::string said_shortest(double value) { return with_sign_of_language(shortest(value)); }

}  // namespace fitwright
