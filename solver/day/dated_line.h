// Values on dates, joined by straight lines.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "model/farm/date.h"

namespace leat::solver {

/// Measured values in the order of their days (`model::day_number`).
class DatedLine {
 public:
  DatedLine() = default;
  /// The values of a record in SI; its dates rise, as the loader has seen to.
  template <class Value>
  explicit DatedLine(const std::vector<model::Dated<Value>>& record) {
    for (const model::Dated<Value>& measured : record) {
      add(model::day_number(measured.on), measured.value.in_si());
    }
  }

  /// Adds a value on a later day than all before it.
  void add(int day, double value);

  [[nodiscard]] bool empty() const { return days_.empty(); }
  [[nodiscard]] const std::vector<int>& days() const { return days_; }

  /// The value of that very day.
  [[nodiscard]] std::optional<double> on(int day) const;

  /// The value of the day, or the straight line between the nearest days before and after it where
  /// they are at most `widest_gap_days` apart. Empty before the first day and after the last.
  [[nodiscard]] std::optional<double> at(
      int day, int widest_gap_days = std::numeric_limits<int>::max()) const;

 private:
  std::vector<int> days_;
  std::vector<double> values_;
};

}  // namespace leat::solver
