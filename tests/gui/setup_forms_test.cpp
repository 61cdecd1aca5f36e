// What a setup is made of, as forms: typed, checked, kept.

#include "bench/setup_forms.hpp"

#include <catch2/catch.hpp>

#include "bench/first_start.hpp"
#include "bench/setup_view.hpp"
#include "record/state_in_force.hpp"

using namespace fitwright;

namespace {

template <class T>
void every_field_comes_back(const T& thing) {
  for (const FormField& field : form_of(thing).fields) {
    INFO(field.key);
    const auto same = with_field(thing, field.key, field.value);
    REQUIRE(same.ok());
    CHECK(field_of(*same, field.key) == field.value);
  }
}

}  // namespace

TEST_CASE("each form's own text is taken again") {
  every_field_comes_back(record::Printer{.name = "Heron", .drive = {}, .note = {}});
  every_field_comes_back(record::Material{.name = "PLA", .note = {}});
  record::Spool spool;
  spool.name = "PLA slate, batch 14";
  spool.price_per_kg = 24;
  every_field_comes_back(spool);
  record::Caliper caliper;
  caliper.name = "bench caliper";
  every_field_comes_back(caliper);
  record::Setup setup;
  setup.name = "Heron, slate";
  setup.nozzle_c = 205;
  every_field_comes_back(setup);
}

TEST_CASE("a wrong field is refused and says what to type; the thing is as it was") {
  const record::Printer heron{.name = "Heron", .drive = {}, .note = {}};
  for (const auto& [key, typed] : std::vector<std::pair<std::string, std::string>>{{"name", " "},
                                                                                   {"bed_x_mm", "wide"},
                                                                                   {"bed_x_mm", "-220 mm"},
                                                                                   {"bed_y_mm", "5 mm"},
                                                                                   {"x.steps", ""},
                                                                                   {"x.steps", "0"},
                                                                                   {"x.micro", "-16"},
                                                                                   {"z.lead", "8 kg"}}) {
    INFO(key << " = " << typed);
    const auto next = with_field(heron, key, typed);
    REQUIRE_FALSE(next.ok());
    CHECK_FALSE(next.problems().front().remedy.empty());
  }
  CHECK_FALSE(with_field(record::Setup{}, "layer_height_mm", "3 mm").ok());
  CHECK_THROWS_AS(with_field(heron, "colour", "red"), std::logic_error);
}

TEST_CASE("the settings of a setup are typed into its state and nothing else changes") {
  record::Setup setup;
  setup.state = to_json(State{});
  const auto next = with_field(setup, "layer_height_mm", "0,28");
  REQUIRE(next.ok());
  const State state = parse_state(next->state, "test").value();
  CHECK(state.layer_height_mm == 0.28);
  CHECK(record::differences(state, State{}).size() == 1);
}

TEST_CASE("steps by theory stand beside those in force") {
  record::Printer heron{.name = "Heron", .drive = {}, .note = {}};
  CHECK(axis_lines(heron, {}).front().theory.empty());
  // A motor of 200 steps, 16 microsteps, 20 teeth of 2 mm: 200 x 16 / 40 = 80; a lead of 8 mm: 400.
  for (const auto& [key, typed] : std::vector<std::pair<std::string, std::string>>{
           {"x.pitch", "2 mm"}, {"x.teeth", "20"}, {"z.lead", "8"}, {"y.micro", "32"}}) {
    const auto next = with_field(heron, key, typed);
    REQUIRE(next.ok());
    heron = *next;
  }
  const auto lines = axis_lines(heron, {80, 80.2, 410, 93});
  CHECK(lines[0].theory == "80 steps/mm");
  CHECK_FALSE(lines[0].apart);
  CHECK(lines[1].theory.empty());
  CHECK(lines[2].theory == "400 steps/mm");
  CHECK(lines[2].apart);  // 2.5 % are no belt
  // Emptied again, no drive is left.
  for (const char* key : {"x.pitch", "x.teeth", "z.lead", "y.micro"}) heron = with_field(heron, key, "").value();
  CHECK(heron.drive.empty());
}

TEST_CASE("a few answers make a whole setup, or nothing") {
  record::Record record = record::record_in_memory();
  CHECK(setup_choices(record)->first);
  SetupAnswers wrong;
  wrong.bed_x = "wide";
  wrong.layer = "9 mm";
  CHECK(wrong_answers(wrong).size() == 2);
  CHECK_FALSE(begin_setup(record, wrong).ok());
  CHECK(record::all<record::Printer>(record)->empty());

  SetupAnswers nothing_said;
  nothing_said.printer = nothing_said.material = nothing_said.caliper = nothing_said.bed_x = "";
  const auto begun = begin_setup(record, nothing_said);
  REQUIRE(begun.ok());
  const auto setup = record::one<record::Setup>(record, begun->setup);
  REQUIRE(setup.ok());
  CHECK(setup->value.name == "My printer, PLA");
  CHECK(parse_state(setup->value.state, "test").ok());
  CHECK_FALSE(setup_choices(record)->first);

  // The same printer with another spool is the same printer.
  SetupAnswers other;
  other.spool = "PETG clear, batch 3";
  other.material = "PETG";
  other.inches = true;
  other.bed_x = "8";
  REQUIRE(begin_setup(record, other).ok());
  CHECK(record::all<record::Printer>(record)->size() == 1);
  CHECK(record::all<record::Caliper>(record)->size() == 1);
  CHECK(record::all<record::Setup>(record)->size() == 2);
  // A setup of the same parts gets a name of its own.
  REQUIRE(begin_setup(record, other).ok());
  const auto setups = record::all<record::Setup>(record);
  CHECK(setups->at(1).value.name != setups->at(2).value.name);
}

TEST_CASE("the place shows what is on the bench") {
  Bench bench(record::record_in_memory());
  CHECK_FALSE(setup_view(bench)->on_bench);
  const auto begun = begin_setup(bench.record(), {});
  REQUIRE(begun.ok());
  REQUIRE(bench.choose_caliper(begun->caliper).ok());
  REQUIRE(bench.put_setup(begun->setup).ok());
  const auto view = setup_view(bench);
  REQUIRE(view.ok());
  CHECK(view->on_bench);
  CHECK(view->setups.front().on_bench);
  CHECK(view->caliper_chosen == 0);
  REQUIRE_FALSE(view->caliper_log.empty());
  CHECK(view->steps_note.empty());
}
