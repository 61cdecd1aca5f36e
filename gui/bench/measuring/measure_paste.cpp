#include "bench/measuring/measure_paste.hpp"

#include <algorithm>
#include <map>

#include "base/number.hpp"
#include "base/text.hpp"
#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/measuring/typed_line.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

using Block = std::vector<std::vector<std::string>>;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' || text[i] == '\n') {
      if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
      lines.emplace_back();
    } else {
      lines.back() += text[i];
    }
  }
  while (!lines.empty() && folded(lines.back()).empty()) lines.pop_back();
  return lines;
}

std::vector<std::string> cells_of(const std::string& line, char separator) {
  std::vector<std::string> cells(1);
  for (const char c : line)
    if (separator != '\0' && c == separator)
      cells.emplace_back();
    else
      cells.back() += c;
  for (std::string& cell : cells) {
    cell = std::string(without_blanks(cell));
    if (cell.size() > 1 && cell.front() == '"' && cell.back() == '"') cell = cell.substr(1, cell.size() - 2);
  }
  return cells;
}

class Paster {
 public:
  explicit Paster(const Measuring& m) : m_(m), lines_(due_lines(m)) {
    preview_.next = m;
    for (const MeasureSpot& s : m.plan->spots) ids_[folded(s.feature.id)] = s.feature.id;
  }

  Result<PastePreview> run(const std::string& text) {
    const Block block = block_of(text);
    if (block.empty())
      return Problem{Code::bad_input, {}, tr("there is nothing to paste"), tr("copy a column of readings first")};
    const std::size_t names = column_of_names(block);
    if (names != none_there) {
      by_name(block, names);
    } else if (width(block) == 1) {
      in_order(block);
    } else {
      return Problem{
          Code::bad_input,
          {},
          said("the block has {} columns, but none with the features' names", width(block)),
          said("copy one column of readings, or a column of names ({}, ...) with it", lines_.front().key.feature_id)};
    }
    finish();
    return std::move(preview_);
  }

 private:
  const Measuring& m_;
  std::vector<DueLine> lines_;
  PastePreview preview_;
  std::map<std::string, std::string> ids_;         // folded name to name
  std::map<std::size_t, std::vector<int>> given_;  // spot to the repeats already filled from the block

  static std::size_t width(const Block& block) {
    std::size_t most = 0;
    for (const auto& row : block) most = std::max(most, row.size());
    return most;
  }

  [[nodiscard]] bool is_name(const std::string& cell) const { return ids_.contains(folded(cell)); }

  [[nodiscard]] Block block_of(const std::string& text) const {
    const auto lines = lines_of(text);
    const auto any = [&](char c) {
      return std::any_of(lines.begin(), lines.end(), [&](const auto& l) { return l.find(c) != std::string::npos; });
    };
    char separator = any('\t') ? '\t' : any(';') ? ';' : '\0';
    for (const char c : {',', ' '})
      if (separator == '\0' && std::any_of(lines.begin(), lines.end(), [&](const std::string& l) {
            return l.find(c) != std::string::npos && is_name(cells_of(l, c).front());
          }))
        separator = c;
    Block block;
    for (const std::string& line : lines) block.push_back(cells_of(line, separator));
    return block;
  }

  /// The column with the most names of features; a block has at most one.
  [[nodiscard]] std::size_t column_of_names(const Block& block) const {
    std::size_t best = none_there, most = 0;
    for (std::size_t c = 0; c < width(block); ++c) {
      const auto names = static_cast<std::size_t>(std::count_if(
          block.begin(), block.end(), [&](const auto& row) { return c < row.size() && is_name(row[c]); }));
      if (names > most) best = c, most = names;
    }
    return best;
  }

  [[nodiscard]] bool is_number(const std::string& cell) const { return length_from_line(cell, m_.plan->inches).ok(); }

  /// A first row without any number and any name of a feature is a heading.
  [[nodiscard]] bool has_heading(const Block& block) const {
    return block.size() > 1 && std::none_of(block[0].begin(), block[0].end(),
                                            [&](const std::string& cell) { return is_number(cell) || is_name(cell); });
  }

