// What ends, one-ways, foot valves and checks cost, told by whole farms.
#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

TEST_CASE("a one-way stops the water that would run back") {
  const char* const text = R"(
farm: back
creeks: {low: {surface: 90 m}, high: {surface: 100 m}}
tees: {t: 85 m}
outlets: {end: {level: 80 m}}
pipes:
  a: {from: low, to: t, size: 1 in SIDR 15, length: 60 m, MORE}
  b: {from: high, to: t, size: 1-1/2 in SIDR 15, length: 30 m}
  c: {from: t, to: end, size: 3/4 in SIDR 15, length: 60 m}
)";
  const auto with = [&](const std::string& more) {
    std::string farm = text;
    return solved(farm.replace(farm.find("MORE"), 4, more));
  };
  CHECK(with("lies: buried").pipe("a").flow_m3_s < -litres(0.1));
  CHECK(with("one-way: yes").pipe("a").flow_m3_s == 0.0);
  CHECK(with("fittings: [swing check]").pipe("a").flow_m3_s == 0.0);
}

TEST_CASE("entrance and exit losses follow the water and give way to what is written") {
  // A pipe so short that its ends are all it loses: the flow says the sum of K.
  const auto summed_k = [](const std::string& more, const std::string& levels) {
    const SolvedFarm farm =
        solved("farm: ends\ncreeks: {" + levels +
               "}\npipes: {a: {from: one, to: two, size: {bore: 50 mm, friction factor: 1e-6}, "
               "length: 1.5 m" +
               more + "}}\n");
    const double velocity = farm.pipe("a").velocity_m_s;
    return 2.0 * gravity_m_s2 * 1.0 / (velocity * velocity);
  };
  const std::string down = "one: {surface: 100 m}, two: {surface: 99 m}";
  const std::string up = "one: {surface: 99 m}, two: {surface: 100 m}";
  CHECK(summed_k("", down) == Approx(1.5).epsilon(1e-3));
  CHECK(summed_k("", up) == Approx(1.5).epsilon(1e-3));
  CHECK(summed_k(", entrance: 3, exit: 2", down) == Approx(5.0).epsilon(1e-3));
  CHECK(summed_k(", entrance: 3, exit: 2", up) == Approx(5.0).epsilon(1e-3));
  CHECK(summed_k(", entrance: 3", down) == Approx(4.0).epsilon(1e-3));
  CHECK(summed_k(", entrance: 3", up) == Approx(3.5).epsilon(1e-3));
}

TEST_CASE("a foot valve costs what the lifting rule says") {
  // Below its lifting speed K vmin^2/2g, above it K v^2/2g (design section 4, from memory; n 420 of
  // Crane TP-410 with fT 0.023 at 1 in, C1.1: V).
  const auto lost_m = [](const std::string& need) {
    const auto head_loss = [&](const std::string& fittings) {
      return solved(
                 "farm: foot valve\ncreeks: {c: {surface: 110 m}}\ntroughs: {low: {float: 95 "
                 "m, need: " +
                 need + "}}\npipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 30 m" +
                 fittings + "}}\n")
          .pipe("a")
          .head_loss_m.value();
    };
    return head_loss(", fittings: [poppet foot valve]") - head_loss("");
  };
  const double lifted_m = 9.66 * 0.58 * 0.58 / (2.0 * gravity_m_s2);
  CHECK(lost_m("0.05 L/s") == Approx(lifted_m).epsilon(0.02));
  CHECK(lost_m("0.2 L/s") == Approx(lifted_m).epsilon(0.02));
  const double velocity = litres(1.0) / (3.141592653589793 / 4.0 * 0.0266 * 0.0266);
  CHECK(lost_m("1 L/s") == Approx(9.66 * velocity * velocity / (2.0 * gravity_m_s2)).epsilon(0.02));
}

TEST_CASE("a spring check opens only when its opening head stands over it") {
  const auto flow_under = [](const std::string& surface) {
    return solved("farm: check\ncreeks: {c: {surface: " + surface +
                  "}}\nponds: {p: {surface: 99 m}}\npipes: {a: {from: c, to: p, size: 1 in SIDR "
                  "15, length: 30 m, fittings: [spring check]}}\n")
        .pipe("a")
        .flow_m3_s;
  };
  // 0.35 psi is 0.246 m of water (catalogue: 0.2 to 0.5 psi, from memory).
  CHECK(flow_under("99.23 m") == 0.0);
  CHECK(flow_under("99.27 m") > litres(0.01));
}

}  // namespace leat::tests
