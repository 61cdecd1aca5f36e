#include "record/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>

#include "record/wording.hpp"

namespace fitwright::record {
namespace {

constexpr mode_t own_folder = 0700, own_file = 0600;

/// Whether the bytes of a file are on the disk; errno tells why not.
bool synced(const std::string& path, int flags) {
  const int fd = ::open(path.c_str(), flags | O_CLOEXEC);
  if (fd < 0) return false;
  const int result = ::fsync(fd);
  const int error = errno;
  ::close(fd);
  errno = error;
  return result == 0;
}

}  // namespace

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

std::string resolved(const std::string& path) {
  std::error_code none;
  if (!std::filesystem::is_symlink(path, none)) return path;
  const auto real = std::filesystem::canonical(path, none);
  return none ? path : real.string();
}

Result<Done> make_folder(const std::string& folder) {
  struct stat status {};
  if (::stat(folder.c_str(), &status) == 0) {
    if (S_ISDIR(status.st_mode)) return Done{};
    return system_problem(folder, ENOTDIR, "cannot be kept here");
  }
  if (errno != ENOENT) return system_problem(folder, errno, "cannot be kept here");
  if (const std::string above = folder_of(folder); above != folder)
    if (const auto made = make_folder(above); !made) return made.problems();
  if (::mkdir(folder.c_str(), own_folder) != 0 && errno != EEXIST)
    return system_problem(folder, errno, "cannot be kept here");
  return Done{};
}

Result<Done> make_file(const std::string& path) {
  const int fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, own_file);
  if (fd >= 0) {
    ::close(fd);  // just made: no lock of this process on it could get lost
    sync_folder(folder_of(path));
    return Done{};
  }
  if (errno == EEXIST) return Done{};
  return system_problem(path, errno, "cannot be made");
}

Result<Temporary> Temporary::beside(const std::string& path) {
  std::string name = path + ".XXXXXX";
  const int fd = ::mkstemp(name.data());
  if (fd < 0) return system_problem(path, errno, "cannot be written");
  ::close(fd);
  return Temporary(std::move(name));
}

Temporary::Temporary(Temporary&& other) noexcept : path_(std::move(other.path_)) { other.path_.clear(); }

Temporary::~Temporary() {
  if (path_.empty()) return;
  for (const char* end : {"", "-wal", "-shm", "-journal"}) ::unlink((path_ + end).c_str());
}

Result<Done> Temporary::put(const std::string& target, bool replace) {
  if (!synced(path_, O_RDWR)) return system_problem(target, errno, "cannot be written");
  const int error = replace ? (std::rename(path_.c_str(), target.c_str()) == 0 ? 0 : errno) : rename_new(path_, target);
  if (error == EEXIST)
    return Problem{Code::bad_input, {target, 0, 0}, "there is a file of that name already", "choose another name"};
  if (error != 0) return system_problem(target, error, "cannot be written");
  path_.clear();
  sync_folder(folder_of(target));
  return Done{};
}

int rename_new(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  // A disk that cannot do both at once.
  struct stat status {};
  if (::stat(to.c_str(), &status) == 0) return EEXIST;
  return std::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

void sync_folder(const std::string& folder) { synced(folder, O_RDONLY | O_DIRECTORY); }

}  // namespace fitwright::record
