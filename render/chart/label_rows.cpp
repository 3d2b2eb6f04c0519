#include "render/chart/label_rows.h"

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
  void place_one(std::size_t index) {
    const RowLabel& label = labels_[index];
    const auto held = [this, &label](double edge) {
      return std::max(left_, std::min(edge, right_ - label.width));
    };
    const std::array<double, 3> edges{held(label.anchor - label.width / 2.0),
                                      held(label.anchor - gap_ / 2.0),
                                      held(label.anchor - label.width + gap_ / 2.0)};
    // A text over a leader still to come would push that one's text a row further out.
    for (const bool keep_clear : {true, false}) {
      for (std::size_t row = 0; row <= done_.size(); ++row) {
        for (const double edge : edges) {
          if (fits(label, edge, row) && !(keep_clear && covers_one_to_come(index, edge))) {
            placed_[index] = {edge, row};
            return;
          }
        }
      }
    }
    placed_[index] = {edges[0], row_count(placed_)};
  }

  [[nodiscard]] bool covers_one_to_come(std::size_t index, double edge) const {
    for (std::size_t other = 0; other < labels_.size(); ++other) {
      const double anchor = labels_[other].anchor;
      const bool is_done = std::find(done_.begin(), done_.end(), other) != done_.end();
      if (other != index && !is_done && anchor > edge - gap_ / 2.0 &&
          anchor < edge + labels_[index].width + gap_ / 2.0) {
        return true;
      }
    }
    return false;
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
