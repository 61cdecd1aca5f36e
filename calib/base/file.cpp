#include "base/file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>
#include <utility>

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
      return Problem{Code::bad_input,
                     {path, 0, 0},
                     "is larger than " + std::to_string(max_bytes) + " bytes",
                     "check that it is the file you meant"};
  }
}

namespace {

constexpr std::size_t block_bytes = std::size_t{1} << 16;
constexpr const char* write_remedy = "check the folder, its permissions and the space left";

}  // namespace

struct FileInMaking::Held {
  std::string path, temporary;  ///< `temporary` is empty once it is gone
  Descriptor out;
  std::string waiting;  ///< not yet written, so that small pieces do not each cost a call
  std::optional<Problem> problem;

  void write(std::string_view bytes) {
    if (!problem && !write_all(out.fd, bytes)) problem = io_problem(path, "written", write_remedy);
  }
  void flush() {
    write(waiting);
    waiting.clear();
  }
  ~Held() {
    if (!temporary.empty()) ::unlink(temporary.c_str());
  }
};

FileInMaking::FileInMaking(std::unique_ptr<Held> held) : held_(std::move(held)) {}
FileInMaking::~FileInMaking() = default;
FileInMaking::FileInMaking(FileInMaking&&) noexcept = default;
FileInMaking& FileInMaking::operator=(FileInMaking&&) noexcept = default;

Result<FileInMaking> FileInMaking::begin(const std::string& path) {
  auto held = std::make_unique<Held>();
  held->path = path;
  std::string temporary = path + ".XXXXXX";
  held->out.fd = ::mkstemp(temporary.data());
  if (held->out.fd < 0) return io_problem(path, "written", write_remedy);
  held->temporary = std::move(temporary);
  return FileInMaking(std::move(held));
}

void FileInMaking::append(std::string_view bytes) {
  if (held_->waiting.size() + bytes.size() >= block_bytes) held_->flush();
  if (bytes.size() < block_bytes)
    held_->waiting += bytes;
  else
    held_->write(bytes);
}

bool FileInMaking::failed() const { return held_->problem.has_value(); }

Result<Done> FileInMaking::commit() {
  Held& held = *held_;
  held.flush();
  if (held.problem) return *held.problem;
  const bool written = ::fchmod(held.out.fd, mode_for(held.path)) == 0 && ::fsync(held.out.fd) == 0;
  if (!written || std::rename(held.temporary.c_str(), held.path.c_str()) != 0)
    return io_problem(held.path, "written", write_remedy);
  held.temporary.clear();
  const std::string folder = std::filesystem::path(held.path).parent_path().string();
  const Descriptor dir{::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (dir.fd >= 0) ::fsync(dir.fd);  // so that the rename itself survives a power cut
  return Done{};
}

Result<Done> write_whole(const std::string& path, std::string_view bytes) {
  auto file = FileInMaking::begin(path);
  if (!file) return file.problems();
  file->append(bytes);
  return file->commit();
}

}  // namespace fitwright
