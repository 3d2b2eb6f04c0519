// Friction with its slope against the two library calls that any explicit formula would need.
#include <array>
#include <cmath>
#include <cstddef>

#include <benchmark/benchmark.h>

#include "solver/hydraulics/friction.h"

namespace leat::bench {

namespace {

constexpr std::size_t count = 1024;

/// Flows of Reynolds 5e3 to 5e5 in a 26.6 mm pipe, spread evenly in the logarithm and shuffled by a
/// stride, so that no branch is foreseen from the last.
std::array<double, count> turbulent_flows() {
  std::array<double, count> flows = {};
  for (std::size_t i = 0; i < count; ++i) {
    const double share = static_cast<double>((i * 389) % count) / count;
    flows[i] = 1e-4 * std::pow(100.0, share);
  }
  return flows;
}

void friction(benchmark::State& bench) {
  const std::array<double, count> flows = turbulent_flows();
  const hydraulics::FrictionLaw law = hydraulics::darcy_weisbach(0.0266, 100.0, 7e-6, 1.1e-6);
  for (auto round : bench) {
    for (const double flow : flows) {
      const hydraulics::LossAndSlope loss = hydraulics::friction_loss(law, flow);
      benchmark::DoNotOptimize(loss.loss_m + loss.slope_s_m2);
    }
  }
}

void log10_and_pow(benchmark::State& bench) {
  const std::array<double, count> flows = turbulent_flows();
  double exponent = 0.9;
  for (auto round : bench) {
    benchmark::DoNotOptimize(exponent);
    for (const double flow : flows) {
      benchmark::DoNotOptimize(std::log10(flow) + std::pow(flow, exponent));
    }
  }
}

BENCHMARK(friction)->Name("friction/turbulent");
BENCHMARK(log10_and_pow)->Name("friction/log10 and pow");

}  // namespace

}  // namespace leat::bench
