// The window's texts and their German: complete, with the same values in the same number, and numbers by language where
// people read them but never where programs do.

#include <fmt/args.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "bench/analysis.hpp"
#include "bench/bench_view.hpp"
#include "bench/keeping.hpp"
#include "bench/shown.hpp"
#include "correct/correction.hpp"
#include "gui/catalogue.hpp"
#include "model/estimate.hpp"
#include "reading/csv.hpp"
#include "report/estimate_report.hpp"

using namespace fitwright;
using namespace catalogue_test;

namespace {

constexpr const char* de_po = FW_SOURCE "/gui/texts/de.po";

std::set<std::string> texts_of(const std::vector<Entry>& entries) {
  std::set<std::string> out;
  for (const Entry& e : entries) out.insert(e.one + '\0' + e.many);
  return out;
}

/// The values that a text takes, in order of their names: each value once for every brace it goes to.
std::string values_in(const std::string& text) {
  fmt::dynamic_format_arg_store<fmt::format_context> values;
  constexpr int most_values = 10;
  for (int i = 0; i < most_values; ++i) values.push_back("\x01" + std::string(1, static_cast<char>('a' + i)));
  const std::string filled = fmt::vformat(text, values);
  std::string taken;
  for (std::size_t at = filled.find('\x01'); at != std::string::npos; at = filled.find('\x01', at + 1))
    taken += filled[at + 1];
  std::sort(taken.begin(), taken.end());
  return taken;
}

/// The letter that picks a control, or 0.
char letter_of(const std::string& label) {
  const std::size_t at = label.find('&');
  return at == std::string::npos ? '\0' : label[at + 1];
}

}  // namespace

TEST_CASE("the German catalogue has every text of the sources, and no other") {
  const auto pot = std::filesystem::temp_directory_path() / "fitwright-texts-test.pot";
  REQUIRE(std::system(("bash '" FW_SOURCE "/gui/texts/update.sh' '" + pot.string() + "'").c_str()) == 0);
  const auto wanted = texts_of(entries_of(pot.string())), there = texts_of(entries_of(de_po));
  std::filesystem::remove(pot);
  REQUIRE(wanted.size() > 500);
  for (const std::string& text : wanted) {
    INFO("run gui/texts/update.sh and translate: " << text);
    CHECK(there.contains(text));
  }
  for (const std::string& text : there) {
    INFO("run gui/texts/update.sh, no source says: " << text);
    CHECK(wanted.contains(text));
  }
}

TEST_CASE("every text is translated, and takes the same values as in English") {
  for (const Entry& e : entries_of(de_po)) {
    INFO(e.one);
    CHECK_FALSE(e.fuzzy);
    REQUIRE(e.translated.size() == (e.many.empty() ? 1 : 2));
    for (const std::string& german : e.translated) {
      INFO(german);
      REQUIRE_FALSE(german.empty());
      const std::string taken = values_in(german);
      const std::string& english = &german == &e.translated.front() ? e.one : e.many.empty() ? e.one : e.many;
      CHECK(taken == values_in(english));
      // Blanks and line ends at both ends belong to the place where the text goes.
      CHECK((german.front() == ' ') == (e.one.front() == ' '));
      CHECK((german.back() == ' ') == (e.one.back() == ' '));
      CHECK(std::count(german.begin(), german.end(), '\n') == std::count(e.one.begin(), e.one.end(), '\n'));
      CHECK((letter_of(german) != '\0') == (letter_of(e.one) != '\0'));
    }
  }
}

TEST_CASE("findings, corrections and numbers are said in German, with a comma") {
  const Document document = demo_document();
  const BenchView english = bench_view(document.content(), analyse(document.content(), 1));
  const InGerman german;
  const BenchView view = bench_view(document.content(), analyse(document.content(), 1));
  REQUIRE(view.findings.size() == english.findings.size());
  for (std::size_t i = 0; i < view.findings.size(); ++i) {
    INFO(view.findings[i].text);
    CHECK(view.findings[i].id == english.findings[i].id);
    CHECK(view.findings[i].text != english.findings[i].text);
    CHECK(view.findings[i].because != english.findings[i].because);
    CHECK(view.findings[i].action != english.findings[i].action);
  }
  const auto edges = std::find_if(view.findings.begin(), view.findings.end(),
                                  [](const FindingLine& f) { return f.id == "edge-growth"; });
  REQUIRE(edges != view.findings.end());
  CHECK_THAT(edges->text, Catch::StartsWith("Jede Konturkante steht 0,"));
  CHECK(view.estimates.rows.front().name == "Maßstab entlang X");
  CHECK(view.estimates.rows.front().value.find(',') != std::string::npos);
  CHECK(shown(-1.5, 2) == "\u22121,50");
  CHECK(ordinal(2) == "2.");
  CHECK(label_words("height, 25 layers") == "Höhe, 25 Schichten");
  CHECK(kind_from_speech("Schlitz") == Kind::inner);
  CHECK(kind_from_speech("slot") == Kind::inner);
}

TEST_CASE("what programs read keeps its English words and its point") {
  const Document document = demo_document();
  const ReadingSet& readings = *document.content().readings;
  const auto estimates = estimate(readings);
  REQUIRE(estimates);
  CorrectOptions options;
  options.policy = Policy::steps;
  const State state = document.content().state;
  const auto correction = correct(*estimates, state, options);
  REQUIRE(correction);
  const std::string csv = to_csv(readings), settings = to_json(state);
  const std::string json = estimate_json(*estimates, readings, findings(*estimates, readings));

  const InGerman german;
  CHECK(to_csv(readings) == csv);
  CHECK(to_json(state) == settings);
  const auto in_german = correct(*estimates, state, options);
  REQUIRE(in_german);
  REQUIRE_FALSE(in_german->commands.empty());
  CHECK(in_german->commands.front() == correction->commands.front());  // the machine's own line
  CHECK(to_json(in_german->after) == to_json(correction->after));
  {
    const InFileWords for_a_file;
    CHECK(estimate_json(*estimates, readings, findings(*estimates, readings)) == json);
    CHECK(said_fixed(1.5, 1) == "1.5");
  }
  CHECK(said_fixed(1.5, 1) == "1,5");
}
