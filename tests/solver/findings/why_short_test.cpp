// Why a trough goes short: one cause, with its figures.
#include "solver/findings/why_short.h"

#include <cmath>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/flow/driest_month.h"
#include "solver/flow/solved_case.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PlaceState;
using solver::WaterEnd;

namespace {

/// The reason of a place of a farm solved for its needs, where it is one of that kind.
template <class Kind>
Kind reason_of(const SolvedFarm& solved, const std::string& name) {
  const model::Farm& farm = solved.farm;
  solver::NetworkOptions options;
  options.month = solver::driest_month(farm);
  const solver::SolvedCase moment =
      solver::solve_running_case(farm, solver::surroundings_of(farm, options.month), options);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (farm.places[i].name == name) {
      return std::get<Kind>(solver::why_short(moment.state, i, moment.happenings.broken_lines));
    }
  }
  throw std::out_of_range("no place is named " + name);
}

}  // namespace

TEST_CASE("a float above all water is too high by what stands between") {
  const SolvedFarm farm = solved(R"(
farm: too high
springs: {up: {overflow: 100 m, yield: 2 L/s}}
tees: {t: 90 m}
troughs: {hill: {float: 103.2 m, need: 0.1 L/s}}
ponds: {low: {surface: 95 m}}
pipes:
  a: {from: up, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: t, to: hill, size: 1 in SIDR 15, length: 60 m}
  c: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  const auto high = reason_of<solver::TooHigh>(farm, "hill");
  CHECK(high.end == WaterEnd::Float);
  CHECK(high.above_m == Approx(3.2));
  CHECK(farm.place("hill").state == PlaceState::Dry);
  CHECK(farm.place("hill").met.value() < 1e-6);
}

TEST_CASE("a float above the running grade line is told by how much and where") {
  const SolvedFarm farm = solved(R"(
farm: grade line
show: US
creeks: {c: {surface: 330 ft}}
tees: {gate tee: 300 ft}
troughs: {north: {float: 325 ft, need: 2 gal/min}}
ponds: {low: {surface: 302 ft}}
pipes:
  a: {from: c, to: gate tee, size: 1 in SIDR 15, length: 300 ft}
  b: {from: gate tee, to: north, size: 3/4 in SIDR 15, length: 100 ft}
  l: {from: gate tee, to: low, size: 1-1/4 in SIDR 15, length: 100 ft}
)");
  const auto above = reason_of<solver::AboveRunningWater>(farm, "north");
  CHECK(above.end == WaterEnd::Float);
  CHECK(above.at == "gate tee");
  CHECK(above.at_tee);
  CHECK_FALSE(above.springs.has_value());
  CHECK(above.above_m ==
        Approx(325.0 * metres_per_foot - farm.place("gate tee").head_m.value()).margin(1e-6));
}

TEST_CASE("a long thin pipe takes the fall and is named with its length and size") {
  const SolvedFarm farm = solved(R"(
farm: too far
creeks: {c: {surface: 100 m}}
troughs: {far: {float: 90 m, need: 0.5 L/s}}
pipes: {a: {from: c, to: far, size: 3/4 in SIDR 15, length: 800 m}}
)");
  const auto loss = reason_of<solver::LargestLoss>(farm, "far");
  const auto friction = std::get<solver::PipeFriction>(loss.taker);
  CHECK(friction.pipe == "a");
  CHECK(friction.length_m == Approx(800.0));
  CHECK(friction.size == "3/4 in SIDR 15");
  CHECK(loss.fall_m == Approx(10.0).margin(1e-3));
  CHECK(loss.head_m == Approx(farm.pipe("a").head_loss_m.value()).margin(0.006));
  CHECK(farm.pipe("a").head_loss_m.value() > 5.0);
  CHECK(farm.place("far").state == PlaceState::Starved);
  CHECK(farm.flag(solver::Code::Starved, "far")->value.value() ==
        Approx(farm.place("far").met.value()));
  CHECK(farm.flag(solver::Code::Starved, "far")->limit.value() == 1.0);
}

TEST_CASE("a spring that gives all it has is named with its yield") {
  const SolvedFarm farm = solved(R"(
farm: short
show: US
springs: {upper: {overflow: 330 ft, yield: {Jul: 2.5 gal/min, Aug: 0.9 gal/min}}}
troughs: {north: {float: 300 ft, need: 2.4 gal/min}}
pipes: {a: {from: upper, to: north, size: 1 in SIDR 15, length: 300 ft}}
)");
  // Between August and July no yield was measured: the lower stands for them, so that all months
  // but July are equally dry and the first is taken.
  const auto springs = reason_of<solver::SpringsShort>(farm, "north");
  CHECK(springs.springs == std::vector<std::string>{"upper"});
  CHECK(springs.yield_m3_s == Approx(0.9 * 3.785411784e-3 / 60.0));
  CHECK(farm.place("north").met.value() == Approx(0.9 / 2.4));
}

TEST_CASE("springs that together give too little are counted and their yields summed") {
  const SolvedFarm farm = solved(R"(
farm: both short
springs: {one: {overflow: 100 m, yield: 0.1 L/s}, two: {overflow: 99 m, yield: 0.05 L/s}}
tees: {t: 93 m}
troughs: {low: {float: 92.5 m, need: 1 L/s}}
pipes:
  a: {from: one, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: two, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  const auto springs = reason_of<solver::SpringsShort>(farm, "low");
  CHECK(springs.springs.size() == 2);
  CHECK(springs.yield_m3_s == Approx(litres(0.15)));
  CHECK(farm.place("low").delivered_m3_s == Approx(litres(0.15)));
}

TEST_CASE("a valve part open that takes most of the fall is named with its opening") {
  const auto with_opening = [](const std::string& open) {
    return solved(
        "farm: throttled\ncreeks: {c: {surface: 100 m}}\ntroughs: {low: {float: 95 m, "
        "need: 1 L/s}}\npipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 20 m, "
        "valve: {type: ball, at: end, open: " +
        open + "}}}\n");
  };
  const SolvedFarm tight = with_opening("40 %");
  const auto loss = reason_of<solver::LargestLoss>(tight, "low");
  CHECK(std::get<solver::PartOpenValve>(loss.taker).pipe == "a");
  CHECK(std::get<solver::PartOpenValve>(loss.taker).open == Approx(0.4));
  CHECK(loss.fall_m == Approx(5.0).margin(1e-3));
  CHECK(loss.head_m > 2.5);
  CHECK(tight.place("low").delivered_m3_s < 0.6 * with_opening("80 %").place("low").delivered_m3_s);
}

TEST_CASE("a shut valve on the way is what keeps the trough dry") {
  const SolvedFarm farm = solved(R"(
farm: shut
creeks: {c: {surface: 100 m}}
tees: {t: 95 m}
troughs: {low: {float: 90 m, need: 0.1 L/s}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m, valve: {type: ball, shut: yes, at: start}}
  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(reason_of<solver::ShutValve>(farm, "low").pipe == "a");
  CHECK_FALSE(farm.place("low").head_m);
  CHECK_FALSE(farm.place("t").head_m);
  CHECK(farm.flag(solver::Code::CutOff, "t") != nullptr);
  CHECK(farm.place("t").state == PlaceState::Dry);
}

TEST_CASE("a one-way against the flow is named") {
  const SolvedFarm farm = solved(R"(
farm: one-way
ponds: {p: {surface: 110 m}}
tees: {t: 85 m}
troughs: {low: {float: 100 m, need: 0.1 L/s}}
pipes:
  a: {from: t, to: p, size: 1 in SIDR 15, length: 60 m, fittings: [swing check]}
  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(reason_of<solver::OneWayAgainst>(farm, "low").pipe == "a");
  CHECK(farm.pipe("a").flow_m3_s == 0.0);
}

TEST_CASE("a broken siphon is named with its spring and its high point") {
  const SolvedFarm farm = solved(R"(
farm: broken
springs: {up: {overflow: 100 m, intake: 99.7 m, yield: 0.2 L/s}}
tees: {t: 90 m}
outlets: {end: {level: 85 m}}
troughs: {low: {float: 88 m, need: 0.1 L/s}}
pipes:
  a: {from: up, to: t, size: 1 in SIDR 15, path: [[0 m, 99.7 m], [20 m, 101 m], [60 m, 90 m]]}
  b: {from: t, to: end, size: 1 in SIDR 15, length: 40 m}
  c: {from: t, to: low, size: 1 in SIDR 15, length: 40 m}
)");
  const auto siphon = reason_of<solver::BrokenSiphon>(farm, "low");
  CHECK(siphon.pipe == "a");
  CHECK(siphon.cause.value().spring == "up");
  CHECK(siphon.cause->high_pipe == "a");
  CHECK(siphon.cause->below_m == Approx(1.3));
}

TEST_CASE("a seat too small is named with its bore and what it takes") {
  const SolvedFarm farm = solved(R"(
farm: seat
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 95 m, need: 1 L/s, seat: 6 mm}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  const auto loss = reason_of<solver::LargestLoss>(farm, "low");
  CHECK(std::get<solver::FloatSeat>(loss.taker).bore_m == Approx(0.006));
  const double seat_m = farm.place("low").head_m.value() - 95.0;
  CHECK(loss.fall_m == Approx(5.0).margin(1e-3));
  CHECK(loss.head_m == Approx(seat_m).margin(0.006));
  // What the seat passes under that head: Cd A sqrt(2 g h), Cd 0.60 of the format.
  const double area_m2 = 3.141592653589793 / 4.0 * 0.006 * 0.006;
  CHECK(farm.place("low").delivered_m3_s ==
        Approx(0.60 * area_m2 * std::sqrt(2.0 * gravity_m_s2 * seat_m)).epsilon(1e-4));
}

TEST_CASE("a trough that gets what it needs is not explained") {
  const SolvedFarm farm = solved(R"(
farm: enough
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 95 m, need: 0.1 L/s}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.flag(solver::Code::Starved, "low") == nullptr);
  CHECK(farm.flag(solver::Code::Dry, "low") == nullptr);
  CHECK(farm.place("low").met.value() == Approx(1.0));
  CHECK(farm.place("low").state == PlaceState::Ok);
  CHECK(farm.place("low").delivered_m3_s == Approx(litres(0.1)));
}

TEST_CASE("an outlet that wishes for more than it gets is told so") {
  const SolvedFarm farm = solved(R"(
farm: wish
creeks: {c: {surface: 100 m}}
outlets: {garden: {level: 95 m, wished: 2 L/s}}
pipes: {a: {from: c, to: garden, size: 3/4 in SIDR 15, length: 200 m}}
)");
  CHECK(farm.flag(solver::Code::Starved, "garden") != nullptr);
  CHECK(std::holds_alternative<solver::PipeFriction>(
      reason_of<solver::LargestLoss>(farm, "garden").taker));
}

}  // namespace leat::tests
