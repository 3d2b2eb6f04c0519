// States and flags: which figure earns which, and which of two goes first.
#include "solver/findings/states.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PipeState;
using solver::PlaceState;
using solver::Severity;

namespace {

/// A siphon over a rise between two creeks a little apart: the summit's pressure is its height.
SolvedFarm siphon(const std::string& summit_m, const std::string& site = "{altitude: 0 m}") {
  return solved("farm: siphon\nsite: " + site +
                "\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 99.9 m}}\npipes: {a: {from: "
                "c, to: p, size: 1 in SIDR 15, path: [[0 m, 100 m], [30 m, " +
                summit_m + " m], [60 m, 99.9 m]]}}\n");
}

/// Head that the air carries at 0 m less the head of vapour at 15 C: D2 of reference-values.md, C.
constexpr double air_less_vapour_m = 10.167;

}  // namespace

TEST_CASE("a summit with less than five metres of absolute head earns a caution") {
  CHECK(siphon("105").flag(solver::Code::LowPressure, "a") == nullptr);
  const SolvedFarm farm = siphon("105.6");
  REQUIRE(farm.flag(solver::Code::LowPressure, "a") != nullptr);
  CHECK(farm.flag(solver::Code::LowPressure, "a")->severity == Severity::Caution);
  CHECK(farm.flag(solver::Code::LowPressure, "a")->value.value() ==
        Approx(farm.pipe("a").summit->absolute_head_m.value()));
  CHECK(farm.flag(solver::Code::LowPressure, "a")->limit == 5.0);
  CHECK(farm.pipe("a").state == PipeState::Suction);
}

TEST_CASE("a summit within two and a half metres of vapour is a danger") {
  const SolvedFarm farm = siphon("108");
  REQUIRE(farm.flag(solver::Code::NearVapour, "a") != nullptr);
  CHECK(farm.flag(solver::Code::NearVapour, "a")->severity == Severity::Danger);
  CHECK(farm.flag(solver::Code::LowPressure, "a") == nullptr);
  CHECK(farm.pipe("a").state == PipeState::NearVapour);
  const solver::SummitAnswer& summit = farm.pipe("a").summit.value();
  // 8 m up, and a few centimetres of friction and velocity head.
  CHECK(summit.margin_m.value() == Approx(air_less_vapour_m - 8.0).margin(0.1));
  CHECK_FALSE(summit.parted);
  // The sentence says how much lower it should lie: so much lower it is no danger any more.
  CHECK(siphon("107.6").flag(solver::Code::NearVapour, "a") == nullptr);
}

TEST_CASE("at altitude the same siphon has less left") {
  const double low = siphon("103").pipe("a").summit->margin_m.value();
  const double high = siphon("103", "{altitude: 2000 m}").pipe("a").summit->margin_m.value();
  // D2: 10.167 m at 0 m, 7.940 m at 2000 m, less vapour at 15 C: C.
  CHECK(low - high == Approx(10.167 - 7.940).margin(0.01));
}

TEST_CASE("a pipe with several summits tells of all and repeats the worst") {
  const SolvedFarm farm = solved(R"(
farm: ridges
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 95 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15,
      path: [[0 m, 99 m], [20 m, 101 m], [40 m, 98 m], [60 m, 102 m], [80 m, 95 m]]}
)");
  const solver::PipeAnswer& pipe = farm.pipe("a");
  REQUIRE(pipe.summits.size() == 2);
  CHECK(pipe.summits[0].at_m == Approx(20.0));
  CHECK(pipe.summits[1].at_m == Approx(60.0));
  REQUIRE(pipe.summit);
  CHECK(pipe.summit->at_m == Approx(60.0));
  CHECK(pipe.summit->margin_m == pipe.summits[1].margin_m);
  CHECK(pipe.summits[0].margin_m.value() > pipe.summits[1].margin_m.value());
}

TEST_CASE("a tee above the running grade line earns a caution and below vapour a danger") {
  const auto with_tee = [](const std::string& level) {
    return solved(
        "farm: tee\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 85 m}}\ntees: "
        "{t: " +
        level +
        "}\npipes:\n  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}\n"
        "  b: {from: t, to: p, size: 1 in SIDR 15, length: 60 m}\n");
  };
  // The two equal pipes share 15 m of fall but for entrance and exit: the tee has about 92.4 m.
  const SolvedFarm dry = with_tee("90 m");
  CHECK(dry.place("t").state == PlaceState::Ok);
  const SolvedFarm suction = with_tee("94 m");
  REQUIRE(suction.flag(solver::Code::SuctionAtTee, "t") != nullptr);
  CHECK(suction.place("t").state == PlaceState::Suction);
  CHECK(suction.flag(solver::Code::SuctionAtTee, "t")->value.value() ==
        Approx(suction.place("t").pressure_Pa.value()));
  const SolvedFarm near = with_tee("101 m");
  CHECK(near.place("t").state == PlaceState::NearVapour);
  CHECK(near.flag(solver::Code::NearVapour, "t") != nullptr);
  CHECK(near.flag(solver::Code::SuctionAtTee, "t") == nullptr);
  const SolvedFarm below = with_tee("104 m");
  CHECK(below.place("t").state == PlaceState::BelowVapour);
  CHECK(below.flag(solver::Code::BelowVapour, "t")->severity == Severity::Danger);
}

