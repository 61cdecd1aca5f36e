#include "bench/measuring/measure_order.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace fitwright {
namespace {

constexpr std::array<Grip, 4> all_grips{Grip::outside, Grip::inside, Grip::shank, Grip::depth};

/// Both diagonals are one direction of a round: two places read in turn.
JawLine round_of(JawLine line) { return line == JawLine::diagonal_minus ? JawLine::diagonal_plus : line; }

class Orderer {
 public:
  explicit Orderer(const std::vector<MeasureSpot>& spots) : spots_(spots), steel_done_(spots.size(), false) {}

  std::vector<Due> run(std::size_t parts) {
    add_steel(Grip::outside);
    for (std::size_t part = 0; part < parts; ++part) {
      last_line_.reset();
      for (const Grip grip : grips_from_hand(part)) {
        add_steel(grip);
        add_rounds(part, grip);
      }
    }
    for (const Grip grip : all_grips) add_steel(grip);
    return std::move(order_);
  }

 private:
  using Group = std::pair<JawLine, std::vector<std::size_t>>;  // spots read in one direction

  const std::vector<MeasureSpot>& spots_;
  std::vector<Due> order_;
  std::vector<bool> steel_done_;
  std::size_t section_ = 0;
  Grip in_hand_ = Grip::outside;
  std::optional<JawLine> last_line_;

  [[nodiscard]] bool needs(std::size_t part, Grip grip) const {
    return std::any_of(spots_.begin(), spots_.end(),
                       [&](const MeasureSpot& s) { return s.part == part && s.grip == grip; });
  }

  /// What is in the hand first, what the next part begins with last.
  [[nodiscard]] std::vector<Grip> grips_from_hand(std::size_t part) const {
    std::vector<Grip> grips;
    for (const Grip g : all_grips)
      if (needs(part, g)) grips.push_back(g);
    const auto rest = std::stable_partition(grips.begin(), grips.end(), [&](Grip g) { return g == in_hand_; });
    std::stable_partition(rest, grips.end(), [&](Grip g) { return !needs(part + 1, g); });
    return grips;
  }

  void add(std::size_t spot, int time) {
    const MeasureSpot& s = spots_[spot];
    const int repeat = s.first_repeat + time * s.repeat_step;
    order_.push_back({spot, repeat, section_});
    in_hand_ = s.grip;
    if (s.part != none_there) last_line_ = round_of(line_of(s, repeat));
  }

  void close_section() {
    if (!order_.empty() && order_.back().section == section_) ++section_;
  }

  void add_steel(Grip grip) {
    for (std::size_t i = 0; i < spots_.size(); ++i) {
      if (spots_[i].part != none_there || spots_[i].grip != grip || steel_done_[i]) continue;
      for (int time = 0; time < spots_[i].times; ++time) add(i, time);
      steel_done_[i] = true;
      close_section();
    }
  }

  void add_rounds(std::size_t part, Grip grip) {
    for (int time = 0;; ++time) {
      std::map<JawLine, std::vector<std::size_t>> by_line;
      for (std::size_t i = 0; i < spots_.size(); ++i) {
        const MeasureSpot& s = spots_[i];
        if (s.part == part && s.grip == grip && time < s.times)
          by_line[round_of(line_of(s, s.first_repeat + time * s.repeat_step))].push_back(i);
      }
      if (by_line.empty()) break;
      std::vector<Group> groups(by_line.begin(), by_line.end());
      if (cost(groups.back()) < cost(groups.front())) std::reverse(groups.begin(), groups.end());
      for (const Group& group : groups)
        for (const std::size_t spot : group.second) add(spot, time);
    }
    close_section();
  }

  /// What beginning a round with this group costs: a turn, or, worse, the same place again at once.
  [[nodiscard]] int cost(const Group& group) const {
    const bool turn = last_line_ && *last_line_ != group.first;
    const bool again = !order_.empty() && order_.back().spot == group.second.front();
    return (turn ? 1 : 0) + (again ? 2 : 0);
  }
};

}  // namespace

std::vector<Due> sparing_order(const std::vector<MeasureSpot>& spots, std::size_t parts) {
  return Orderer(spots).run(parts);
}

Moves moves_of(const std::vector<MeasureSpot>& spots, std::span<const Due> order) {
  Moves moves;
  for (std::size_t i = 1; i < order.size(); ++i) {
    const MeasureSpot &before = spots[order[i - 1].spot], &now = spots[order[i].spot];
    const bool printed = now.part != none_there;
    if (now.grip != before.grip) ++moves.jaw_changes;
    if (printed && now.part != before.part) ++moves.part_changes;
    if (printed && now.part == before.part && line_of(now, order[i].repeat) != line_of(before, order[i - 1].repeat))
      ++moves.turns;
    if (printed && order[i].spot == order[i - 1].spot) ++moves.in_a_row;
  }
  return moves;
}

}  // namespace fitwright
