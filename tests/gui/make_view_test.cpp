// Make: a coupon by its question, checked beside the field, printed into the record.

#include "bench/make_view.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <random>

#include "base/file.hpp"
#include "bench/first_start.hpp"

using namespace fitwright;

namespace {

Bench bench_with_setup() {
  Bench bench(record::record_in_memory());
  const auto begun = begin_setup(bench.record(), {});
  REQUIRE(begun.ok());
  REQUIRE(bench.put_setup(begun->setup).ok());
  return bench;
}

std::string fresh_folder() {
  const auto folder =
      std::filesystem::temp_directory_path() / ("fitwright-make-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directories(folder);
  return folder.string();
}

}  // namespace

TEST_CASE("every question leads to a design, and every design answers one") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    CHECK(std::any_of(make_questions().begin(), make_questions().end(),
                      [&](const MakeQuestion& q) { return q.design == info.name; }));
  }
  for (const MakeQuestion& question : make_questions()) {
    MakeWish wish;
    wish.design = question.design;
    const Form form = make_form(wish, {});
    CHECK_FALSE(form.fields.empty());
    for (const FormField& field : form.fields) CHECK(field.label.find('_') == std::string::npos);
    CHECK(make_from(wish, {}).coupon);
  }
}

TEST_CASE("a coupon takes the setup's sizes, and what is typed stands before them") {
  Bench bench = bench_with_setup();
  const MakeDefaults defaults = make_defaults(bench.setup());
  MakeWish wish;
  const Made made = make_from(wish, defaults);
  REQUIRE(made.coupon);
  CHECK(made.coupon->values.at("bed_x_mm") == 220);
  wish.typed["side_mm"] = "80 mm";
  CHECK(make_from(wish, defaults).coupon->size_x_mm == 80);
}

TEST_CASE("what is wrong stands beside its field, in the window's words") {
  MakeWish wish;
  wish.typed["side_mm"] = "250";
  Made made = make_from(wish, {});
  CHECK_FALSE(made.coupon);
  REQUIRE(made.beside.contains("side_mm"));
  CHECK(made.beside["side_mm"].find("side_mm") == std::string::npos);
  wish.typed["side_mm"] = "large";
  wish.typed["bead_width_mm"] = "9 mm";
  made = make_from(wish, {});
  CHECK(made.beside.contains("side_mm"));
  wish.typed["side_mm"] = "5";
  made = make_from(wish, {});
  CHECK(made.beside.contains("side_mm"));
  CHECK(made.beside.contains("bead_width_mm"));
}

TEST_CASE("a print goes into the record and onto the bench; the second one is turned; undo takes each back") {
  Bench bench = bench_with_setup();
  const auto made = make_from({}, make_defaults(bench.setup()));
  REQUIRE(made.coupon);
  CHECK(next_copy(bench, *made.coupon)->turned_deg == 0);
  REQUIRE(printed(bench, *made.coupon, 0, "2026-11-25").ok());
  REQUIRE(bench.document().content().measuring.plan);
  const auto second = next_copy(bench, *made.coupon);
  CHECK(second->turned_deg == 90);
  CHECK(second->print == 2);
  CHECK(second->earlier == 1);
  REQUIRE(printed(bench, *made.coupon, 90, "2026-11-26").ok());
  CHECK(record::all<record::MadeCoupon>(bench.record())->size() == 1);
  CHECK(record::all<record::Copy>(bench.record())->size() == 2);
  CHECK(next_copy(bench, *made.coupon)->turned_deg == 0);
  REQUIRE(bench.undo().ok());
  CHECK(record::all<record::Copy>(bench.record())->size() == 1);
  REQUIRE(bench.undo().ok());
  CHECK(record::all<record::Copy>(bench.record())->empty());
  CHECK_FALSE(bench.document().content().measuring.plan);
  REQUIRE(bench.redo().ok());
  REQUIRE(bench.redo().ok());
  CHECK(record::all<record::Copy>(bench.record())->size() == 2);
  CHECK(bench.document().content().measuring.plan);
  REQUIRE(bench.undo().ok());
}

TEST_CASE("without a setup nothing is printed into the record") {
  Bench bench(record::record_in_memory());
  const auto made = make_from({}, {});
  CHECK_FALSE(printed(bench, *made.coupon, 0, "2026-11-25").ok());
}

TEST_CASE("the files are those of the command line, byte for byte") {
  const std::string folder = fresh_folder();
  for (const char* ending : {"stl", "3mf"}) {
    MakeWish wish;
    wish.typed["side_mm"] = "80 mm";
    const auto made = make_from(wish, {});
    REQUIRE(made.coupon);
    const std::string ours = folder + "/ours." + ending;
    REQUIRE(save_solid(*made.coupon, ours).ok());
    const std::string command = std::string(FW_FITW) + " make frame --set side_mm=80 --format " + ending + " --out " +
                                folder + "/theirs > /dev/null";
    REQUIRE(std::system(command.c_str()) == 0);
    CHECK(read_whole(ours).value() == read_whole(folder + "/theirs/frame." + ending).value());
    CHECK(read_whole(folder + "/ours.features.csv").value() ==
          read_whole(folder + "/theirs/frame.features.csv").value());
  }
  CHECK_FALSE(save_solid(*make_from({}, {}).coupon, folder + "/part.obj").ok());
  std::filesystem::remove_all(folder);
}
