#pragma once
// Words for messages: quoting what was found, guessing what was meant, and counting characters as an editor does.

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace fitwright {

/// `text` between double quotes, for a message: control characters and bytes that are not UTF-8 become '?', and what
/// exceeds `most` characters becomes "...".
std::string quote(std::string_view text, std::size_t most = 40);

/// The candidate nearest to `word` by edit distance (insertions, deletions, replacements, swaps of neighbours; case
/// counts for nothing), or empty when none is near enough to have been meant (more than a third of the word, or of
/// the candidate, would have to change).
std::string_view nearest(std::string_view word, std::span<const std::string_view> candidates);

/// "a, b or c".
std::string alternatives(std::span<const std::string_view> words);

/// Offset of the first byte that is not part of well-formed UTF-8 (RFC 3629), or npos.
std::size_t invalid_utf8_at(std::string_view text);

/// Number of characters (code points) of `text`; a byte that is not UTF-8 counts as one.
std::size_t characters(std::string_view text);

/// `text` without blanks (space, tab) at its ends.
std::string_view without_blanks(std::string_view text);

}  // namespace fitwright
