// Damaged files: whatever is done to a valid one, the answer is readings or told defects, never a crash.
#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "practice/simulate.hpp"
#include "reading/checks.hpp"
#include "reading/csv.hpp"

using namespace fitwright;

namespace {

std::string valid_csv() {
  const auto truth = parse_truth(R"({"copies":2,"repeats":2,"turned":[0,90],"features":[["X40","outer","x",40,"l","r"],
    ["SX20","inner","x",20,"r","m"],["F1","flats+","xy",[135.42,100,80]],["H3","pin","z",3],["H5","hole","z",5],
    ["W","wall","n",0.45],["Z0","zero","n",0],["R3","ring","n",3]]})",
                                 "t");
  REQUIRE(truth.ok());
  return simulate_csv(*truth, 1);
}

class Damage {
 public:
  explicit Damage(unsigned seed) : random_(seed) {}

  std::string of(std::string text) {
    const int times = 1 + below(2);
    for (int i = 0; i < times; ++i) once(text);
    return text;
  }

 private:
  std::mt19937 random_;

  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  std::size_t place(const std::string& text) { return text.empty() ? 0 : random_() % text.size(); }

  void once(std::string& text) {
    static const std::string telling = std::string(",;\t\"\n\r.-+eE0123456789 x#\xC3\xA9\xEF\xBB\xBF\xFF") + std::string(1, 0);
    const char c = below(4) == 0 ? static_cast<char>(below(256)) : telling[place(telling)];
    const std::size_t at = place(text);
    switch (below(7)) {
      case 0:
        text.insert(at, 1, c);
        break;
      case 1:
        text.erase(at, 1);
        break;
      case 2:
        if (!text.empty()) text[at] = c;
        break;
      case 3:
        text.erase(at);
        break;
      case 4:
        text.erase(at, static_cast<std::size_t>(below(60)));
        break;
      case 5:
        text.insert(at, text.substr(place(text), static_cast<std::size_t>(below(80))));
        break;
      case 6:
        text.insert(at, static_cast<std::size_t>(below(5)), c);
        break;
    }
  }
};

}  // namespace

TEST_CASE("A damaged file gives readings or told defects") {
  const std::string valid = valid_csv();
  REQUIRE(parse_readings(valid, "r.csv").ok());
  int sound = 0, told = 0;
  for (unsigned seed = 1; seed <= 20000; ++seed) {
    const std::string damaged = Damage(seed).of(valid);
    const auto set = parse_readings(damaged, "r.csv");
    if (set) {
      ++sound;
      (void)check_readings(*set);
      // What was read is written and read back, whatever it is.
      const auto again = parse_readings(to_csv(*set), "r.csv");
      if (!again || again->rows.size() != set->rows.size()) FAIL("seed " << seed << "\n" << damaged);
      continue;
    }
    ++told;
    bool complete = !set.problems().empty() && set.problems().size() <= 101;
    for (const Problem& p : set.problems())
      complete =
          complete && p.code == Code::bad_input && !p.what.empty() && !p.remedy.empty() && p.where.file == "r.csv";
    if (!complete) FAIL("seed " << seed << "\n" << damaged);
  }
  CHECK(sound > 1000);
  CHECK(told > 1000);
}

TEST_CASE("Noise is told") {
  std::mt19937 random(5);
  for (int i = 0; i < 500; ++i) {
    std::string noise(random() % 400, ' ');
    for (char& c : noise) c = static_cast<char>(random());
    CHECK_FALSE(parse_readings(noise, "r.csv").ok());
  }
}
