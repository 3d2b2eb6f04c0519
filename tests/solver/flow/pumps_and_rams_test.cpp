// Pumps and rams on a farm: what they lift, what stands beyond them, what runs to waste.
#include <algorithm>
#include <cmath>
#include <random>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "render/words/audit.h"
#include "solver/audit/audit.h"
#include "solver/flow/static_heads.h"
#include "tests/support/farm_text.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

using solver::LifterAnswer;
using solver::LoadCase;

namespace {

constexpr double gravity = 9.80665;
constexpr double pi = 3.14159265358979;

/// Loss over flow squared [s2/m5] of a pipe with a fixed friction factor and K in all.
double per_square(double length_m, double bore_m, double factor, double k) {
  const double area = pi * bore_m * bore_m / 4.0;
  return (factor * length_m / bore_m + k) / (2.0 * gravity * area * area);
}

const LifterAnswer& lifter(const SolvedFarm& farm, const std::string& name) {
  for (const LifterAnswer& found : farm.answer.lifters) {
    if (found.name == name) {
      return found;
    }
  }
  throw std::out_of_range("no pump or ram is named " + name);
}

void check_audit(const SolvedFarm& farm) {
  const solver::AuditReport report = solver::audit_answer(farm.farm, farm.answer);
  INFO(render::audit_sentence(report));
  CHECK(report.holds());
}

std::string pumped_farm(double upper_m, const std::string& more = "") {
  return fmt::format(R"(farm: Pumped
creeks: {{low: {{surface: 0 m}}}}
ponds: {{high: {{surface: {} m}}}}
tees: {{outlet side: 0 m}}
pipes:
  rising: {{from: outlet side, to: high, length: 100 m, size: {{bore: 50 mm, friction factor: 0.02}}, entrance: 0, exit: 0}}
pumps:
  lift: {{from: low, to: outlet side, curve: [[0 L/s, 20 m], [5 L/s, 10 m]], runs: 4 h/day, efficiency: 0.5{}}}
)",
                     upper_m,
                     more);
}

/// Water at 10 m, ram at 6 m, pond at 30 m.
const std::string ram_farm = R"(farm: Rammed
creeks: {source: {surface: 10 m}}
ponds: {high: {surface: 30 m}}
tees: {ram pit: 6 m}
pipes:
  drive: {from: source, to: ram pit, length: 20 m, size: {bore: 50 mm, friction factor: 0.02}}
  rising: {from: ram pit, to: high, length: 100 m, size: {bore: 30 mm, friction factor: 0.02}}
rams:
  thump: {drive: drive, delivery: rising, efficiency: 0.6}
)";

}  // namespace

TEST_CASE("a pump between two waters runs where its curve meets the system's") {
  // Closed form: 20 - 2000 q = 8 + k q^2.
  const SolvedFarm farm = solved(pumped_farm(8.0));
  REQUIRE(farm.answer.converged);
  const double k = per_square(100.0, 0.05, 0.02, 0.0);
  const double q = (-2000.0 + std::sqrt(2000.0 * 2000.0 + 4.0 * k * 12.0)) / (2.0 * k);
  CHECK(farm.pipe("rising").flow_m3_s == Approx(q).epsilon(1e-5));
  const LifterAnswer& pump = lifter(farm, "lift");
  CHECK_FALSE(pump.is_ram);
  CHECK(pump.flow_m3_s == Approx(q).epsilon(1e-5));
  CHECK(*pump.head_m == Approx(20.0 - 2000.0 * q).epsilon(1e-5));
  // Power drawn: rho g q H over the efficiency.
  CHECK(*pump.power_W ==
        Approx(farm.answer.density_kg_m3 * gravity * q * (20.0 - 2000.0 * q) / 0.5).epsilon(1e-5));
  CHECK_FALSE(pump.beyond_curve);
  CHECK(farm.place("low").delivered_m3_s == Approx(-q).epsilon(1e-5));
  CHECK(farm.place("high").delivered_m3_s == Approx(q).epsilon(1e-5));
  check_audit(farm);
}

