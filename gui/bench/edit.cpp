#include "bench/edit.hpp"

#include <utility>

#include "base/words.hpp"

namespace fitwright {

Edit with_wishes(const Content& content, const Wishes& wishes, std::string label) {
  Edit edit{content, std::move(label), {}};
  edit.next.wishes = wishes;
  return edit;
}

Edit with_state(const Content& content, const State& state) {
  Edit edit{content, tr("settings of the print"), {}};
  edit.next.state = state;
  return edit;
}

}  // namespace fitwright
