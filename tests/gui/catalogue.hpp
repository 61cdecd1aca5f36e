#pragma once
// A .po file read without a library, as a catalogue for tests.

#include <map>
#include <string>
#include <vector>

#include "base/words.hpp"

namespace catalogue_test {

/// One text of a .po file: its forms in English and in the file's language (one form, or one and many).
struct Entry {
  std::string one, many;
  std::vector<std::string> translated;
  bool fuzzy = false;
};

/// The texts of a .po or .pot file, without its header.
std::vector<Entry> entries_of(const std::string& path);

/// The German texts of the source tree.
class German : public fitwright::Catalogue {
 public:
  German();
  const char* find(const char* one, const char* many, std::size_t number) const override;

 private:
  std::map<std::string, std::vector<std::string>> texts_;
};

/// While it lives, texts are German and numbers have a comma.
class InGerman {
 public:
  InGerman();
  ~InGerman();
  InGerman(const InGerman&) = delete;
  InGerman& operator=(const InGerman&) = delete;
};

}  // namespace catalogue_test
