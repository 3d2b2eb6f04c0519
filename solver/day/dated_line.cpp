#include "solver/day/dated_line.h"

#include <algorithm>
#include <cstddef>

namespace leat::solver {

void DatedLine::add(int day, double value) {
  days_.push_back(day);
  values_.push_back(value);
}

std::optional<double> DatedLine::on(int day) const {
  return at(day, 0);
}

std::optional<double> DatedLine::at(int day, int widest_gap_days) const {
  const auto next = std::lower_bound(days_.begin(), days_.end(), day);
  if (next == days_.end()) {
    return std::nullopt;
  }
  const auto after = static_cast<std::size_t>(next - days_.begin());
  if (*next == day) {
    return values_[after];
  }
  if (after == 0 || *next - days_[after - 1] > widest_gap_days) {
    return std::nullopt;
  }
  const double share = static_cast<double>(day - days_[after - 1]) / (*next - days_[after - 1]);
  return values_[after - 1] + share * (values_[after] - values_[after - 1]);
}

}  // namespace leat::solver
