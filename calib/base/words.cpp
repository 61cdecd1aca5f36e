#include "base/words.hpp"

#include <algorithm>

#include "base/number.hpp"

namespace fitwright {
namespace {

const Catalogue* chosen = nullptr;
char sign = '.';

std::string with_sign_of_language(std::string number) {
  std::replace(number.begin(), number.end(), '.', sign);
  return number;
}

}  // namespace

void speak(const Catalogue* catalogue, char decimal_sign) {
  chosen = catalogue;
  sign = decimal_sign;
}

char decimal_sign() { return sign; }

const char* tr(const char* text) {
  const char* found = chosen != nullptr ? chosen->find(text, nullptr, 1) : nullptr;
  return found != nullptr ? found : text;
}

const char* tr(const char* one, const char* many, std::size_t number) {
  const char* found = chosen != nullptr ? chosen->find(one, many, number) : nullptr;
  if (found != nullptr) return found;
  return number == 1 ? one : many;
}

std::string said_fixed(double value, int decimals) { return with_sign_of_language(fixed(value, decimals)); }
std::string said_shortest(double value) { return with_sign_of_language(shortest(value)); }

}  // namespace fitwright
