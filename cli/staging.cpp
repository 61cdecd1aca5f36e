#include "staging.hpp"

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <system_error>
#include <utility>

namespace fitw {
namespace {

namespace fs = std::filesystem;
using fitwright::Code;
using fitwright::Done;
using fitwright::Problem;
using fitwright::Result;

constexpr const char* before = ".before";  // what a prepared file takes the place of, until all are in place

Problem folder_problem(const std::string& folder, const std::string& reason) {
  return {Code::io,
          {folder, 0, 0},
          "could not be written (" + reason + ")",
          "check the folder, its permissions and the space left"};
}

/// The topmost folder of `folder`'s path that does not exist yet; empty when all do.
fs::path first_missing(const fs::path& folder) {
  fs::path missing;
  std::error_code ignored;
  for (fs::path at = folder; !at.empty() && !fs::exists(at, ignored); at = at.parent_path()) missing = at;
  return missing;
}

}  // namespace

Result<Staging> Staging::in(const std::string& folder) {
  Staging staging;
  staging.folder_ = folder;
  std::error_code error;
  fs::path target = fs::path(folder).lexically_normal();
  if (!target.has_filename()) target = target.parent_path();  // "heron/" is "heron"
  const fs::path missing = first_missing(target);
  fs::create_directories(target, error);
  if (error) return folder_problem(folder, error.message());
  staging.made_ = missing.string();
  std::string place = (fs::path(folder) / ".unfinished-XXXXXX").string();
  if (::mkdtemp(place.data()) == nullptr)
    return folder_problem(folder, std::error_code(errno, std::generic_category()).message());
  staging.place_ = place;
  return staging;
}

Staging::Staging(Staging&& other) noexcept
    : folder_(std::move(other.folder_)),
      made_(std::exchange(other.made_, {})),
      place_(std::exchange(other.place_, {})),
      names_(std::move(other.names_)) {}

Staging::~Staging() {
  std::error_code ignored;
  if (!place_.empty()) fs::remove_all(place_, ignored);
  if (!made_.empty()) fs::remove_all(made_, ignored);
}

std::string Staging::path_for(const std::string& name) {
  names_.push_back(name);
  return (fs::path(place_) / name).string();
}

bool Staging::put(const std::string& name, std::error_code& error) const {
  const fs::path target = fs::path(folder_) / name;
  if (fs::exists(target, error)) {
    if (fs::is_directory(target)) {
      error = std::make_error_code(std::errc::is_a_directory);
      return false;
    }
    fs::rename(target, fs::path(place_) / (name + before), error);
    if (error) return false;
  }
  fs::rename(fs::path(place_) / name, target, error);
  if (!error) return true;
  take_back(name);
  return false;
}

void Staging::take_back(const std::string& name) const {
  std::error_code ignored;
  const fs::path target = fs::path(folder_) / name;
  const fs::path old = fs::path(place_) / (name + before);
  if (fs::exists(old, ignored))
    fs::rename(old, target, ignored);
  else
    fs::remove(target, ignored);
}

Result<Done> Staging::commit() {
  for (std::size_t i = 0; i < names_.size(); ++i) {
    std::error_code error;
    if (put(names_[i], error)) continue;
    const std::string failed = names_[i];
    while (i-- > 0) take_back(names_[i]);
    return folder_problem((fs::path(folder_) / failed).string(), error.message());
  }
  made_.clear();  // it holds something now
  return Done{};
}

}  // namespace fitw
