// Hardware: sizes against the standards' tables, and finding it by words.

#include "fits/hardware.hpp"

#include <catch2/catch.hpp>

#include "calib/fits/tables.hpp"

using fitwright::find_hardware;
using fitwright::Hardware;

namespace {

const Hardware& named(const std::string& name) {
  for (const Hardware& h : fitwright::hardware_table())
    if (h.name == name) return h;
  FAIL("no hardware " << name);
  throw 0;
}

}  // namespace

TEST_CASE("bearings: boundary dimensions and limits") {
  const auto table = engineering_table("bearings.csv");
  REQUIRE(table.rows.size() == 46);
  for (const auto& row : table.rows) {
    const Hardware& h = named("bearing " + (row[0] == "688 open (618/8)" ? "618/8" : row[0]));
    INFO(h.name);
    CHECK(h.sizes[1].nominal_mm == std::stod(row[1]));
    CHECK(h.sizes[0].nominal_mm == std::stod(row[2]));
    CHECK(h.sizes[2].nominal_mm == std::stod(row[3]));
    CHECK(h.sizes[1].low_mm == Approx(std::stod(row[4])).margin(1e-9));
    CHECK(h.sizes[1].high_mm == Approx(std::stod(row[5])).margin(1e-9));
    CHECK(h.sizes[0].low_mm == Approx(std::stod(row[6])).margin(1e-9));
    CHECK(h.sizes[0].high_mm == Approx(std::stod(row[7])).margin(1e-9));
    CHECK(h.sizes[1].inside);
  }
}

TEST_CASE("dowel pins, nuts, clearance holes") {
  for (const auto& row : engineering_table("dowel_pins.csv").rows) {
    if (row[0] == "ISO 2338" && row[1] == "m6") continue;  // the h8 pins are in the table; m6 is that of ISO 8734
    const Hardware& h = named("dowel pin " + row[2] + ' ' + row[1]);
    CHECK(h.standard.find(row[0]) == 0);
    CHECK(h.sizes[0].high_mm == Approx(std::stod(row[3])).margin(1e-9));
    CHECK(h.sizes[0].low_mm == Approx(std::stod(row[4])).margin(1e-9));
  }
  for (const auto& row : engineering_table("nuts.csv").rows) {
    const Hardware& h = named("hexagon nut " + row[0]);
    CHECK(h.sizes[0].high_mm == std::stod(row[1]));
    CHECK(h.sizes[0].low_mm == std::stod(row[2]));
    CHECK(h.sizes[1].high_mm == std::stod(row[3]));
    CHECK(h.sizes[1].low_mm == std::stod(row[4]));
    CHECK_FALSE(h.sizes[0].round);
  }
  for (const auto& row : engineering_table("clearance_holes.csv").rows) {
    const Hardware& h = named("clearance hole " + row[0]);
    for (std::size_t k = 0; k < 3; ++k) {
      CHECK(h.sizes[k].low_mm == Approx(std::stod(row[1 + k])).margin(1e-9));
      CHECK(h.sizes[k].high_mm == Approx(std::stod(row[4 + k])).margin(0.0051));  // the list rounds to 0.01
    }
  }
}

TEST_CASE("every size has its limits in order, about its nominal") {
  for (const Hardware& h : fitwright::hardware_table())
    for (const auto& s : h.sizes) {
      INFO(h.name << ' ' << s.what);
      CHECK(s.low_mm <= s.high_mm);
      CHECK(s.low_mm > 0);
      CHECK(std::abs(s.nominal_mm - s.low_mm) < 0.8);
      CHECK(std::abs(s.nominal_mm - s.high_mm) < 0.8);
    }
}

TEST_CASE("hardware is found by free words") {
  const auto first = [](const char* words) {
    const auto found = find_hardware(words);
    return found.empty() ? std::string("nothing") : found.front().name;
  };
  CHECK(first("bearing 608") == "bearing 608");
  CHECK(first("608") == "bearing 608");
  CHECK(first("M3 nut") == "hexagon nut M3");
  CHECK(first("nut m3") == "hexagon nut M3");
  CHECK(first("magnet 6x3") == "disc magnet 6 x 3");
  CHECK(first("pin 3 h8") == "dowel pin 3 h8");
  CHECK(first("ISO 4032 M4") == "hexagon nut M4");
  CHECK(first("clearance M4") == "clearance hole M4");
  CHECK(first("693") == "bearing 693ZZ");
  CHECK(first("unobtainable 608") == "nothing");
  for (const Hardware& h : find_hardware("M1")) CHECK(h.name.find("M1.6") == std::string::npos);
  CHECK(find_hardware("").size() == fitwright::hardware_table().size());
}

TEST_CASE("the user's own parts come first, and the caliper cancels") {
  const Hardware own = fitwright::own_part("drum axle", 7.98, true, false);
  const auto found = find_hardware("axle", std::vector{own});
  REQUIRE(found.size() == 1);
  const auto mate = fitwright::mate_of(found[0], found[0].sizes[0]);
  CHECK(mate.kind == fitwright::MateKind::measured);
  CHECK(mate.low_mm == 7.98);
  CHECK(found[0].note.find("cancels") != std::string::npos);
  CHECK(fitwright::mate_of(named("bearing 608"), named("bearing 608").sizes[1]).inside);
}
