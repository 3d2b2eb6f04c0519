#include "solver/findings/flag_list.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace leat::solver {

namespace {

/// Two load cases differ by more than the solver's rounding, or the first one stays.
constexpr double least_difference = 1e-6;

bool is_worse(const Flag& flag, const Flag& kept, Worse worse) {
  if (flag.severity != kept.severity) {
    return flag.severity < kept.severity;
  }
  if (!flag.value || !kept.value) {
    return false;
  }
  const double more =
      worse == Worse::Higher ? *flag.value - *kept.value : *kept.value - *flag.value;
  return more > least_difference * std::max(1.0, std::abs(*kept.value));
}

}  // namespace

void FlagList::raise(Flag flag, Worse worse) {
  const auto same = std::find_if(flags_.begin(), flags_.end(), [&](const Flag& other) {
    return other.code == flag.code && other.where == flag.where;
  });
  if (same == flags_.end()) {
    flags_.push_back(std::move(flag));
  } else if (is_worse(flag, *same, worse)) {
    *same = std::move(flag);
  }
}

std::vector<Flag> FlagList::sorted() && {
  std::stable_sort(flags_.begin(), flags_.end(), [](const Flag& a, const Flag& b) {
    return a.severity < b.severity;
  });
  return std::move(flags_);
}

}  // namespace leat::solver
