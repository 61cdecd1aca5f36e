#include "mesh/outside_check.hpp"

#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <stdexcept>

#include "base/file.hpp"

namespace fitwright_test {
namespace {

/// An STL file of the mesh that is gone when the scope ends.
class ScratchStl {
 public:
  explicit ScratchStl(const fitwright::Mesh& mesh) {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("fw_check_" + std::to_string(::getpid()) + "_" + std::to_string(++count) + ".stl");
    if (!fitwright::write_whole(path_.string(), fitwright::to_stl(mesh)))
      throw std::runtime_error("the scratch file could not be written");
  }
  ScratchStl(const ScratchStl&) = delete;
  ScratchStl& operator=(const ScratchStl&) = delete;
  ~ScratchStl() { std::filesystem::remove(path_); }
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

std::string output_of(const std::string& program, const std::string& argument) {
  const std::string command = "'" + program + "' '" + argument + "' 2>&1";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(::popen(command.c_str(), "r"), ::pclose);
  if (!pipe) throw std::runtime_error("could not run " + program);
  std::string out;
  std::array<char, 4096> block{};
  for (std::size_t n = 0; (n = std::fread(block.data(), 1, block.size(), pipe.get())) > 0;) out.append(block.data(), n);
  return out;
}

/// The number behind `label` and the sign after it (blanks between), or -1.
double number_after(const std::string& output, const std::string& label, char mark) {
  auto at = output.find(label);
  if (at == std::string::npos) return -1;
  at = output.find(mark, at + label.size());
  return at == std::string::npos ? -1 : std::stod(output.substr(at + 1));
}

long count_after(const std::string& output, const std::string& label) {
  return static_cast<long>(number_after(output, label, ':'));
}

}  // namespace

AdmeshReport admesh(const fitwright::Mesh& mesh) {
  AdmeshReport report;
  report.output = output_of(FW_ADMESH, ScratchStl(mesh).path());
  // Of the two columns the first is the file as it came.
  report.facets = count_after(report.output, "Number of facets");
  report.disconnected = count_after(report.output, "Total disconnected facets");
  report.degenerate = count_after(report.output, "Degenerate facets");
  const long reversed = count_after(report.output, "Facets reversed");
  const long normals = count_after(report.output, "Normals fixed");
  report.reversed = reversed < 0 || normals < 0 ? -1 : reversed + normals;
  report.parts = count_after(report.output, "Number of parts");
  return report;
}

CgalReport cgal(const fitwright::Mesh& mesh) {
  CgalReport report;
  report.output = output_of(FW_CGAL_CHECK, ScratchStl(mesh).path());
  report.polygon_mesh = number_after(report.output, "polygon_mesh", '=') == 1;
  report.closed = number_after(report.output, "closed", '=') == 1;
  report.self_intersects = number_after(report.output, "self_intersects", '=') != 0;
  report.outward = number_after(report.output, "outward", '=') == 1;
  report.volume_mm3 = number_after(report.output, "volume", '=');
  return report;
}

}  // namespace fitwright_test
