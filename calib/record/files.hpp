#pragma once
// Files and folders of the record: made for their owner alone, put in place whole, and sure to be on the disk.

#include <string>

#include "base/result.hpp"

namespace fitwright::record {

/// The folder a file lies in ("." when the path names none).
std::string folder_of(const std::string& path);

/// The file that a path stands for: where a symbolic link leads, otherwise as it is. What SQLite keeps beside a record
/// lies beside that file.
std::string resolved(const std::string& path);

/// Makes a folder and those above it, for their owner alone (0700, as the XDG base directory specification asks).
Result<Done> make_folder(const std::string& folder);

/// Makes an empty file for its owner alone (0600), unless there is one.
Result<Done> make_file(const std::string& path);

/// A new empty file beside `path`, for its owner alone; its name begins with that of `path`. Deleted at the end of its
/// life, unless it was put in place.
class Temporary {
 public:
  static Result<Temporary> beside(const std::string& path);
  Temporary(Temporary&& other) noexcept;
  Temporary& operator=(Temporary&&) = delete;
  ~Temporary();
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Makes sure of it on the disk and gives it its name. Without `replace` an existing file stays (EEXIST is told).
  Result<Done> put(const std::string& target, bool replace);

 private:
  explicit Temporary(std::string path) : path_(std::move(path)) {}
  std::string path_;
};

/// Renames without replacing; 0, or the system's error number.
int rename_new(const std::string& from, const std::string& to);

/// Makes sure of a folder's entries on the disk.
void sync_folder(const std::string& folder);

}  // namespace fitwright::record
