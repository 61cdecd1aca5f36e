#pragma once
// Plain text laid out for a terminal: wrapped paragraphs and aligned columns.

#include <string>
#include <string_view>
#include <vector>

namespace fitwright {

/// Width that text is laid out for: it fits a terminal of 80 with room for the prompt of a pager.
inline constexpr std::size_t page_width = 78;

/// `text` broken at blanks into lines of at most `width` characters; the first line starts with `first`, the others
/// with `rest`. A number stays with its unit, and a word longer than the line stands alone. Ends with a line feed.
std::string paragraph(std::string_view text, std::string_view first, std::string_view rest,
                      std::size_t width = page_width);

enum class Align { left, right };

/// Columns of text, aligned, two blanks apart; no blanks at line ends. Rows may be shorter than `align`.
/// `indent` stands before each row. Each row ends with a line feed.
std::string columns(const std::vector<std::vector<std::string>>& rows, const std::vector<Align>& align,
                    std::string_view indent = "  ");

}  // namespace fitwright
