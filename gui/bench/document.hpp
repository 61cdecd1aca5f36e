#pragma once
// The document: the content on the bench, where it lives on disk, and every earlier content for undo.

#include <cstdint>
#include <string>
#include <vector>

#include "bench/content.hpp"

namespace fitwright {

class Document {
 public:
  Document() = default;
  /// `path` is empty for a document that has no file yet.
  explicit Document(Content content, std::string path = {});

  /// Counts its revisions on from `revision`, so that a result for an earlier document is not taken for one of this.
  void count_from(std::uint64_t revision) { revision_ = revision + 1; }
  /// Another content without a step: what changed elsewhere. Steps that were made can still be taken back.
  void put(Content content);

  [[nodiscard]] const Content& content() const { return now_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Grows with every change, undo and redo included: tells a stale result from a fresh one.
  [[nodiscard]] std::uint64_t revision() const { return revision_; }
  /// Whether the readings differ from those last opened or saved.
  [[nodiscard]] bool dirty() const { return now_.readings != saved_; }

  /// One step forward; whatever was undone before is forgotten. `label` names the step: "Undo <label>".
  void apply(Content next, std::string label);

  [[nodiscard]] bool can_undo() const { return !past_.empty(); }
  [[nodiscard]] bool can_redo() const { return !future_.empty(); }
  /// Label of the step that undo or redo would take; empty when there is none.
  [[nodiscard]] std::string undo_label() const { return past_.empty() ? std::string() : past_.back().label; }
  [[nodiscard]] std::string redo_label() const { return future_.empty() ? std::string() : future_.back().label; }
  /// Does nothing when there is nothing to undo or redo.
  void undo();
  void redo();

  /// The present readings are now in the file at `path`.
  void mark_saved(std::string path);

 private:
  struct Step {
    Content content;
    std::string label;
  };
  Content now_;
  std::string path_;
  std::shared_ptr<const ReadingSet> saved_ = now_.readings;
  std::uint64_t revision_ = 1;
  std::vector<Step> past_, future_;
};

}  // namespace fitwright
