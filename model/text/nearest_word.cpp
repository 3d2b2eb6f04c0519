#include "model/text/nearest_word.h"

#include <algorithm>
#include <cstddef>

namespace leat::model {
namespace {

/// Longer words get no suggestion: no word of a farm file is near them, and the work grows with
/// the product of the lengths.
constexpr std::size_t longest_word = 100;

char lower_case(char letter) {
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

bool same_letter(char a, char b) {
  return lower_case(a) == lower_case(b);
}

std::size_t difference(std::size_t a, std::size_t b) {
  return a > b ? a - b : b - a;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // Three rows of the usual table: a swap of neighbours looks back two.
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) {
    last[j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (same_letter(a[i - 1], b[j - 1]) ? 0U : 1U);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      const bool swapped =
          i > 1 && j > 1 && same_letter(a[i - 1], b[j - 2]) && same_letter(a[i - 2], b[j - 1]);
      if (swapped) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    before_last.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& candidates) {
  if (word.empty() || word.size() > longest_word) {
    return std::nullopt;
  }
  const std::size_t most_edits = std::clamp<std::size_t>(word.size() / 3, 1, 3);
  std::size_t fewest = most_edits + 1;
  std::optional<std::string> nearest;
  for (const std::string& candidate : candidates) {
    if (difference(word.size(), candidate.size()) > most_edits) {
      continue;
    }
    const std::size_t edits = edit_distance(word, candidate);
    // A word of one letter has nothing in common with another of one letter.
    if (edits < fewest && edits < word.size()) {
      fewest = edits;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace leat::model
