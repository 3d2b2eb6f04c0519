// The study as a whole: load cases, a float that hangs open, and farms that cannot be solved.
#include "solver/steady/steady.h"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::LoadCase;

namespace {

const char* const two_troughs = R"(
farm: two troughs
ponds: {house: {surface: 100 m, intake: 98 m}}
tees: {t: 90 m}
troughs: {low: {float: 80 m, need: 0.1 L/s}, high: {float: 92 m, need: 0.2 L/s}}
pipes:
  a: {from: house, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
  h: {from: t, to: high, size: 1 in SIDR 15, length: 60 m}
)";

SolvedFarm with_broken(const std::string& trough) {
  solver::SteadyOptions options;
  options.broken = trough;
  return solved(two_troughs, options);
}

}  // namespace

TEST_CASE("each trough takes at most its mean need") {
  const SolvedFarm farm = solved(two_troughs);
  CHECK(farm.answer.converged);
  CHECK(farm.answer.iterations > 0);
  CHECK(farm.place("low").delivered_m3_s == Approx(litres(0.1)));
  CHECK(farm.place("high").delivered_m3_s == Approx(litres(0.2)));
  CHECK(farm.place("low").met.value() == Approx(1.0));
  CHECK(farm.place("house").delivered_m3_s == Approx(-litres(0.3)));
  CHECK(farm.place("t").delivered_m3_s == 0.0);
}

TEST_CASE("a daily amount is taken over the hours the stock drink") {
  const SolvedFarm farm = solved(R"(
farm: daily
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 80 m, need: 360 L/day, within: 6 h}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.place("low").need_m3_s.value() == Approx(0.36 / (6.0 * 3600.0)));
  CHECK(farm.place("low").delivered_m3_s == Approx(0.36 / (6.0 * 3600.0)));
}

TEST_CASE("with every float wide open the low trough takes more and the high one none") {
  const SolvedFarm farm = solved(two_troughs, LoadCase::Wide);
  CHECK(farm.place("low").delivered_m3_s > litres(0.5));
  CHECK(farm.place("low").met.value() == 1.0);
  CHECK(farm.place("high").met.value() < 0.005);
  REQUIRE(farm.flag(solver::Code::Dry, "high") != nullptr);
  CHECK(farm.flag(solver::Code::Dry, "high")->load_case == LoadCase::Wide);
}

TEST_CASE("when the float of the high trough hangs open the low one still gets its need") {
  const SolvedFarm farm = with_broken("high");
  CHECK(farm.place("high").delivered_m3_s > litres(0.2));
  CHECK(farm.place("low").met.value() == Approx(1.0));
}

TEST_CASE("a trough that does not exist cannot be broken and the nearest name is told") {
  const SolvedFarm farm = with_broken("hihg");
  CHECK_FALSE(farm.answer.converged);
  REQUIRE(farm.answer.problems.size() == 1);
  CHECK(farm.answer.problems[0].code == "unknown-place");
  CHECK(farm.answer.problems[0].hint.find("high") != std::string::npos);
  CHECK(farm.answer.places.empty());
  CHECK(farm.answer.pipes.empty());
}

TEST_CASE("a farm with a key of a later capability is refused with the key named") {
  const SolvedFarm farm = solved(R"(
farm: later
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes: {a: {from: c, to: p, size: choose, length: 60 m}}
)");
  CHECK_FALSE(farm.answer.converged);
  REQUIRE(farm.answer.problems.size() == 1);
  CHECK(farm.answer.problems[0].text.find("size: choose") != std::string::npos);
  CHECK(farm.answer.problems[0].position.line == 5);
  CHECK(farm.answer.places.empty());
}

TEST_CASE("water is neither made nor lost between springs, creeks, troughs and spills") {
  const SolvedFarm farm = solved(R"(
farm: balance
springs: {up: {overflow: 110 m, yield: 0.6 L/s}}
creeks: {ford: {surface: 96 m}}
ponds: {house: {surface: 85 m}}
tanks: {hill: {floor: 100 m, full: 2 m, depth: settle}}
tees: {gate: 92 m, loop: 90 m}
troughs: {north: {float: 94 m, need: 0.1 L/s, seat: 6 mm}, south: {float: 84 m, need: 0.2 L/s}}
outlets: {garden: {level: 86 m, opening: 6 mm}}
pipes:
  a: {from: up, to: hill, size: 1 in SIDR 15, length: 90 m}
  b: {from: hill, to: gate, size: 3/4 in SIDR 15, length: 150 m}
  c: {from: ford, to: loop, size: 1 in SIDR 15, length: 60 m, fittings: [hinged foot valve]}
  d: {from: gate, to: loop, size: 3/4 in SIDR 15, length: 40 m}
  e: {from: gate, to: loop, size: 1/2 in SIDR 15, length: 40 m}
  f: {from: gate, to: north, size: 3/4 in SIDR 15, length: 60 m}
  g: {from: loop, to: south, size: 3/4 in SIDR 15, length: 60 m}
  h: {from: loop, to: garden, size: 3/4 in SIDR 15, length: 60 m}
  i: {from: loop, to: house, size: 3/4 in SIDR 15, length: 60 m, ends: 87 m}
)");
  REQUIRE(farm.answer.converged);
  const auto given = [&](const char* name) { return farm.place(name).delivered_m3_s; };
  const double all = given("up") + given("ford") + given("hill") + given("north") + given("south") +
                     given("garden") + given("house");
  CHECK(std::abs(all) < 1e-9 * litres(1.0));
  CHECK(given("hill") == Approx(farm.place("hill").spill_m3_s.value()).margin(1e-12));
  // Two pipes side by side lose the same head.
  CHECK(farm.pipe("d").head_loss_m.value() == Approx(farm.pipe("e").head_loss_m.value()));
  CHECK(farm.place("gate").head_m.value() - farm.place("loop").head_m.value() ==
        Approx(farm.pipe("d").head_loss_m.value()));
}

TEST_CASE("in a dry month the flow is laminar and the loss goes as the flow") {
  const auto loss_m = [](const std::string& need) {
    const SolvedFarm farm = solved(
        "farm: dry\nsite: {water: 15 C}\ncreeks: {c: {surface: 100 m}}\ntroughs: {low: "
        "{float: 98 m, need: " +
        need +
        "}}\npipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 500 m, entrance: "
        "0}}\n");
    CHECK(farm.pipe("a").reynolds < 2000.0);
    return farm.pipe("a").head_loss_m.value();
  };
  const double once = loss_m("0.01 L/s");
  CHECK(loss_m("0.03 L/s") == Approx(3.0 * once).epsilon(1e-6));
  // Hagen and Poiseuille: h = 128 nu L q / (pi g D^4), nu of D1 at 15 C.
  const double bore_m = 1.049 * 0.0254;
  CHECK(once == Approx(128.0 * 1.1386e-6 * 500.0 * 1e-5 /
                       (3.141592653589793 * gravity_m_s2 * std::pow(bore_m, 4)))
                    .epsilon(5e-3));
}

}  // namespace leat::tests
