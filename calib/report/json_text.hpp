#pragma once
// How every JSON document of ours is written. Included by .cpp files only.

#include <nlohmann/json.hpp>
#include <string>

namespace fitwright {

/// Keys stay in the order they are given.
using Json = nlohmann::ordered_json;

/// Version of the documents' shape; it rises when a key changes its meaning or goes away.
inline constexpr int report_schema = 1;

/// The document's text: indented, numbers shortest that read back the same, and a line feed at the end. Bytes that are
/// not UTF-8 (from an odd name in a readings file) are replaced, never thrown over.
inline std::string json_text(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace fitwright
