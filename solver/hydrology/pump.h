// A pump by its maker's curve.
#pragma once

#include <vector>

#include "solver/hydrology/straight_table.h"

namespace leat::hydrology {

/// Head by flow, straight between the maker's points and falling strictly. Beyond the last point
/// (run-out) and below the first the end pieces go on, so that a solver may pass there on its way;
/// an answer beyond run-out is to be flagged: no maker vouches for it.
class PumpCurve {
 public:
  /// Points of flow [m3/s] (x) and head [m] (y). Throws std::invalid_argument unless there are two
  /// or more, all are finite, the first flow is not negative, flows rise and heads fall from point
  /// to point.
  explicit PumpCurve(std::vector<TablePoint> points);

  /// Head [m] and its slope [s/m2] at a flow [m3/s].
  [[nodiscard]] TableValue head_m(double flow_m3_s) const;
  /// The flow [m3/s] at which the pump makes that head; negative above shut-off.
  [[nodiscard]] double flow_m3_s(double head_m) const;
  /// Head at no flow [m].
  [[nodiscard]] double shut_off_head_m() const { return head_m(0.0).value; }
  /// The last flow the maker states [m3/s].
  [[nodiscard]] double run_out_flow_m3_s() const { return points_.back().x; }

 private:
  std::vector<TablePoint> points_;
  std::vector<TablePoint> by_head_;  // the same turned over
};

/// Power drawn [W] to give a flow a head, by the efficiency of pump and motor together (above 0, to
/// 1): density g q H / efficiency.
[[nodiscard]] double pump_power_W(double flow_m3_s,
                                  double head_m,
                                  double efficiency,
                                  double density_kg_m3);

/// Energy drawn [kWh] to give a volume a head, efficiency as above.
[[nodiscard]] double pump_energy_kWh(double volume_m3,
                                     double head_m,
                                     double efficiency,
                                     double density_kg_m3);

}  // namespace leat::hydrology
