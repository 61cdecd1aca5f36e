#include "gui/catalogue.hpp"

#include <fstream>
#include <stdexcept>

namespace catalogue_test {
namespace {

/// What stands between the quotes of a line, with its escapes undone.
std::string unquoted(const std::string& line) {
  std::string out;
  for (std::size_t i = line.find('"') + 1; i + 1 < line.size(); ++i) {
    if (line[i] == '\\') {
      ++i;
      out += line[i] == 'n' ? '\n' : line[i] == 't' ? '\t' : line[i];
    } else {
      out += line[i];
    }
  }
  return out;
}

}  // namespace

std::vector<Entry> entries_of(const std::string& path) {
  std::ifstream in(path);
  if (!in) throw std::runtime_error("cannot read " + path);
  std::vector<Entry> entries;
  Entry entry;
  std::string* into = nullptr;
  bool fuzzy = false;
  const auto finish = [&] {
    if (!entry.one.empty()) entries.push_back(entry);
    entry = {};
    into = nullptr;
  };
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("#, ") && line.find("fuzzy") != std::string::npos) fuzzy = true;
    if (line.starts_with("msgid \"")) {
      finish();
      entry.fuzzy = fuzzy;
      fuzzy = false;
      into = &entry.one;
    } else if (line.starts_with("msgid_plural")) {
      into = &entry.many;
    } else if (line.starts_with("msgstr")) {
      entry.translated.emplace_back();
      into = &entry.translated.back();
    } else if (!line.starts_with('"')) {
      continue;
    }
    if (into) *into += unquoted(line);
  }
  finish();
  return entries;
}

German::German() {
  for (Entry& entry : entries_of(FW_SOURCE "/gui/texts/de.po")) texts_[entry.one] = std::move(entry.translated);
}

const char* German::find(const char* one, const char* many, std::size_t number) const {
  const auto found = texts_.find(one);
  if (found == texts_.end()) return nullptr;
  const std::size_t form = many != nullptr && number != 1 ? 1 : 0;
  return form < found->second.size() && !found->second[form].empty() ? found->second[form].c_str() : nullptr;
}

InGerman::InGerman() {
  static const German german;
  fitwright::speak(&german, ',');
}
InGerman::~InGerman() { fitwright::speak(nullptr, '.'); }

}  // namespace catalogue_test
