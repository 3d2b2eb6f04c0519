// The derivative check is a ruler; here it is held against laws known to be wrong.
#include "tests/support/derivative_check.h"

#include <cmath>

#include <catch2/catch.hpp>

namespace leat::test_support {
namespace {

using hydraulics::LossAndSlope;

constexpr double resistance = 1e7;

LossAndSlope sound_law(double flow) {
  return {resistance * flow * std::abs(flow), 2.0 * resistance * std::abs(flow)};
}

TEST_CASE("the derivative check finds nothing wrong with a sound law") {
  const auto faults = derivative_faults(sound_law, {});
  INFO(text_of(faults));
  CHECK(faults.empty());
}

TEST_CASE("the derivative check reports a slope that is a thousandth too large") {
  const auto law = [](double flow) {
    return LossAndSlope{sound_law(flow).loss_m, 1.001 * sound_law(flow).slope_s_m2};
  };
  const DerivativeCheck check;
  CHECK(derivative_faults(law, check).size() == flows_of(check).size());
}

TEST_CASE("the derivative check reports a loss carried evenly instead of oddly past zero flow") {
  const auto law = [](double flow) {
    return LossAndSlope{resistance * flow * flow, 2.0 * resistance * std::abs(flow)};
  };
  const DerivativeCheck check;
  const auto faults = derivative_faults(law, check);
  CHECK(faults.size() == flows_of(check).size() / 2);
  for (const DerivativeFault& fault : faults) {
    CHECK(fault.flow_m3_s < 0.0);
  }
}

TEST_CASE("the derivative check reports a laminar law said to be flat at rest") {
  const auto law = [](double flow) { return LossAndSlope{1e3 * flow, flow == 0.0 ? 0.0 : 1e3}; };
  const auto faults = derivative_faults(law, {});
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().flow_m3_s == 0.0);
}

TEST_CASE("the derivative check reports a step in the loss at a border it was told of") {
  constexpr double border = 3.1234e-5;
  const auto law = [](double flow) {
    const LossAndSlope sound = sound_law(flow);
    const double step = std::abs(flow) > border ? 1e-6 * sound.loss_m : 0.0;
    return LossAndSlope{sound.loss_m + step, sound.slope_s_m2};
  };
  DerivativeCheck check;
  check.borders_m3_s = {border};
  CHECK_FALSE(derivative_faults(law, check).empty());
}

TEST_CASE("the derivative check reports a slope that is not a number") {
  const auto law = [](double flow) { return LossAndSlope{sound_law(flow).loss_m, std::nan("")}; };
  const DerivativeCheck check;
  CHECK(derivative_faults(law, check).size() == flows_of(check).size() + 1);
}

}  // namespace
}  // namespace leat::test_support
