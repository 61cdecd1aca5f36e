#pragma once
// Files are read whole, and written whole or not at all.

#include <memory>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace fitwright {

/// The bytes of a file. Errors: Code::io with the system's reason; Code::bad_input when it is larger than `max_bytes`.
Result<std::string> read_whole(const std::string& path, std::size_t max_bytes = std::size_t{1} << 30);

/// Writes `bytes` to a temporary file in the same folder, fsyncs it, and renames it over `path`: afterwards
/// `path` holds either all of `bytes` or what it held before. Errors: Code::io, naming path and reason.
Result<Done> write_whole(const std::string& path, std::string_view bytes);

/// The same for bytes that come piece by piece: they go to a temporary file beside `path`, which commit() renames.
/// Without commit() nothing is left behind. Movable.
class FileInMaking {
 public:
  /// Errors: Code::io when the folder cannot be written to.
  static Result<FileInMaking> begin(const std::string& path);
  ~FileInMaking();
  FileInMaking(FileInMaking&&) noexcept;
  FileInMaking& operator=(FileInMaking&&) noexcept;

  /// A failure (full disk) is kept and told by commit().
  void append(std::string_view bytes);
  [[nodiscard]] bool failed() const;
  /// Fsyncs and renames. Errors: Code::io, naming path and reason; `path` is then as it was.
  Result<Done> commit();

 private:
  struct Held;
  explicit FileInMaking(std::unique_ptr<Held> held);
  std::unique_ptr<Held> held_;
};

}  // namespace fitwright
