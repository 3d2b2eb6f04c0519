#include "solver/prime/filling_rate.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/quantity/quantity.h"
#include "solver/answer/steady_answer.h"

namespace leat::solver {

FillingRate filling_rate(const PrimeCourse& course,
                         std::optional<double> asked_m3_s,
                         double inflow_m3_s) {
  const double area_m2 = course.narrowest_area_m2;
  FillingRate rate;
  rate.fastest_m3_s = fastest_filling_m_s * area_m2;
  rate.pump_m3_s = std::min(asked_m3_s.value_or(rate.fastest_m3_s), rate.fastest_m3_s);
  if (!course.fills_itself()) {
    const double bore_m = std::sqrt(4.0 * area_m2 / std::numbers::pi);
    const double bubble_m_s = rising_bubble * std::sqrt(gravity_m_s2 * bore_m);
    rate.fastest_m3_s = std::min(rate.fastest_m3_s, bubble_m_s * area_m2 * share_for_air);
  }
  rate.fill_m3_s = std::min(rate.pump_m3_s, rate.fastest_m3_s);
  if (course.fills_itself() && inflow_m3_s > still_flow_m3_s) {
    rate.fill_m3_s = std::min(rate.fill_m3_s, inflow_m3_s);
  }
  rate.fill_s = course.volume_m3 / rate.fill_m3_s;
  return rate;
}

}  // namespace leat::solver