  void in_order(const Block& block) {
    const std::size_t first = has_heading(block) ? 1 : 0;
    if (first == 1) preview_.notes.push_back(said("row 1, {}, is a heading", quote(block[0][0])));
    std::vector<std::size_t> places;
    const std::size_t here = find_line(lines_, m_.here);
    for (std::size_t i = here; i < lines_.size(); ++i)
      if (i == here || lines_[i].state == DueState::due) places.push_back(i);
    for (std::size_t row = first; row < block.size(); ++row) {
      PastedCell cell;
      cell.row = static_cast<int>(row + 1);
      cell.text = block[row].front();
      if (row - first >= places.size()) {
        if (cell.text.empty()) continue;
        cell.wrong = tr("no place is left for it; start further up, or ask for more readings");
      } else if (cell.text.empty()) {
        continue;
      } else {
        const DueLine& line = lines_[places[row - first]];
        put(cell, line.due.spot, line.key);
      }
      preview_.cells.push_back(std::move(cell));
    }
  }

  void by_name(const Block& block, std::size_t names) {
    const std::size_t first = has_heading(block) ? 1 : 0;
    if (first == 1) preview_.notes.emplace_back(tr("row 1 is a heading"));
    const std::size_t copies = first == 1 ? headed(block[0], "copy") : none_there;
    std::vector<std::size_t> columns;
    for (std::size_t c = 0; c < width(block); ++c) {
      if (c == names || c == copies) continue;
      if (const std::string why = why_no_readings(block, first, names, c); why.empty())
        columns.push_back(c);
      else
        preview_.notes.push_back(said("column {} {}", c + 1, why));
    }
    for (std::size_t row = first; row < block.size(); ++row) {
      const auto text = [&](std::size_t c) { return c < block[row].size() ? block[row][c] : std::string(); };
      for (const std::size_t c : columns) {
        if (text(c).empty()) continue;
        PastedCell cell;
        cell.row = static_cast<int>(row + 1), cell.column = static_cast<int>(c + 1);
        cell.text = text(c);
        const std::string copy = copies == none_there ? std::string() : text(copies);
        if (const std::size_t spot = spot_for(text(names), copy, cell); spot != none_there) {
          const MeasureSpot& s = m_.plan->spots[spot];
          put(cell, spot, {s.copy, s.feature.id, next_repeat(spot)});
          if (cell.wrong.empty()) given_[spot].push_back(cell.key->repeat);
        }
        preview_.cells.push_back(std::move(cell));
      }
    }
  }

  static std::size_t headed(const std::vector<std::string>& heading, std::string_view word) {
    for (std::size_t c = 0; c < heading.size(); ++c)
      if (folded(heading[c]) == word) return c;
    return none_there;
  }

  /// Why a column beside the names holds no readings; empty when it does.
  [[nodiscard]] std::string why_no_readings(const Block& block, std::size_t first, std::size_t names,
                                            std::size_t column) const {
    std::size_t numbers = 0, named_numbers = 0, drawn = 0;
    for (std::size_t row = first; row < block.size(); ++row) {
      if (column >= block[row].size()) continue;
      const auto mm = length_from_line(block[row][column], m_.plan->inches);
      if (!mm) continue;
      ++numbers;
      const auto named = names < block[row].size() ? ids_.find(folded(block[row][names])) : ids_.end();
      if (named == ids_.end()) continue;
      ++named_numbers;
      drawn += std::any_of(m_.plan->spots.begin(), m_.plan->spots.end(), [&](const MeasureSpot& s) {
        return s.feature.id == named->second && fixed(s.feature.nominal_mm, 2) == fixed(*mm, 2);
      });
    }
    if (numbers == 0) return tr("holds no readings");
    // Two readings that hit the drawn size to the hundredth happen; a whole column of them does not.
    return drawn == named_numbers && drawn > 2 ? tr("repeats the drawn sizes") : "";
  }

  /// The place that a row means; otherwise says in the cell what is wrong.
  std::size_t spot_for(const std::string& name, const std::string& copy, PastedCell& cell) const {
    const auto known = ids_.find(folded(name));
    if (known == ids_.end()) {
      std::vector<std::string_view> names;
      for (const auto& [key, id] : ids_) names.push_back(id);
      const auto guess = nearest(name, names);
      cell.wrong = name.empty()    ? tr("the row names no feature")
                   : guess.empty() ? said("{} is not on this plan", quote(name))
                                   : said("{} is not on this plan; did you mean {}?", quote(name), quote(guess));
      return none_there;
    }
    const std::size_t at = find_line(lines_, m_.here);
    const int in_hand = at == none_there ? 1 : m_.plan->spots[lines_[at].due.spot].copy;
    const auto number = parse_whole(copy);
    if (!copy.empty() && !number) {
      cell.wrong = said("copy {} is not a number", quote(copy));
      return none_there;
    }
    std::size_t only = none_there, found = 0;
    for (std::size_t i = 0; i < m_.plan->spots.size(); ++i) {
      const MeasureSpot& s = m_.plan->spots[i];
      if (s.feature.id != known->second) continue;
      if (s.part == none_there || s.copy == number.value_or(in_hand)) return with_room(i);
      only = i;
      ++found;
    }
    if (found == 1 && !number) return only;
    cell.wrong = number ? said("copy {} of {} is not on this plan", copy, known->second)
                        : said("{} is on several copies; go to the one that is meant first", known->second);
    return none_there;
  }

