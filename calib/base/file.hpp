#pragma once
// Files are read whole, and written whole or not at all.

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace fitwright {

/// The bytes of a file. Errors: Code::io with the system's reason; Code::bad_input when it is larger than `max_bytes`.
Result<std::string> read_whole(const std::string& path, std::size_t max_bytes = std::size_t{1} << 30);

/// Writes `bytes` to a temporary file in the same folder, fsyncs it, and renames it over `path`: afterwards
/// `path` holds either all of `bytes` or what it held before. Errors: Code::io, naming path and reason.
Result<Done> write_whole(const std::string& path, std::string_view bytes);

}  // namespace fitwright
