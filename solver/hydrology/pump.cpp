#include "solver/hydrology/pump.h"

#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <utility>

#include "model/quantity/quantity.h"

namespace leat::hydrology {

PumpCurve::PumpCurve(std::vector<TablePoint> points) : points_(std::move(points)) {
  if (points_.size() < 2) {
    throw std::invalid_argument("a pump curve has two points or more");
  }
  if (!(points_.front().x >= 0.0)) {
    throw std::invalid_argument("a pump curve begins at no flow or above");
  }
  if (!std::isfinite(points_.front().y) || !std::isfinite(points_.back().x) ||
      !std::isfinite(points_.back().y)) {
    throw std::invalid_argument("a pump curve's flows and heads are finite");
  }
  for (std::size_t i = 1; i < points_.size(); ++i) {
    if (!(points_[i - 1].x < points_[i].x) || !(points_[i - 1].y > points_[i].y)) {
      throw std::invalid_argument("a pump curve's flows rise and its heads fall");
    }
  }
  for (auto point = points_.rbegin(); point != points_.rend(); ++point) {
    by_head_.push_back({.x = point->y, .y = point->x});
  }
}

TableValue PumpCurve::head_m(double flow_m3_s) const {
  return straight_table_at(points_, flow_m3_s);
}

double PumpCurve::flow_m3_s(double head_m) const {
  return straight_table_at(by_head_, head_m).value;
}

double pump_power_W(double flow_m3_s, double head_m, double efficiency, double density_kg_m3) {
  return density_kg_m3 * gravity_m_s2 * flow_m3_s * head_m / efficiency;
}

double pump_energy_kWh(double volume_m3, double head_m, double efficiency, double density_kg_m3) {
  constexpr double joules_per_kWh = 3.6e6;
  // A cubic metre a second for one second draws as many joules as it draws watts.
  return pump_power_W(volume_m3, head_m, efficiency, density_kg_m3) / joules_per_kWh;
}

}  // namespace leat::hydrology
