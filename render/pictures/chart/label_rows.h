// Texts in rows beside a drawing, each joined to its point by an upright leader: which row, and to
// which side of its leader, so that no text lies on another or on a leader.
#pragma once

#include <cstddef>
#include <vector>

namespace leat::render {

/// A text to place: where its leader stands and how wide it is, both in the drawing's own unit.
struct RowLabel {
  double anchor = 0.0;
  double width = 0.0;
};

/// Which point of a text is fixed: widths are estimates, and the error should fall where it does no
/// harm.
enum class TextHold { Left, Centre, Right };

/// Where a text went: its left edge, how it is held, and its row, 0 being the nearest to the
/// drawing.
struct PlacedLabel {
  double left = 0.0;
  TextHold hold = TextHold::Left;
  std::size_t row = 0;
};

/// Places every text between `left` and `right` (one wider than that begins at `left`), with at
/// least `gap` between two in a row. In the order given.
[[nodiscard]] std::vector<PlacedLabel> placed_in_rows(const std::vector<RowLabel>& labels,
                                                      double left,
                                                      double right,
                                                      double gap);

/// How many rows the texts take.
[[nodiscard]] std::size_t row_count(const std::vector<PlacedLabel>& placed);

/// Heights of texts beside lines' ends: as near to those wanted as may be, in their order, at least
/// `step` apart and between `lowest` and `highest`.
[[nodiscard]] std::vector<double> spread_apart(const std::vector<double>& wanted,
                                               double step,
                                               double lowest,
                                               double highest);

}  // namespace leat::render