TEST_CASE("a pump too weak for the lift gives nothing, and nothing runs back through it") {
  const SolvedFarm farm = solved(pumped_farm(25.0));
  REQUIRE(farm.answer.converged);
  CHECK(farm.pipe("rising").flow_m3_s == 0.0);
  CHECK(lifter(farm, "lift").shut_off_short);
  check_audit(farm);
}

TEST_CASE("a pump that runs beyond the last flow of its curve is told of") {
  const SolvedFarm farm = solved(pumped_farm(-40.0));
  REQUIRE(farm.answer.converged);
  CHECK(lifter(farm, "lift").flow_m3_s > 5e-3);
  CHECK(lifter(farm, "lift").beyond_curve);
  check_audit(farm);
}

TEST_CASE("with everything shut a pump's shut-off head stands beyond it") {
  const SolvedFarm farm = solved(pumped_farm(8.0), LoadCase::Static);
  CHECK(*farm.place("outlet side").head_m == Approx(20.0));
  CHECK(*farm.place("high").head_m == Approx(8.0));
  CHECK(farm.pipe("rising").flow_m3_s == 0.0);
  check_audit(farm);
}

TEST_CASE("a pump takes no more from a spring than it yields") {
  const SolvedFarm farm = solved(R"(farm: Dry pump
springs: {upper: {overflow: 5 m, yield: 1 L/s}}
ponds: {high: {surface: 8 m}}
pumps: {lift: {from: upper, to: high, curve: [[0 L/s, 20 m], [5 L/s, 10 m]]}}
pipes: {idle: {from: upper, to: high, size: 1 in SIDR 15, length: 20 m, valve: {type: gate, shut: yes}}}
)");
  REQUIRE(farm.answer.converged);
  CHECK(lifter(farm, "lift").flow_m3_s == Approx(litres(1.0)).epsilon(1e-6));
  CHECK(farm.place("upper").delivered_m3_s == Approx(-litres(1.0)).epsilon(1e-6));
}

TEST_CASE("a pump draws from a settling tank what comes into it and no more") {
  const SolvedFarm farm = solved(R"(farm: Through a tank
springs: {upper: {overflow: 20 m, yield: 0.5 L/s}}
tanks: {mid: {floor: 10 m, full: 2 m, depth: settle, diameter: 2 m}}
ponds: {high: {surface: 18 m}}
pipes: {down: {from: upper, to: mid, size: 40 mm PE100 SDR 11, length: 30 m}}
pumps: {lift: {from: mid, to: high, curve: [[0 L/s, 20 m], [5 L/s, 10 m]]}}
)");
  REQUIRE(farm.answer.converged);
  CHECK(lifter(farm, "lift").flow_m3_s == Approx(litres(0.5)).epsilon(1e-3));
  CHECK(*farm.place("mid").level_m >= 10.0);
  check_audit(farm);
}

TEST_CASE("a pump may fill a trough without any pipe") {
  const SolvedFarm farm = solved(R"(farm: Straight in
creeks: {low: {surface: 0 m}}
ponds: {pool: {surface: 1 m}}
troughs: {north: {float: 6 m, need: 0.4 L/s, seat: 12 mm}}
pipes: {idle: {from: low, to: pool, size: 1 in SIDR 15, length: 20 m}}
pumps: {lift: {from: low, to: north, curve: [[0 L/s, 20 m], [5 L/s, 10 m]]}}
)");
  REQUIRE(farm.answer.converged);
  CHECK(farm.place("north").delivered_m3_s == Approx(litres(0.4)));
  check_audit(farm);
}

