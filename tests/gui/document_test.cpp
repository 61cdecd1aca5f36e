// The document as a value: edits, undo of any depth, and what counts as unsaved.

#include "bench/document.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "base/number.hpp"
#include "bench/edit.hpp"
#include "bench/keeping.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

std::string text_of(const Document& document) { return to_csv(*document.content().readings); }

/// The content with a reading of X10a typed anew.
Content amended(const Document& document, const std::string& text) {
  const Measuring& m = document.content().measuring;
  return with_measuring(document.content(), amend_reading(m, {1, "X10a", 1}, text).value().next);
}

}  // namespace

TEST_CASE("undo and redo of many edits restore the bytes of every step") {
  Document document = demo_document();
  const std::size_t rows = document.content().readings->rows.size();
  std::mt19937 random(20261125);
  std::vector<std::string> steps{text_of(document)};
  for (int i = 0; i < 60; ++i) {
    const std::size_t row = std::uniform_int_distribution<std::size_t>(0, rows - 20)(random);
    const auto hundredths = std::uniform_int_distribution<int>(1, 15000)(random);
    const Measuring& m = document.content().measuring;
    const ReadingKey key = key_of(document.content().readings->rows.at(row));
    auto step = i % 7 == 3   ? go_to(m, key)
                : i % 7 == 5 ? delete_reading(m, key)
                             : amend_reading(m, key, fixed(0.01 * hundredths, 2));
    REQUIRE(step);
    document.apply(with_measuring(document.content(), step->next), step->label);
    steps.push_back(text_of(document));
  }
  for (std::size_t i = steps.size() - 1; i-- > 0;) {
    document.undo();
    REQUIRE(text_of(document) == steps[i]);
  }
  CHECK_FALSE(document.can_undo());
  CHECK_FALSE(document.dirty());
  for (std::size_t i = 1; i < steps.size(); ++i) {
    document.redo();
    REQUIRE(text_of(document) == steps[i]);
  }
  CHECK_FALSE(document.can_redo());
  CHECK(document.dirty());
}

TEST_CASE("a new edit after undo forgets what was undone, and every change has a revision of its own") {
  Document document = demo_document();
  const auto first = document.revision();
  document.apply(amended(document, "10.5"), "a");
  document.undo();
  CHECK(document.can_redo());
  document.apply(amended(document, "10.6"), "b");
  CHECK_FALSE(document.can_redo());
  CHECK(document.undo_label() == "b");
  CHECK(document.revision() == first + 3);
}

TEST_CASE("going to another place changes no reading: nothing is unsaved") {
  Document document = demo_document();
  const auto step = go_to(document.content().measuring, {1, "X40", 1});
  REQUIRE(step);
  document.apply(with_measuring(document.content(), step->next), step->label);
  CHECK_FALSE(document.dirty());
  CHECK(document.content().measuring.here->feature_id == "X40");
}

TEST_CASE("saving makes clean, a wish does not make dirty") {
  Document document = demo_document();
  document.apply(amended(document, "10.5"), "a");
  CHECK(document.dirty());
  document.mark_saved("heron.csv");
  CHECK_FALSE(document.dirty());
  Wishes wishes = document.content().wishes;
  wishes.length_mm = 200;
  document.apply(with_wishes(document.content(), wishes, "length").next, "length");
  CHECK_FALSE(document.dirty());
  document.undo();
  document.undo();
  CHECK(document.dirty());
}
