#include "fits/contradictions.hpp"

#include <algorithm>
#include <map>

#include "base/words.hpp"

namespace fitwright {

std::vector<Contradiction> contradictions(const TrialSet& trials) {
  std::map<double, std::vector<const FitTrial*>> at;
  std::map<int, std::vector<const FitTrial*>> on;
  for (const FitTrial& t : trials.rows) {
    at[t.clearance_mm].push_back(&t);
    on[t.copy].push_back(&t);
  }
  const auto by_grade = [](const FitTrial* a, const FitTrial* b) { return a->grade < b->grade; };
  std::vector<Contradiction> out;
  for (const auto& [clearance, tried] : at) {
    const auto [low, high] = std::minmax_element(tried.begin(), tried.end(), by_grade);
    if ((*low)->grade == (*high)->grade) continue;
    const bool one_copy = (*low)->copy == (*high)->copy;
    Contradiction c{clearance, (*low)->grade, (*high)->grade, !one_copy, one_copy ? (*low)->copy : 0, {}};
    c.text = one_copy ? said("At {} mm the place on copy {} once {}, once {}.", said_shortest(clearance), c.copy,
                             tr(felt(c.low)), tr(felt(c.high)))
                      : said("At {} mm copy {} {}, copy {} {}.", said_shortest(clearance), (*low)->copy,
                             tr(felt(c.low)), (*high)->copy, tr(felt(c.high)));
    out.push_back(std::move(c));
  }
  for (auto& [copy, tried] : on) {
    std::stable_sort(tried.begin(), tried.end(),
                     [](const FitTrial* a, const FitTrial* b) { return a->clearance_mm < b->clearance_mm; });
    const FitTrial* loosest = nullptr;
    for (const FitTrial* t : tried) {
      if (loosest && t->grade < loosest->grade && t->clearance_mm > loosest->clearance_mm) {
        Contradiction c{t->clearance_mm, t->grade, loosest->grade, false, copy, {}};
        c.text = said("On copy {} the place at {} mm {}, although the one at {} mm {}.", copy,
                      said_shortest(t->clearance_mm), tr(felt(t->grade)), said_shortest(loosest->clearance_mm),
                      tr(felt(loosest->grade)));
        out.push_back(std::move(c));
      }
      if (!loosest || t->grade > loosest->grade) loosest = t;
    }
  }
  return out;
}

}  // namespace fitwright
