#include "outcome.hpp"

#include <algorithm>
#include <cstdio>

namespace fitw {
namespace {

void print_line(const std::string& line) { std::fputs((line + '\n').c_str(), stderr); }

}  // namespace

void add(fitwright::Problems& problems, const fitwright::Problems& more) {
  problems.insert(problems.end(), more.begin(), more.end());
}

int print(const Outcome& outcome) {
  for (const std::string& note : outcome.notes) print_line(note);
  for (const fitwright::Problem& problem : outcome.problems) print_line(problem.text());
  const bool written =
      std::fwrite(outcome.out.data(), 1, outcome.out.size(), stdout) == outcome.out.size() && std::fflush(stdout) == 0;
  if (!written) {
    print_line("standard output could not be written; check where it goes and the space left there");
    return static_cast<int>(fitwright::Code::io);
  }
  int code = 0;
  for (const fitwright::Problem& problem : outcome.problems) {
    const int this_code = static_cast<int>(problem.code);
    code = code == 0 ? this_code : std::min(code, this_code);
  }
  return code;
}

}  // namespace fitw
