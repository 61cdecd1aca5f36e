// The examples in docs/formats.md are what the readers take.
#include <catch2/catch.hpp>
#include <string>

#include "base/file.hpp"
#include "practice/simulate.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

/// The text of the first fenced block after `heading` that opens with `fence`.
std::string example(const std::string& heading, const std::string& fence) {
  const auto page = read_whole(std::string(FW_SOURCE) + "/docs/formats.md");
  REQUIRE(page.ok());
  const auto section = page->find(heading);
  REQUIRE(section != std::string::npos);
  const auto begin = page->find("\n" + fence + "\n", section);
  REQUIRE(begin != std::string::npos);
  const auto text = begin + fence.size() + 2;
  return page->substr(text, page->find("\n```", text) + 1 - text);
}

}  // namespace

TEST_CASE("The readings of the formats page are read") {
  const auto set = parse_readings(example("## Readings (CSV)", "```"), "docs/formats.md");
  if (!set) FAIL(set.problems().front().text());
  CHECK(set->rows.size() == 5);
}

TEST_CASE("The truth of the formats page is read") {
  const auto truth = parse_truth(example("## Truth", "```json"), "docs/formats.md");
  if (!truth) FAIL(truth.problems().front().text());
  CHECK(simulate(*truth, 1).rows.size() == 6 * 2 * 2);
}
