// From a farm to numbers: which edge a thing becomes, and whether every edge's slope is the slope
// of its loss.
#include "solver/network/network_of_farm.h"

#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using nodal::EdgeKind;

std::unique_ptr<solver::FarmNetwork> network_for(const model::Farm& farm,
                                                 const solver::NetworkOptions& options = {}) {
  return solver::network_of(farm, solver::surroundings_of(farm, options.month), options);
}

const char* const tangled = R"(
farm: tangled
springs: {up: {overflow: 100 m, yield: 0.4 L/s}}
creeks: {ford: {surface: 95 m}}
ponds: {house: {surface: 70 m}}
tanks: {hill: {floor: 88 m, full: 2 m, depth: settle, float inlet: 1.5 m}}
troughs: {north: {float: 80 m, need: 0.1 L/s, seat: 6 mm}, idle: {float: 78 m, need: 0 L/s}}
outlets: {garden: {level: 75 m, opening: 9 mm}, open: {level: 74 m}}
tees: {gate: 85 m, low: 76 m}
pipes:
  main: {from: up, to: hill, size: 1 in SIDR 15, path: [[0 m, 99.7 m], [40 m, 98 m], [60 m, 90 m]],
         fittings: [hinged foot valve]}
  down: {from: hill, to: gate, size: 1 in SIDR 15, length: 50 m, one-way: yes}
  creek: {from: ford, to: gate, size: {bore: 30 mm, friction factor: 0.03}, length: 80 m}
  to north: {from: gate, to: north, size: 3/4 in SIDR 15, length: 120 m}
  to low: {from: gate, to: low, size: {bore: 25 mm, C: 140}, length: 60 m, fittings: [spring check]}
  to idle: {from: low, to: idle, size: 3/4 in SIDR 15, length: 10 m}
  to garden: {from: low, to: garden, size: 3/4 in SIDR 15, length: 20 m}
  to open: {from: low, to: open, size: 3/4 in SIDR 15, length: 20 m}
  to pond: {from: low, to: house, size: 3/4 in SIDR 15, length: 90 m, ends: 72 m}
)";

}  // namespace

TEST_CASE("every edge of a farm states the slope of its own loss") {
  const model::Farm farm = farm_of(tangled);
  const auto network = network_for(farm);
  int checked = 0;
  for (std::size_t i = 0; i < network->problem.edges.size(); ++i) {
    if (!network->problem.edges[i].has_loss) {
      continue;
    }
    for (double flow = 1.3e-7; flow < 5e-3; flow *= 1.7) {
      for (const double signed_flow : {flow, -flow}) {
        const double step = 1e-6 * flow;
        const double above = network->problem.loss(i, signed_flow + step).loss_m;
        const double below = network->problem.loss(i, signed_flow - step).loss_m;
        const double slope = network->problem.loss(i, signed_flow).slope_s_m2;
        CAPTURE(i, signed_flow);
        REQUIRE(slope == Approx((above - below) / (2.0 * step)).epsilon(1e-4));
        REQUIRE(slope >= hydraulics::least_slope_s_m2 * (1.0 - 1e-9));
        ++checked;
      }
    }
    CHECK(network->problem.loss(i, 0.0).loss_m == 0.0);
  }
  CHECK(checked > 300);
}

TEST_CASE("each kind of end becomes the edge that limits it") {
  const model::Farm farm = farm_of(tangled);
  const auto network = network_for(farm);
  const auto& edges = network->problem.edges;
  const auto place = [&](const char* name) -> const solver::PlaceNode& {
    return network->places[place_named(farm, name).value()];
  };
  const nodal::Edge& supply = edges[place("up").supply_edge];
  CHECK(supply.kind == EdgeKind::LimitedSupply);
  CHECK(supply.limit_m3_s == Approx(litres(0.4)));
  CHECK(supply.level_m == Approx(100.0));
  CHECK(edges[place("north").discharge_edge].kind == EdgeKind::CappedDischarge);
  CHECK(edges[place("idle").discharge_edge].closed);
  CHECK(edges[place("garden").discharge_edge].kind == EdgeKind::Discharge);
  CHECK(edges[place("hill").spill_edge].level_m == Approx(90.0));
  CHECK(network->problem.nodes[place("ford").node].fixed_head_m == 95.0);
  CHECK_FALSE(network->problem.nodes[place("hill").node].fixed_head_m);
  const nodal::Edge& inlet = edges[network->pipes[0].to_end_edge];
  CHECK(inlet.kind == EdgeKind::HeldInlet);
  CHECK(inlet.shut_level_m == Approx(89.5));
  const nodal::Edge& leaves_tank = edges[network->pipes[1].from_end_edge];
  CHECK(leaves_tank.kind == EdgeKind::Crest);
  const nodal::Edge& free_end = edges[network->pipes[8].to_end_edge];
  CHECK(free_end.kind == EdgeKind::Discharge);
  CHECK(free_end.down == nodal::outside);
  CHECK(free_end.level_m == Approx(72.0));
}

TEST_CASE("with every float wide open no need caps a trough") {
  const model::Farm farm = farm_of(tangled);
  solver::NetworkOptions wide;
  wide.load_case = solver::LoadCase::Wide;
  const auto network = network_for(farm, wide);
  for (const char* name : {"north", "idle"}) {
    const auto& node = network->places[place_named(farm, name).value()];
    CAPTURE(name);
    CHECK(network->problem.edges[node.discharge_edge].kind == EdgeKind::Discharge);
    CHECK_FALSE(network->problem.edges[node.discharge_edge].closed);
  }
}

TEST_CASE("only the float that hangs open loses its cap") {
  const model::Farm farm = farm_of(tangled);
  solver::NetworkOptions broken;
  broken.broken_trough = place_named(farm, "idle").value();
  const auto network = network_for(farm, broken);
  const auto kind_at = [&](const char* name) {
    return network->problem.edges[network->places[place_named(farm, name).value()].discharge_edge]
        .kind;
  };
  CHECK(kind_at("idle") == EdgeKind::Discharge);
  CHECK(kind_at("north") == EdgeKind::CappedDischarge);
}

TEST_CASE("the air of the altitude and the water of the month surround the farm") {
  const model::Farm farm = farm_of(R"(
farm: high
site: {altitude: 1500 m, water: {Jan: 5 C, Jul: 25 C}}
creeks: {c: {surface: 100 m}, d: {surface: 90 m}}
pipes: {line: {from: c, to: d, size: 1 in SIDR 15, length: 60 m}}
)");
  // D2 and D1 of reference-values.md (US Standard Atmosphere 1976, IAPWS): C.
  const solver::Surroundings january = solver::surroundings_of(farm, model::Month::Jan);
  const solver::Surroundings july = solver::surroundings_of(farm, model::Month::Jul);
  CHECK(january.air_pressure_Pa == Approx(84559.7).epsilon(1e-4));
  CHECK(january.water.vapour_pressure_Pa == Approx(872.6).epsilon(2e-3));
  CHECK(july.water.vapour_pressure_Pa == Approx(3169.8).epsilon(2e-3));
  CHECK(july.head_of_pressure_m(july.pressure_of_head_Pa(7.0)) == Approx(7.0));
}

}  // namespace leat::tests
