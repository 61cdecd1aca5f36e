// Evenings of somebody who does everything in any order: whatever happens, the laws hold.

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "base/number.hpp"
#include "bench/measuring/measure_keeping.hpp"
#include "bench/measuring/measure_paste.hpp"
#include "bench/measuring/measure_view.hpp"
#include "gui/measuring_helpers.hpp"
#include "reading/csv.hpp"

using namespace fitwright;
using namespace evening;

namespace {

class Somebody {
 public:
  Somebody(std::shared_ptr<const MeasurePlan> plan, unsigned seed)
      : random_(seed), m_(begin_measuring(std::move(plan))) {}

  const Measuring& now() const { return m_; }

  /// One step of any kind; a refused one leaves all as it was.
  void step() {
    const auto result = any_step();
    if (result) m_ = result->next;
  }

 private:
  std::mt19937 random_;
  Measuring m_;

  std::size_t below(std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_); }

  std::string line() {
    if (!m_.here) return "40.12";
    const double right = *parse_number(drawn_here(m_, 0.01 * static_cast<double>(below(30))));
    switch (below(12)) {
      case 0:
        return fixed(right * 10, 2);
      case 1:
        return fixed(right + 1, 2);
      case 2:
        return "nonsense";
      case 3:
        return fixed(right / 25.4, 4) + " in";
      case 4:
        return "-" + fixed(right, 2);
      default:
        return fixed(right, 2);
    }
  }

  Result<MeasureStep> any_step() {
    const auto lines = due_lines(m_);
    const ReadingKey any = lines[below(lines.size())].key;
    const auto doubts = doubts_of(m_);
    switch (below(24)) {
      case 0:
        return skip_here(m_);
      case 1:
        return below(4) == 0 ? part_damaged(m_) : below(2) == 0 ? go_on(m_) : to_first_due(m_);
      case 2:
        return one_more_here(m_);
      case 3:
      case 4:
        return go_to(m_, any);
      case 5:
        return delete_reading(m_, any);
      case 6:
        return amend_reading(m_, any, line());
      case 7:
      case 8:
      case 9:
        if (doubts.empty()) return to_first_due(m_);
        return below(3) == 0   ? keep_doubtful(m_, doubts[below(doubts.size())])
               : below(2) == 0 ? take_proposal(m_, doubts[below(doubts.size())])
                               : read_again(m_, doubts[below(doubts.size())]);
      case 10: {
        const auto preview = preview_paste(m_, line() + "\n\n" + line() + "\n");
        return preview ? take_paste(*preview, below(2) == 0) : Result<MeasureStep>(preview.problems());
      }
      case 11: {
        const auto preview = preview_paste(m_, any.feature_id + "\t" + line() + "\t" + line());
        return preview ? take_paste(*preview, true) : Result<MeasureStep>(preview.problems());
      }
      default:
        return type_line(m_, line());
    }
  }
};

void laws_hold(const Measuring& before, const Measuring& m) {
  const auto lines = due_lines(m);
  std::set<ReadingKey> keys;
  for (const DueLine& line : lines) CHECK(keys.insert(line.key).second);
  // Every reading is in the list, at its place.
  for (const auto& t : m.taken) {
    const std::size_t at = find_line(lines, key_of(t->reading));
    REQUIRE(at != none_there);
    CHECK(lines[at].state == DueState::read);
    CHECK(lines[at].due.spot == t->spot);
  }
  // The hand is somewhere as long as anything is due.
  if (m.here)
    CHECK(find_line(lines, m.here) != none_there);
  else
    CHECK_FALSE(next_due(lines, std::nullopt));
  // What is saved reads back to the same evening.
  const ReadingSet readings = readings_of(m);
  if (!readings.rows.empty()) {
    const auto file = parse_readings(to_csv(readings), "autosave");
    REQUIRE(file);
    CHECK(with_bookmark(with_readings(m.plan, *file).value().measuring, bookmark_of(m)) == m);
  }
  CHECK(changes_between(m, m).empty());
  CHECK(changes_between(before, m).size() == changes_between(m, before).size());
  for (const MeasureDoubt& doubt : doubts_of(m)) CHECK(taken_at(m, doubt.key) != nullptr);
  const MeasureView view = measure_view(m);
  CHECK(view.finished == !m.here);
  CHECK(view.done == m.taken.size());
  CHECK_FALSE(view.said.empty());
}

}  // namespace

TEST_CASE("whatever somebody does, nothing is lost and the hand is somewhere") {
  PartCopy lying;
  Feature hole;
  hole.id = "L8", hole.kind = Kind::hole_h, hole.axis = Axis::y, hole.nominal_mm = 8;
  lying.features = {hole};
  const auto p = plan({part("walls", 1, 90), part("stair"), lying}, {jaws(), steel("ring 10", Kind::ring, 10, 2)});
  for (unsigned seed = 1; seed <= 6; ++seed) {
    Somebody somebody(p, seed);
    for (int i = 0; i < 150; ++i) {
      const Measuring before = somebody.now();
      somebody.step();
      INFO("seed " << seed << ", step " << i);
      laws_hold(before, somebody.now());
    }
  }
}