  /// A lying hole has two places of one name: the first that still has room.
  [[nodiscard]] std::size_t with_room(std::size_t spot) const {
    const MeasureSpot& first = m_.plan->spots[spot];
    for (std::size_t i = spot; i < m_.plan->spots.size(); ++i) {
      const MeasureSpot& s = m_.plan->spots[i];
      if (s.feature.id == first.feature.id && s.copy == first.copy && open_repeat(i)) return i;
    }
    return spot;
  }

  [[nodiscard]] std::optional<int> open_repeat(std::size_t spot) const {
    const auto given = given_.find(spot);
    for (const DueLine& line : lines_) {
      if (line.due.spot != spot || line.state != DueState::due) continue;
      if (given == given_.end() ||
          std::find(given->second.begin(), given->second.end(), line.key.repeat) == given->second.end())
        return line.key.repeat;
    }
    return std::nullopt;
  }

  [[nodiscard]] int next_repeat(std::size_t spot) const {
    return open_repeat(spot).value_or(free_repeat(preview_.next, spot));
  }

  void put(PastedCell& cell, std::size_t spot, const ReadingKey& key) {
    cell.key = key;
    cell.place = reading_words(m_, key);
    const auto mm = length_from_line(cell.text, m_.plan->inches);
    const auto problem = mm ? not_readable(m_, spot, *mm) : std::optional(mm.problems().front());
    if (problem) {
      cell.wrong = problem->what + "; " + problem->remedy;
      return;
    }
    cell.mm = *mm;
    if (const Taken* old = taken_at(m_, key))
      cell.remark = said("replaces {}", length_shown(old->reading.reading_mm, m_.plan->inches));
    const auto line = find_line(lines_, key);
    if (line == none_there) cell.remark = tr("beyond what is due");
    preview_.next = with_reading(preview_.next, {spot, key.repeat, 0}, key, *mm, "pasted");
  }

  void finish() {
    std::map<ReadingKey, std::string> doubts;
    for (const MeasureDoubt& doubt : doubts_of(preview_.next)) doubts[doubt.key] = doubt.sentence;
    for (PastedCell& cell : preview_.cells) {
      ++(cell.wrong.empty() ? preview_.good : preview_.wrong);
      if (!cell.mm || !cell.key || !doubts.contains(*cell.key)) continue;
      cell.remark += (cell.remark.empty() ? "" : "; ") + doubts[*cell.key];
    }
    const auto last = std::find_if(preview_.cells.rbegin(), preview_.cells.rend(),
                                   [](const PastedCell& c) { return c.mm.has_value(); });
    preview_.next.back.reset();
    if (last != preview_.cells.rend()) preview_.next.here = next_due(due_lines(preview_.next), last->key);
    preview_.summary = said_many("{} reading", "{} readings", preview_.good);
    if (preview_.wrong > 0)
      preview_.summary += ", " + said_many("{} cell cannot be taken", "{} cells cannot be taken", preview_.wrong);
  }
};

}  // namespace

Result<PastePreview> preview_paste(const Measuring& m, const std::string& text) { return Paster(m).run(text); }

Result<MeasureStep> take_paste(const PastePreview& preview, bool leave_out_wrong) {
  Problems problems;
  for (const PastedCell& cell : preview.cells)
    if (!cell.wrong.empty())
      problems.push_back({Code::bad_input, {tr("pasted block"), cell.row, cell.column}, cell.wrong, ""});
  if (!problems.empty() && !leave_out_wrong) return problems;
  if (preview.good == 0) return Problem{Code::usage, {}, tr("no cell can be taken"), tr("copy a column of readings")};
  const std::string count = said_many("{} reading", "{} readings", preview.good);
  return MeasureStep{preview.next, said("pasting {}", count), said("{} pasted.", count)};
}

bool is_readings_text(const std::string& text) {
  return text.substr(0, text.find_first_of("\r\n")).find("feature_id") != std::string::npos;
}

}  // namespace fitwright
