#include "solver/hydraulics/orifice.h"

#include <string>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "tests/support/derivative_check.h"

namespace leat::hydraulics {
namespace {

struct OrificeRow {
  std::string source;
  double bore_m;
  double head_m;
  double flow_L_s;
  double margin_L_s;  // half of the last printed digit
};

TEST_CASE("a sharp orifice passes the published flow", "[reference]") {
  const std::string source = "reference E8.1, sharp orifice Cd 0.61, computed";
  const auto row = GENERATE_COPY(values<OrificeRow>({
      {source, 0.0127, 1.0, 0.34222, 6e-6},
      {source, 0.025, 1.0, 1.32610, 6e-6},
      {source, 0.0254, 0.3048, 0.75574, 6e-6},
  }));
  CAPTURE(row.source, row.bore_m, row.head_m);
  const OrificeLaw law = orifice(row.bore_m, 0.61);
  const double flow_m3_s = orifice_flow(law, row.head_m);
  CHECK(flow_m3_s * 1e3 == Approx(row.flow_L_s).epsilon(1e-4));
  CHECK(flow_m3_s * 1e3 == Approx(row.flow_L_s).epsilon(0.0).margin(row.margin_L_s));
  CHECK(orifice_loss(law, flow_m3_s).loss_m == Approx(row.head_m).epsilon(1e-12));
}

TEST_CASE("a sharp orifice passes the published gallons a minute", "[reference]") {
  const std::string source = "reference E8.1, figures in gal/min, computed";
  CAPTURE(source);
  const Flow half_inch = cubic_metres_per_second(orifice_flow(orifice(0.0127, 0.61), 1.0));
  CHECK(in_us_gallons_per_minute(half_inch) == Approx(5.424).epsilon(0.0).margin(0.0006));
  const Flow one_inch = cubic_metres_per_second(orifice_flow(orifice(0.0254, 0.61), 0.3048));
  CHECK(in_us_gallons_per_minute(one_inch) == Approx(11.98).epsilon(0.0).margin(0.006));
}

TEST_CASE("a valve passes what its maker says at the pressure he says it for") {
  const Flow stated = us_gallons_per_minute(8.0);
  const OrificeLaw law = orifice_passing(in_cubic_metres_per_second(stated), in_pascals(psi(20.0)));
  // 1 psi is 2.306658726 ft of water of 1000 kg/m3 (reference section L, computed).
  const double head_m = in_metres(feet(20.0 * 2.306658726));
  CHECK(orifice_flow(law, head_m) == Approx(in_cubic_metres_per_second(stated)).epsilon(1e-9));
  CHECK(orifice_flow(law, head_m / 4.0) ==
        Approx(in_cubic_metres_per_second(us_gallons_per_minute(4.0))).epsilon(1e-9));
}

TEST_CASE("nothing leaves an orifice without head") {
  const OrificeLaw law = orifice(0.0127, 0.61);
  CHECK(orifice_flow(law, 0.0) == 0.0);
  CHECK(orifice_flow(law, -1.0) == 0.0);
}

TEST_CASE("an orifice's head is odd in the flow and its slope exact", "[law]") {
  const OrificeLaw law = orifice(0.0127, 0.61);
  CHECK(orifice_loss(law, -3e-4).loss_m == -orifice_loss(law, 3e-4).loss_m);
  CHECK(orifice_loss(law, -3e-4).slope_s_m2 == orifice_loss(law, 3e-4).slope_s_m2);
  const auto faults = test_support::derivative_faults(
      [&law](double flow_m3_s) { return orifice_loss(law, flow_m3_s); }, {});
  INFO(test_support::text_of(faults));
  CHECK(faults.empty());
}

}  // namespace
}  // namespace leat::hydraulics