TEST_CASE("a ram lifts by its fall, its lift and its efficiency, and wastes the rest") {
  const SolvedFarm farm = solved(ram_farm);
  REQUIRE(farm.answer.converged);
  // By hand: the drive pipe with entrance 0.5 and exit 1 carries its fall of 4 m away.
  const double drive = std::sqrt(4.0 / per_square(20.0, 0.05, 0.02, 1.5));
  CHECK(farm.pipe("drive").flow_m3_s == Approx(drive).epsilon(1e-5));
  const double k = per_square(100.0, 0.03, 0.02, 1.0);
  double lifted = 0.0;
  for (int i = 0; i < 100; ++i) {
    lifted = 0.6 * drive * 4.0 / (24.0 + k * lifted * lifted);
  }
  CHECK(farm.pipe("rising").flow_m3_s == Approx(lifted).epsilon(1e-4));
  const LifterAnswer& ram = lifter(farm, "thump");
  CHECK(ram.is_ram);
  CHECK(ram.flow_m3_s == Approx(lifted).epsilon(1e-4));
  CHECK(ram.flow_m3_s + ram.wasted_m3_s == Approx(drive).epsilon(1e-5));
  CHECK(*ram.fall_m == Approx(4.0));
  CHECK(*ram.head_m == Approx(24.0 + k * lifted * lifted).epsilon(1e-4));
  CHECK_FALSE(ram.set_by_hand);
  CHECK(farm.place("source").delivered_m3_s == Approx(-drive).epsilon(1e-5));
  CHECK(farm.place("high").delivered_m3_s == Approx(lifted).epsilon(1e-4));
  CHECK(farm.place("ram pit").delivered_m3_s == 0.0);
  check_audit(farm);
}

TEST_CASE("the audit notices a ram that lifts more than its efficiency allows") {
  SolvedFarm farm = solved(ram_farm);
  for (LifterAnswer& found : farm.answer.lifters) {
    found.flow_m3_s *= 1.01;
    found.wasted_m3_s = farm.pipe("drive").flow_m3_s - found.flow_m3_s;
  }
  for (std::size_t i = 0; i < farm.farm.pipes.size(); ++i) {
    if (farm.farm.pipes[i].name == "rising") {
      farm.answer.pipes[i].flow_m3_s *= 1.01;
    }
  }
  CHECK_FALSE(solver::audit_answer(farm.farm, farm.answer).holds());
}

TEST_CASE("the audit notices a pump off its curve") {
  SolvedFarm farm = solved(pumped_farm(8.0));
  farm.farm.pumps[0].curve[1].second = metres(11.0);
  CHECK_FALSE(solver::audit_answer(farm.farm, farm.answer).holds());
}

TEST_CASE("a ram at a spring leaves its box full and breaks no line") {
  const SolvedFarm farm = solved(R"(farm: Spring ram
springs: {upper: {overflow: 10 m, intake: 9.7 m, yield: 12 L/min}}
ponds: {high: {surface: 30 m}}
tees: {ram pit: 6 m}
pipes:
  drive: {from: upper, to: ram pit, size: 2 in sch 40 steel, path: [[0 m, 9.7 m], [4 m, 9.8 m], [20 m, 6 m]]}
  rising: {from: ram pit, to: high, length: 100 m, size: 25 mm PE100 SDR 11}
rams:
  thump: {drive: drive, delivery: rising}
)");
  REQUIRE(farm.answer.converged);
  const double drive = 0.999 * 12.0 / 60000.0;
  CHECK(farm.pipe("drive").flow_m3_s == Approx(drive).epsilon(1e-5));
  CHECK(*farm.place("upper").level_m == Approx(10.0).margin(1e-4));
  CHECK(farm.flag(solver::Code::Breaks, "upper") == nullptr);
  CHECK(farm.flag(solver::Code::DrawnDown, "upper") == nullptr);
  CHECK(lifter(farm, "thump").set_by_hand);
  // The table at 24 m over 4 m: 61 %, a little less with the rising main's loss.
  CHECK(farm.pipe("rising").flow_m3_s == Approx(0.61 / 6.0 * drive).epsilon(0.02));
  check_audit(farm);
}

