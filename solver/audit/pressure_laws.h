// Summits and the pressures along a pipe, worked out again from heads that were walked.
#pragma once

#include "solver/audit/checker.h"

namespace leat::solver::audit {

class PressureLaws : private Checker {
 public:
  explicit PressureLaws(Case& audited) : Checker(audited) {}

  /// Every downward turn of the pipe's path is there, where the file has it.
  void check_summit_places(std::size_t i);
  /// Head, margin and parting at the summits that a walk along the running pipe passed.
  void check_summits(std::size_t i, const Walked& walked);
  /// Lowest and highest pressure of a full running pipe.
  void check_running(std::size_t i, const Walked& walked);
  /// The same of a still, full pipe under pressure: level water.
  void check_still(std::size_t i);

 private:
  /// Least and greatest pressure head at the points of a pipe.
  struct Extremes {
    double lowest_m = 1e300;
    double highest_m = -1e300;
    void add(double head_m) {
      lowest_m = std::min(lowest_m, head_m);
      highest_m = std::max(highest_m, head_m);
    }
  };

  void check_pressure(std::optional<double> said_Pa,
                      double found_m,
                      double tolerance_m,
                      std::size_t i,
                      AuditedFigure figure);
  void add_leg_points(std::size_t i, const LegSeen& seen, Extremes& extremes) const;
  [[nodiscard]] double pressure_head_m(double pressure_Pa) const;
};

}  // namespace leat::solver::audit
