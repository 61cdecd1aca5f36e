#include "reading/defects.hpp"

#include <algorithm>
#include <tuple>

#include "base/words.hpp"

namespace fitwright {

void Defects::add(int line, int column, std::string what, std::string remedy) {
  if (problems_.size() < most)
    problems_.push_back({Code::bad_input, {source_, line, column}, std::move(what), std::move(remedy)});
  else
    ++left_out_;
}

Problems Defects::take() {
  std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.where.line, a.where.column) < std::tie(b.where.line, b.where.column);
  });
  if (left_out_ > 0)
    problems_.push_back({Code::bad_input,
                         {source_, 0, 0},
                         left_out_ == 1 ? tr("there is 1 more defect that is not listed")
                                        : said("there are {} more defects that are not listed", left_out_),
                         tr("mend these first and read the file again")});
  return std::move(problems_);
}

}  // namespace fitwright
