#pragma once
// The keys of a JSON object in the order they stand, to hold documents against their documented shape.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

using Json = nlohmann::ordered_json;
using Names = std::vector<std::string>;

inline Names keys(const Json& object) {
  Names names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}
