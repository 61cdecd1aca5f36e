#include "sheet_pages.hpp"

#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <regex>
#include <sstream>
#include <stdexcept>

#include "base/file.hpp"
#include "base/number.hpp"

namespace fitwright::sheet_test {
namespace {

/// Standard output of a command; throws when the command fails.
std::string output_of(const std::string& command) {
  FILE* pipe = ::popen(command.c_str(), "r");
  if (!pipe) throw std::runtime_error("cannot run " + command);
  std::string out;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) out.append(buffer.data(), n);
  if (::pclose(pipe) != 0) throw std::runtime_error("failed: " + command);
  return out;
}

double number(const std::string& text) { return parse_number(text).value(); }

}  // namespace

Pdf::Pdf(const std::string& bytes) {
  static int count = 0;
  path_ = (std::filesystem::temp_directory_path() /
           ("fitwright-sheet-" + std::to_string(::getpid()) + '-' + std::to_string(++count) + ".pdf"))
              .string();
  if (const auto written = write_whole(path_, bytes); !written)
    throw std::runtime_error(written.problems().front().text());
}

Pdf::~Pdf() {
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
}

std::string Pdf::info(const std::string& key) const {
  std::istringstream lines(output_of("TZ=UTC pdfinfo -isodates '" + path_ + "' 2>&1"));
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with(key + ':')) {
      const std::size_t value = line.find_first_not_of(' ', key.size() + 1);
      return value == std::string::npos ? "" : line.substr(value);
    }
  return "";
}

int Pdf::pages() const { return parse_whole(info("Pages")).value(); }

std::string Pdf::text(int page) const {
  const std::string only = page > 0 ? " -f " + std::to_string(page) + " -l " + std::to_string(page) : "";
  return output_of("pdftotext -layout" + only + " '" + path_ + "' - 2>&1");
}

std::vector<Word> Pdf::words() const {
  static const std::regex pattern(
      R"re(<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*)</word>)re");
  std::istringstream lines(output_of("pdftotext -bbox '" + path_ + "' - 2>&1"));
  std::vector<Word> words;
  int page = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<page ") != std::string::npos) ++page;
    std::smatch m;
    if (std::regex_search(line, m, pattern))
      words.push_back({m[5], page, number(m[1]), number(m[2]), number(m[3]), number(m[4])});
  }
  return words;
}

std::vector<std::string> Pdf::fonts() const {
  std::istringstream lines(output_of("pdffonts '" + path_ + "' 2>&1"));
  std::vector<std::string> fonts;
  int heading = 2;
  for (std::string line; std::getline(lines, line);)
    if (heading-- <= 0) fonts.push_back(line);
  return fonts;
}

std::vector<double> Pdf::font_sizes() const {
  constexpr double zoom = 1.5;  // that program's own
  static const std::regex pattern(R"re(<fontspec id="\d+" size="(\d+)")re");
  const std::string xml = output_of("pdftohtml -q -i -xml -stdout '" + path_ + "' 2>&1");
  std::vector<double> sizes;
  for (std::sregex_iterator i(xml.begin(), xml.end(), pattern), end; i != end; ++i)
    sizes.push_back(number((*i)[1]) / zoom);
  return sizes;
}

}  // namespace fitwright::sheet_test
