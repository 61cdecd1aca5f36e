// Writes the demo's record: make_demo_record gui/demo/demo-record.json

#include <cstdio>
#include <exception>

#include "base/file.hpp"
#include "demo_record.hpp"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("which file? make_demo_record FILE.json\n", stderr);
    return static_cast<int>(fitwright::Code::usage);
  }
  try {
    const auto written = fitwright::write_whole(argv[1], fitwright::make_demo_record());
    if (written) return 0;
    std::fputs((written.problems().front().text() + '\n').c_str(), stderr);
    return static_cast<int>(fitwright::Code::io);
  } catch (const std::exception& defect) {
    std::fputs(defect.what(), stderr);
    std::fputc('\n', stderr);
    return 1;
  }
}
