// The findings of a farm: one a code and place, the worst of all load cases.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/answer/finding.h"

namespace leat::solver {

/// A figure with its limit, for `made_finding`.
struct Measured {
  std::optional<double> value;
  std::optional<double> limit;
  Measure measure = Measure::Ratio;
};

[[nodiscard]] Finding made_finding(Code code,
                                   Severity severity,
                                   const std::string& where,
                                   LoadCase load_case,
                                   const Measured& measured,
                                   Detail detail);

/// Which figure of two is the worse one.
enum class Worse { Higher, Lower };

class FindingList {
 public:
  /// Adds a finding, unless one of that code and place is there that is as bad or worse: by
  /// severity, then by its figure. The figures of one code are compared as `worse` says.
  void raise(Finding finding, Worse worse = Worse::Higher);

  /// The findings, worst first, and of those as bad as each other in the order raised.
  [[nodiscard]] std::vector<Finding> sorted() &&;

 private:
  std::vector<Finding> findings_;
};

}  // namespace leat::solver
