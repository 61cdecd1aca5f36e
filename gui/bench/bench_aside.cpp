// What lay on the bench before is put aside with its steps, and undo reaches it.

#include <utility>

#include "base/words.hpp"
#include "bench/bench.hpp"
#include "bench/measuring/measuring.hpp"

namespace fitwright {
namespace {

constexpr std::size_t asides_kept = 8;  ///< of setups gone through one after another; more than a hand goes back

}  // namespace

Bench::Aside Bench::aside() const { return {setup_ ? setup_->setup.thing : record::Id{}, document_, past_, future_}; }

std::string Bench::name_of(const Aside& aside) const {
  if (aside.setup.empty()) return tr("putting readings of a file on the bench");
  const bool here = setup_ && setup_->setup.thing == aside.setup;
  if (here) return said("putting {} on the bench", setup_->setup.value.name);
  return tr("putting the next setup on the bench");
}

void Bench::put_aside() {
  before_.push_back(aside());
  if (before_.size() > asides_kept) before_.erase(before_.begin());
  after_.clear();
}

Result<Done> Bench::put_setup(const record::Id& setup) {
  const bool same = setup_ && setup_->setup.thing == setup;
  const bool something = setup_ || document_.content().measuring.plan;
  Aside present = aside();
  if (auto laid = lay(setup); !laid) return laid;
  if (same || !something) return Done{};
  before_.push_back(std::move(present));
  if (before_.size() > asides_kept) before_.erase(before_.begin());
  after_.clear();
  return Done{};
}

void Bench::put_loose(Document document) {
  if (setup_ || document_.content().measuring.plan) put_aside();
  lay_loose(std::move(document));
}

/// The nearest of `from` comes onto the bench, and what lies there goes to `to`.
Result<Done> Bench::exchange(std::vector<Aside>& from, std::vector<Aside>& to) {
  if (from.empty()) return Done{};
  Aside coming = from.back(), going = aside();
  if (coming.setup.empty()) {
    lay_loose(std::move(coming.document));
    past_ = std::move(coming.past);
    future_ = std::move(coming.future);
  } else {
    if (auto laid = lay(coming.setup); !laid) return laid;
    // Its steps are of use only where the record still says what they ended with.
    Content now = document_.content();
    const Content& then = coming.document.content();
    if (same_evening(now.measuring, then.measuring)) {
      now.measuring = then.measuring;
      now.readings = then.readings;
      evening_->kept = now.measuring;
      coming.document.put(std::move(now));
      take_in(std::move(coming.document));
      past_ = std::move(coming.past);
      future_ = std::move(coming.future);
    }
  }
  from.pop_back();
  to.push_back(std::move(going));
  show_in_unit();
  return Done{};
}

}  // namespace fitwright
