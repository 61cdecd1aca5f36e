#include "base/file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

namespace fitwright {
namespace {

Problem io_problem(const std::string& path, const std::string& doing, const std::string& remedy) {
  return {Code::io, {path, 0, 0}, "could not be " + doing + " (" + std::strerror(errno) + ")", remedy};
}

/// Closes a descriptor when the scope ends.
struct Descriptor {
  int fd = -1;
  ~Descriptor() {
    if (fd >= 0) ::close(fd);
  }
};

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

/// The permissions a newly written `path` should get: those it has, or what the umask leaves of 0666.
mode_t mode_for(const std::string& path) {
  struct stat now {};
  if (::stat(path.c_str(), &now) == 0) return now.st_mode & 07777;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

}  // namespace

Result<std::string> read_whole(const std::string& path, std::size_t max_bytes) {
  Descriptor in{::open(path.c_str(), O_RDONLY | O_CLOEXEC)};
  if (in.fd < 0) return io_problem(path, "opened", "check the name and that you may read it");
  std::string bytes;
  char block[1 << 16];
  for (;;) {
    const ssize_t n = ::read(in.fd, block, sizeof block);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return io_problem(path, "read", "check that it is a file and not a folder");
    if (n == 0) return bytes;
    bytes.append(block, static_cast<std::size_t>(n));
    if (bytes.size() > max_bytes)
      return Problem{Code::bad_input, {path, 0, 0}, "is larger than " + std::to_string(max_bytes) + " bytes",
                     "check that it is the file you meant"};
  }
}

Result<Done> write_whole(const std::string& path, std::string_view bytes) {
  const std::string remedy = "check the folder, its permissions and the space left";
  std::string temporary = path + ".XXXXXX";
  Descriptor out{::mkstemp(temporary.data())};
  if (out.fd < 0) return io_problem(path, "written", remedy);
  const bool written = write_all(out.fd, bytes) && ::fchmod(out.fd, mode_for(path)) == 0 && ::fsync(out.fd) == 0;
  if (!written || std::rename(temporary.c_str(), path.c_str()) != 0) {
    const Problem problem = io_problem(path, "written", remedy);
    ::unlink(temporary.c_str());
    return problem;
  }
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const Descriptor dir{::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (dir.fd >= 0) ::fsync(dir.fd);  // so that the rename itself survives a power cut
  return Done{};
}

}  // namespace fitwright