TEST_CASE("a ram feeds a float its need, and what it would lift beyond that goes to waste") {
  const SolvedFarm farm = solved(R"(farm: Ram to a trough
creeks: {source: {surface: 10 m}}
troughs: {north: {float: 20 m, need: 0.05 L/s, seat: 10 mm}}
tees: {ram pit: 6 m}
pipes:
  drive: {from: source, to: ram pit, length: 20 m, size: 2 in sch 40 steel}
  rising: {from: ram pit, to: north, length: 60 m, size: 25 mm PE100 SDR 11}
rams:
  thump: {drive: drive, delivery: rising, takes: 0.6 L/s, efficiency: 0.6}
)");
  REQUIRE(farm.answer.converged);
  CHECK(farm.place("north").delivered_m3_s == Approx(litres(0.05)));
  CHECK(lifter(farm, "thump").wasted_m3_s == Approx(litres(0.55)).epsilon(1e-6));
  // It lifts so little only because the half-shut float lets the head rise: 0.6 x 4 x 0.6 / 0.05.
  CHECK(*lifter(farm, "thump").head_m == Approx(0.6 * 4.0 * 0.6 / 0.05).epsilon(1e-4));
  check_audit(farm);
}

TEST_CASE("with every float shut a ram presses on until it stalls, with an open tank it cannot") {
  const std::string shut = R"(farm: Ram shut
creeks: {source: {surface: 10 m}}
troughs: {north: {float: 20 m, need: 0.05 L/s}}
tees: {ram pit: 6 m}
pipes:
  drive: {from: source, to: ram pit, length: 20 m, size: 2 in sch 40 steel}
  rising: {from: ram pit, to: north, length: 60 m, size: 25 mm PE100 SDR 11}
rams:
  thump: {drive: drive, delivery: rising}
)";
  const SolvedFarm stalled = solved(shut, LoadCase::Static);
  CHECK(*stalled.place("ram pit").head_m == Approx(6.0 + 26.0 * 4.0));
  check_audit(stalled);
  const std::string open = R"(farm: Ram open
creeks: {source: {surface: 10 m}}
tanks: {house: {floor: 20 m, full: 1 m, diameter: 1 m}}
tees: {ram pit: 6 m}
pipes:
  drive: {from: source, to: ram pit, length: 20 m, size: 2 in sch 40 steel}
  rising: {from: ram pit, to: house, length: 60 m, size: 25 mm PE100 SDR 11}
rams:
  thump: {drive: drive, delivery: rising}
)";
  const SolvedFarm held = solved(open, LoadCase::Static);
  CHECK(*held.place("ram pit").head_m == Approx(21.0));
  check_audit(held);
}

TEST_CASE("two rams side by side lift into one delivery pipe") {
  const SolvedFarm farm = solved(R"(farm: Battery
creeks: {source: {surface: 10 m}}
ponds: {high: {surface: 30 m}}
tees: {ram pit: 6 m}
pipes:
  drive one: {from: source, to: ram pit, length: 20 m, size: 2 in sch 40 steel}
  drive two: {from: source, to: ram pit, length: 20 m, size: 2 in sch 40 steel}
  rising: {from: ram pit, to: high, length: 100 m, size: 32 mm PE100 SDR 11}
rams:
  left: {drive: drive one, delivery: rising, takes: 0.3 L/s, efficiency: 0.6}
  right: {drive: drive two, delivery: rising, takes: 0.5 L/s, efficiency: 0.6}
)");
  REQUIRE(farm.answer.converged);
  const double together = farm.pipe("rising").flow_m3_s;
  CHECK(lifter(farm, "left").flow_m3_s == Approx(0.375 * together).epsilon(1e-5));
  CHECK(lifter(farm, "right").flow_m3_s == Approx(0.625 * together).epsilon(1e-5));
  check_audit(farm);
}

TEST_CASE("a ram may stand in open water, and its waste runs off there") {
  const SolvedFarm farm = solved(R"(farm: In the creek
creeks: {source: {surface: 10 m}, beck: {surface: 5.5 m}}
ponds: {high: {surface: 30 m}}
pipes:
  drive: {from: source, to: beck, length: 20 m, size: 2 in sch 40 steel}
  rising: {from: beck, to: high, length: 100 m, size: 25 mm PE100 SDR 11}
rams:
  thump: {drive: drive, delivery: rising, level: 6 m, takes: 0.5 L/s, efficiency: 0.6}
)");
  REQUIRE(farm.answer.converged);
  CHECK(*lifter(farm, "thump").fall_m == Approx(4.0));
  CHECK(farm.pipe("rising").flow_m3_s == Approx(litres(0.5 * 0.1)).epsilon(0.02));
  CHECK(farm.place("beck").delivered_m3_s == Approx(0.0).margin(1e-9));
  check_audit(farm);
}

