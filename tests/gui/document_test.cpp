// The document as a value: edits, undo of any depth, and what counts as unsaved.

#include "bench/document.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "bench/edit.hpp"
#include "bench/keeping.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

std::string text_of(const Document& document) { return to_csv(*document.content().readings); }

}  // namespace

TEST_CASE("undo and redo of many edits restore the bytes of every step") {
  Document document = demo_document();
  const std::size_t rows = document.content().readings->rows.size();
  std::mt19937 random(20261125);
  std::vector<std::string> steps{text_of(document)};
  for (int i = 0; i < 60; ++i) {
    const std::size_t row = std::uniform_int_distribution<std::size_t>(0, rows - 3)(random);
    const auto hundredths = std::uniform_int_distribution<int>(1, 15000)(random);
    auto edit = i % 7 == 3   ? Result<Edit>(insert_row(document.content(), row))
                : i % 7 == 5 ? Result<Edit>(delete_rows(document.content(), {row}))
                             : set_cell(document.content(), row, Column::reading, std::to_string(hundredths) + "e-2");
    REQUIRE(edit);
    document.apply(edit->next, edit->label);
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
  document.apply(set_cell(document.content(), 5, Column::reading, "10.5").value().next, "a");
  document.undo();
  CHECK(document.can_redo());
  document.apply(set_cell(document.content(), 5, Column::reading, "10.6").value().next, "b");
  CHECK_FALSE(document.can_redo());
  CHECK(document.undo_label() == "b");
  CHECK(document.revision() == first + 3);
}

TEST_CASE("saving makes clean, a wish does not make dirty") {
  Document document = demo_document();
  document.apply(set_cell(document.content(), 5, Column::reading, "10.5").value().next, "a");
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
