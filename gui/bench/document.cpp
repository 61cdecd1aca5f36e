#include "bench/document.hpp"

#include <utility>

namespace fitwright {

Document::Document(Content content, std::string path)
    : now_(std::move(content)), path_(std::move(path)), saved_(now_.readings) {}

void Document::put(Content content) {
  now_ = std::move(content);
  ++revision_;
}

void Document::apply(Content next, std::string label) {
  past_.push_back({std::exchange(now_, std::move(next)), std::move(label)});
  future_.clear();
  ++revision_;
}

void Document::undo() {
  if (past_.empty()) return;
  Step step = std::move(past_.back());
  past_.pop_back();
  future_.push_back({std::exchange(now_, std::move(step.content)), std::move(step.label)});
  ++revision_;
}

void Document::redo() {
  if (future_.empty()) return;
  Step step = std::move(future_.back());
  future_.pop_back();
  past_.push_back({std::exchange(now_, std::move(step.content)), std::move(step.label)});
  ++revision_;
}

void Document::mark_saved(std::string path) {
  path_ = std::move(path);
  saved_ = now_.readings;
}

}  // namespace fitwright