TEST_CASE("a pump that is stopped in the network's options lifts nothing") {
  const model::Farm farm = farm_of(pumped_farm(8.0));
  const solver::Surroundings around = solver::surroundings_of(farm, std::nullopt);
  solver::NetworkOptions options;
  options.stopped_pumps.insert(0);
  const solver::FlowState state = solver::solve_flow(farm, around, options);
  REQUIRE(state.solution.report.is_usable());
  CHECK(state.flow_m3_s(state.network->pumps[0].edge) == 0.0);
}

namespace {

/// Puts rams at tees that a pipe reaches and another leaves, and pumps between any places.
void add_lifters(model::Farm& farm, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  const auto pick = [&](std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
  };
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (std::size_t i = 0; i < farm.pipes.size() && farm.rams.size() < 3; ++i) {
    const std::size_t at = farm.pipes[i].to;
    if (!std::holds_alternative<model::Tee>(farm.places[at].data) || pick(3) != 0) {
      continue;
    }
    for (std::size_t j = 0; j < farm.pipes.size(); ++j) {
      if (j != i && farm.pipes[j].from == at) {
        model::Ram ram;
        ram.name = fmt::format("ram {}", i);
        ram.drive = i;
        ram.delivery = j;
        if (pick(2) == 0) {
          ram.takes = cubic_metres_per_second(std::pow(10.0, between(-4.5, -2.5)));
        }
        if (pick(2) == 0) {
          ram.efficiency = between(0.1, 0.8);
        }
        farm.rams.push_back(ram);
        break;
      }
    }
  }
  for (std::size_t i = pick(4); i > 0; --i) {
    model::Pump pump;
    pump.name = fmt::format("pump {}", i);
    pump.from = pick(farm.places.size());
    pump.to = pick(farm.places.size());
    const model::Place& from = farm.places[pump.from];
    if (pump.from == pump.to || std::holds_alternative<model::Trough>(from.data) ||
        std::holds_alternative<model::Outlet>(from.data)) {
      continue;
    }
    const double shut_off = between(3.0, 40.0);
    pump.curve = {{cubic_metres_per_second(0.0), metres(shut_off)},
                  {cubic_metres_per_second(std::pow(10.0, between(-4.0, -2.5))),
                   metres(shut_off * between(0.2, 0.9))}};
    farm.pumps.push_back(pump);
  }
}

}  // namespace

TEST_CASE("random farms with pumps and rams are solved, and their answers prove themselves") {
  const std::uint64_t count = std::min<std::uint64_t>(farms_asked() / 200, 20000);
  std::string unsolved;
  std::uint64_t unsolved_count = 0;
  std::uint64_t lifting = 0;
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    model::Farm farm =
        random_farm(seed, seed % 2 == 0 ? FarmKind::Prototype : FarmKind::Everything);
    add_lifters(farm, seed);
    solver::SteadyOptions options;
    options.load_case = seed % 7 == 0 ? LoadCase::Static : LoadCase::Needs;
    const solver::SteadyAnswer answer = solver::solve_steady(farm, options);
    if (!answer.converged) {
      unsolved += " " + std::to_string(seed);
      ++unsolved_count;
      continue;
    }
    for (const LifterAnswer& found : answer.lifters) {
      lifting += found.flow_m3_s > 0.0 ? 1 : 0;
    }
    const solver::AuditReport report = solver::audit_answer(farm, answer);
    INFO("seed " << seed << ": " << render::audit_sentence(report));
    CHECK(report.holds());
  }
  CAPTURE(unsolved);
  CHECK(unsolved_count <= count / 1000);
  CHECK(lifting > count / 4);
}

}  // namespace leat::tests
