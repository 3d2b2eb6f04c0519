// "Did you mean": the known word nearest to a misspelt one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace leat::model {

/// Edits (insert, delete, replace, swap of neighbours) that turn one text into the other, letters
/// compared without case.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate nearest to `word`, if it is near enough to be a likely slip (at most a third of
/// the word's letters, at least 1, at most 3 edits).
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view word,
                                                      const std::vector<std::string>& candidates);

}  // namespace leat::model