TEST_CASE("taking more than may be taken from a creek is flagged and not prevented") {
  const auto creek = [](const std::string& more) {
    return solved("farm: spare\ncreeks: {c: {surface: 100 m" + more +
                  "}}\nponds: {p: {surface: 90 m}}\npipes: {a: {from: c, to: p, size: 1 in SIDR "
                  "15, length: 60 m}}\n");
  };
  const double free_flow = creek("").pipe("a").flow_m3_s;
  const SolvedFarm spare = creek(", spare: 0.5 L/s");
  REQUIRE(spare.flag(solver::Code::SpareExceeded, "c") != nullptr);
  CHECK(spare.flag(solver::Code::SpareExceeded, "c")->severity == Severity::Caution);
  CHECK(spare.flag(solver::Code::SpareExceeded, "c")->value.value() == Approx(free_flow));
  CHECK(spare.flag(solver::Code::SpareExceeded, "c")->limit.value() == Approx(0.5e-3));
  CHECK(spare.pipe("a").flow_m3_s == Approx(free_flow));
  CHECK(creek(", flow: 0.5 L/s").flag(solver::Code::SpareExceeded, "c") != nullptr);
  CHECK(creek(", spare: 5 L/s").flag(solver::Code::SpareExceeded, "c") == nullptr);
}

TEST_CASE("a trough of which no need is known is never satisfied and says so") {
  const SolvedFarm farm = solved(R"(
farm: no need
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 90 m}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK_FALSE(farm.place("low").need_m3_s);
  CHECK_FALSE(farm.place("low").met);
  REQUIRE(farm.flag(solver::Code::NoNeed, "low") != nullptr);
  CHECK(farm.flag(solver::Code::NoNeed, "low")->severity == Severity::Note);
  CHECK(farm.place("low").delivered_m3_s > litres(0.5));
}

TEST_CASE("between two tees backwards is only a way of writing") {
  const SolvedFarm farm = solved(R"(
farm: turned
creeks: {c: {surface: 100 m}}
tees: {t: 90 m, u: 90 m}
outlets: {end: {level: 85 m}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}
  turned: {from: u, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: u, to: end, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(farm.pipe("turned").flow_m3_s < 0.0);
  CHECK(farm.pipe("turned").head_loss_m.value() < 0.0);
  CHECK(farm.flag(solver::Code::Backwards, "turned") == nullptr);
}

TEST_CASE("fast water in plastic pipe is noted from five feet a second on") {
  const auto with_fall = [](const std::string& low) {
    return solved("farm: fast\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: " + low +
                  "}}\npipes: {a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m}}\n");
  };
  CHECK(with_fall("95 m").pipe("a").velocity_m_s < 1.524);
  CHECK(with_fall("95 m").flag(solver::Code::Fast, "a") == nullptr);
  CHECK(with_fall("92 m").pipe("a").velocity_m_s > 1.524);
  CHECK(with_fall("92 m").flag(solver::Code::Fast, "a") != nullptr);
}

TEST_CASE("the worst flags come first and none comes twice") {
  const SolvedFarm farm = solved(R"(
farm: many
springs: {up: {overflow: 100 m, intake: 99.7 m, yield: 0.2 L/s}}
creeks: {c: {surface: 99 m, spare: 0.01 L/s}}
tees: {t: 90 m}
outlets: {end: {level: 85 m}}
troughs: {high: {float: 102 m, need: 0.1 L/s}}
pipes:
  a: {from: up, to: t, size: 1 in SIDR 15, path: [[0 m, 99.7 m], [20 m, 101 m], [60 m, 90 m]]}
  b: {from: c, to: t, size: 3/4 in SIDR 15, length: 90 m}
  d: {from: t, to: end, size: 1 in SIDR 15, length: 20 m}
  e: {from: t, to: high, size: 1 in SIDR 15, length: 20 m}
)");
  REQUIRE(farm.answer.flags.size() > 4);
  CHECK(farm.answer.flags.front().severity == Severity::Danger);
  for (std::size_t i = 1; i < farm.answer.flags.size(); ++i) {
    CHECK(farm.answer.flags[i - 1].severity <= farm.answer.flags[i].severity);
    for (std::size_t j = 0; j < i; ++j) {
      const bool same = farm.answer.flags[i].code == farm.answer.flags[j].code &&
                        farm.answer.flags[i].where == farm.answer.flags[j].where;
      CHECK_FALSE(same);
    }
  }
}

}  // namespace leat::tests
