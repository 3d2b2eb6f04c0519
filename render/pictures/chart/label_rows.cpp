#include "render/pictures/chart/label_rows.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace leat::render {

namespace {

std::vector<std::size_t> order_of(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&values](std::size_t a, std::size_t b) {
    return values[a] < values[b];
  });
  return order;
}

class Rows {
 public:
  Rows(const std::vector<RowLabel>& labels, double left, double right, double gap)
      : labels_(labels), left_(left), right_(right), gap_(gap), placed_(labels.size()) {}

  std::vector<PlacedLabel> place() {
    std::vector<double> anchors;
    for (const RowLabel& label : labels_) {
      anchors.push_back(label.anchor);
    }
    // From the right: a text reaches to the right of its leader, over those placed before it.
    const std::vector<std::size_t> order = order_of(anchors);
    for (auto each = order.rbegin(); each != order.rend(); ++each) {
      place_one(*each);
      done_.push_back(*each);
    }
    return placed_;
  }

 private:
  /// A text held at a point, moved inside the edges where it would stand out.
  [[nodiscard]] PlacedLabel held_at(const RowLabel& label, double edge, TextHold hold) const {
    if (edge < left_ || label.width > right_ - left_) {
      return {left_, TextHold::Left, 0};
    }
    if (edge + label.width > right_) {
      return {right_ - label.width, TextHold::Right, 0};
    }
    return {edge, hold, 0};
  }

  void place_one(std::size_t index) {
    const RowLabel& label = labels_[index];
    const double half_gap = gap_ / 2.0;
    const std::array<PlacedLabel, 3> ways{
        held_at(label, label.anchor - label.width / 2.0, TextHold::Centre),
        held_at(label, label.anchor - half_gap, TextHold::Left),
        held_at(label, label.anchor - label.width + half_gap, TextHold::Right)};
    // A text over a leader still to come leaves the rows under it for that one's text.
    for (const bool keep_clear : {true, false}) {
      for (std::size_t row = 0; row <= labels_.size(); ++row) {
        for (const PlacedLabel& way : ways) {
          const std::size_t covered = leaders_to_come_under(index, way.left);
          if (fits(label, way.left, row) && (keep_clear ? covered == 0 : covered <= row)) {
            placed_[index] = {way.left, way.hold, row};
            return;
          }
        }
      }
    }
    placed_[index] = {ways[0].left, ways[0].hold, row_count(placed_)};
  }

  [[nodiscard]] std::size_t leaders_to_come_under(std::size_t index, double edge) const {
    std::size_t count = 0;
    for (std::size_t other = 0; other < labels_.size(); ++other) {
      const double anchor = labels_[other].anchor;
      const bool is_done = std::find(done_.begin(), done_.end(), other) != done_.end();
      const bool is_under =
          anchor > edge - gap_ / 2.0 && anchor < edge + labels_[index].width + gap_ / 2.0;
      count += other != index && !is_done && is_under ? 1 : 0;
    }
    return count;
  }

  [[nodiscard]] bool fits(const RowLabel& label, double edge, std::size_t row) const {
    const double end = edge + label.width;
    return std::all_of(done_.begin(), done_.end(), [&](std::size_t other) {
      const PlacedLabel& there = placed_[other];
      const double there_end = there.left + labels_[other].width;
      const double leader = labels_[other].anchor;
      if (there.row == row) {
        return there_end + gap_ <= edge || end + gap_ <= there.left;
      }
      if (there.row > row) {  // its leader passes my row
        return leader < edge - gap_ / 2.0 || leader > end + gap_ / 2.0;
      }
      return label.anchor < there.left - gap_ / 2.0 || label.anchor > there_end + gap_ / 2.0;
    });
  }

  const std::vector<RowLabel>& labels_;
  double left_;
  double right_;
  double gap_;
  std::vector<PlacedLabel> placed_;
  std::vector<std::size_t> done_;
};

}  // namespace

std::vector<PlacedLabel> placed_in_rows(const std::vector<RowLabel>& labels,
                                        double left,
                                        double right,
                                        double gap) {
  return Rows(labels, left, right, gap).place();
}

std::size_t row_count(const std::vector<PlacedLabel>& placed) {
  std::size_t rows = 0;
  for (const PlacedLabel& label : placed) {
    rows = std::max(rows, label.row + 1);
  }
  return rows;
}

std::vector<double> spread_apart(const std::vector<double>& wanted,
                                 double step,
                                 double lowest,
                                 double highest) {
  std::vector<double> heights = wanted;
  const std::vector<std::size_t> order = order_of(wanted);
  double least = lowest;
  for (const std::size_t index : order) {
    heights[index] = std::max(heights[index], least);
    least = heights[index] + step;
  }
  double most = highest;
  for (auto each = order.rbegin(); each != order.rend(); ++each) {
    heights[*each] = std::min(heights[*each], most);
    most = heights[*each] - step;
  }
  return heights;
}

}  // namespace leat::render
