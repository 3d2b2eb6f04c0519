// Compares the slope a loss law states with central differences of the loss it states.
#pragma once

#include <cmath>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "solver/hydraulics/friction.h"

namespace leat::test_support {

using LossLaw = std::function<hydraulics::LossAndSlope(double flow_m3_s)>;

/// Which flows to test. Both signs of each are taken, and zero flow besides.
struct DerivativeCheck {
  double least_flow_m3_s = 1e-9;
  double greatest_flow_m3_s = 1e-2;
  int flows_per_decade = 40;
  /// Flows at which the law changes its form; tested at, just below and just above.
  std::vector<double> borders_m3_s;
  /// Allowed difference as a share of the slope. The step is a millionth of the flow, so that the
  /// difference itself is good to about 1e-9, and to about 1e-5 where the curvature jumps.
  double tolerance = 3e-5;
};

/// A flow where the stated slope is not the slope of the stated loss.
struct DerivativeFault {
  double flow_m3_s = 0.0;
  double stated_slope_s_m2 = 0.0;
  double measured_slope_s_m2 = 0.0;
};

[[nodiscard]] inline double central_difference(const LossLaw& law, double flow, double step) {
  // The step as it was really taken, after rounding.
  const double above = flow + step;
  const double below = flow - step;
  return (law(above).loss_m - law(below).loss_m) / (above - below);
}

/// All flows of the check with both signs, without zero.
[[nodiscard]] inline std::vector<double> flows_of(const DerivativeCheck& check) {
  std::vector<double> flows;
  const double decades = std::log10(check.greatest_flow_m3_s / check.least_flow_m3_s);
  const int count = static_cast<int>(std::ceil(decades * check.flows_per_decade));
  for (int i = 0; i <= count; ++i) {
    flows.push_back(check.least_flow_m3_s * std::pow(10.0, decades * i / count));
  }
  for (const double border : check.borders_m3_s) {
    for (const double offset : {-1e-3, -2e-6, -5e-7, 0.0, 5e-7, 2e-6, 1e-3}) {
      flows.push_back(border * (1.0 + offset));
    }
  }
  const std::size_t positive = flows.size();
  for (std::size_t i = 0; i < positive; ++i) {
    flows.push_back(-flows[i]);
  }
  return flows;
}

/// At zero the difference spans both signs, and a law such as q|q|^0.852 has no curvature there to
/// bound the error; but the error must then die away with the step.
[[nodiscard]] inline std::vector<DerivativeFault> faults_at_rest(const LossLaw& law,
                                                                 const DerivativeCheck& check) {
  const double stated = law(0.0).slope_s_m2;
  const double coarse = central_difference(law, 0.0, check.least_flow_m3_s);
  const double fine = central_difference(law, 0.0, check.least_flow_m3_s * 1e-3);
  const double allowed = check.tolerance * std::abs(stated) + 0.1 * std::abs(coarse - stated);
  if (law(0.0).loss_m == 0.0 && std::abs(fine - stated) <= allowed) {
    return {};
  }
  return {{0.0, stated, fine}};
}

/// Every flow of the check at which slope and loss disagree; none for a sound law.
[[nodiscard]] inline std::vector<DerivativeFault> derivative_faults(const LossLaw& law,
                                                                    const DerivativeCheck& check) {
  std::vector<DerivativeFault> faults = faults_at_rest(law, check);
  for (const double flow : flows_of(check)) {
    const double stated = law(flow).slope_s_m2;
    const double measured = central_difference(law, flow, 1e-6 * std::abs(flow));
    if (!(std::abs(measured - stated) <= check.tolerance * std::abs(measured))) {
      faults.push_back({flow, stated, measured});
    }
  }
  return faults;
}

/// The faults as text for a failure message, a line each, at most ten.
[[nodiscard]] inline std::string text_of(const std::vector<DerivativeFault>& faults) {
  std::string text;
  for (std::size_t i = 0; i < faults.size() && i < 10; ++i) {
    const DerivativeFault& fault = faults[i];
    text += "flow " + std::to_string(fault.flow_m3_s * 1e3) + " L/s: stated " +
            std::to_string(fault.stated_slope_s_m2) + ", measured " +
            std::to_string(fault.measured_slope_s_m2) + " s/m2\n";
  }
  return text;
}

}  // namespace leat::test_support
