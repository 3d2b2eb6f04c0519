// Why a trough goes short: one sentence, true by its own figures.
#include <cmath>
#include <cstdlib>

#include <catch2/catch.hpp>

#include "tests/render/words/told_farm.h"

namespace leat::tests {

using solver::PlaceState;

namespace {

bool says(const std::string& sentence, const std::string& part) {
  return sentence.find(part) != std::string::npos;
}

/// The number written just before a piece of the sentence: "1.95" before " m above".
double figure_before(const std::string& sentence, const std::string& part) {
  const std::size_t end = sentence.find(part);
  REQUIRE(end != std::string::npos);
  const std::size_t space = sentence.rfind(' ', end - 1);
  const std::size_t start = sentence.find_first_of("0123456789.", space + 1);
  return std::strtod(sentence.c_str() + start, nullptr);
}

}  // namespace

TEST_CASE("a trough that gets what it needs is not explained") {
  const ToldFarm farm = told(R"(
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

TEST_CASE("a float above all water is too high by what stands between") {
  const ToldFarm farm = told(R"(
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
  const std::string text = farm.text(solver::Code::Dry, "hill");
  CAPTURE(farm.flags());
  CHECK(says(text, "too high: its float stands 3.2 m above the highest water that can reach it"));
  CHECK(says(text, "hill trough gets nothing of the 6 L/min it needs"));
  CHECK(farm.place("hill").state == PlaceState::Dry);
  CHECK(farm.place("hill").met.value() < 1e-6);
}

TEST_CASE("a float above the running grade line is told by how much and where") {
  const ToldFarm farm = told(R"(
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
  const std::string text = farm.text(solver::Code::Dry, "north");
  CAPTURE(text);
  REQUIRE(says(text, "its float stands"));
  CHECK(says(text, "above the running grade line at gate tee"));
  const double above_ft =
      (325.0 * metres_per_foot - farm.place("gate tee").head_m.value()) / metres_per_foot;
  CHECK(figure_before(text, " ft above the running") == Approx(above_ft).margin(0.06));
}

TEST_CASE("a long thin pipe takes the fall and is named with its length and size") {
  const ToldFarm farm = told(R"(
farm: too far
creeks: {c: {surface: 100 m}}
troughs: {far: {float: 90 m, need: 0.5 L/s}}
pipes: {a: {from: c, to: far, size: 3/4 in SIDR 15, length: 800 m}}
)");
  const std::string text = farm.text(solver::Code::Starved, "far");
  CAPTURE(text);
  CHECK(says(text, "too far for its pipe: 800 m of 3/4 in SIDR 15 in a"));
  CHECK(says(text, "of the 10 m there is"));
  CHECK(figure_before(text, " m of the 10 m") ==
        Approx(farm.pipe("a").head_loss_m.value()).margin(0.006));
  CHECK(farm.pipe("a").head_loss_m.value() > 5.0);
  CHECK(farm.place("far").state == PlaceState::Starved);
  CHECK(farm.flag(solver::Code::Starved, "far")->value.value() ==
        Approx(farm.place("far").met.value()));
  CHECK(farm.flag(solver::Code::Starved, "far")->limit.value() == 1.0);
}

TEST_CASE("a spring that gives all it has is named with its yield") {
  const ToldFarm farm = told(R"(
farm: short
show: US
springs: {upper: {overflow: 330 ft, yield: {Jul: 2.5 gal/min, Aug: 0.9 gal/min}}}
troughs: {north: {float: 300 ft, need: 2.4 gal/min}}
pipes: {a: {from: upper, to: north, size: 1 in SIDR 15, length: 300 ft}}
)");
  // Between August and July no yield was measured: the lower stands for them, so that all months
  // but July are equally dry and the first is taken.
  const std::string text = farm.text(solver::Code::Starved, "north");
  CAPTURE(text);
  CHECK(says(text, "north trough gets 0.9 of the 2.4 gal/min it needs"));
  CHECK(says(text, "spring short: upper yields 0.9 gal/min and the line takes all of it"));
  CHECK(farm.place("north").met.value() == Approx(0.9 / 2.4));
}

TEST_CASE("springs that together give too little are counted and their yields summed") {
  const ToldFarm farm = told(R"(
farm: both short
springs: {one: {overflow: 100 m, yield: 0.1 L/s}, two: {overflow: 99 m, yield: 0.05 L/s}}
tees: {t: 93 m}
troughs: {low: {float: 92.5 m, need: 1 L/s}}
pipes:
  a: {from: one, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: two, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  const std::string text = farm.text(solver::Code::Starved, "low");
  CHECK(says(text, "springs short: the 2 that feed it yield 9 L/min together"));
  CHECK(farm.place("low").delivered_m3_s == Approx(litres(0.15)));
}

TEST_CASE("a valve part open that takes most of the fall is named with its opening") {
  const auto with_opening = [](const std::string& open) {
    return told(
        "farm: throttled\ncreeks: {c: {surface: 100 m}}\ntroughs: {low: {float: 95 m, "
        "need: 1 L/s}}\npipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 20 m, "
        "valve: {type: ball, at: end, open: " +
        open + "}}}\n");
  };
  const ToldFarm tight = with_opening("40 %");
  const std::string text = tight.text(solver::Code::Starved, "low");
  CAPTURE(text);
  CHECK(says(text, "the valve on a, only 40 % open, takes most of the fall"));
  CHECK(figure_before(text, " m of the 5 m") > 2.5);
  CHECK(tight.place("low").delivered_m3_s < 0.6 * with_opening("80 %").place("low").delivered_m3_s);
}

TEST_CASE("a shut valve on the way is what keeps the trough dry") {
  const ToldFarm farm = told(R"(
farm: shut
creeks: {c: {surface: 100 m}}
tees: {t: 95 m}
troughs: {low: {float: 90 m, need: 0.1 L/s}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m, valve: {type: ball, shut: yes, at: start}}
  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(says(farm.text(solver::Code::Dry, "low"), "the valve on a is shut"));
  CHECK_FALSE(farm.place("low").head_m);
  CHECK_FALSE(farm.place("t").head_m);
  CHECK(farm.flag(solver::Code::CutOff, "t") != nullptr);
  CHECK(farm.place("t").state == PlaceState::Dry);
}

TEST_CASE("a one-way against the flow is named") {
  const ToldFarm farm = told(R"(
farm: one-way
ponds: {p: {surface: 110 m}}
tees: {t: 85 m}
troughs: {low: {float: 100 m, need: 0.1 L/s}}
pipes:
  a: {from: t, to: p, size: 1 in SIDR 15, length: 60 m, fittings: [swing check]}
  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(says(farm.text(solver::Code::Dry, "low"), "the one-way on a lets no water come this way"));
  CHECK(farm.pipe("a").flow_m3_s == 0.0);
}

TEST_CASE("a broken siphon is named with its spring and its high point") {
  const ToldFarm farm = told(R"(
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
  CHECK(says(farm.text(solver::Code::Dry, "low"),
             "the siphon a has broken: up drew down to its intake, 1.3 m below the high point"));
}

TEST_CASE("a seat too small is named with its bore and what it takes") {
  const ToldFarm farm = told(R"(
farm: seat
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 95 m, need: 1 L/s, seat: 6 mm}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  const std::string text = farm.text(solver::Code::Starved, "low");
  CAPTURE(text);
  CHECK(says(text, "the float's seat is too small: at 6.0 mm it takes most of the fall"));
  const double seat_m = farm.place("low").head_m.value() - 95.0;
  CHECK(figure_before(text, " m of the 5 m") == Approx(seat_m).margin(0.006));
  // What the seat passes under that head: Cd A sqrt(2 g h), Cd 0.60 of the format.
  const double area_m2 = 3.141592653589793 / 4.0 * 0.006 * 0.006;
  CHECK(farm.place("low").delivered_m3_s ==
        Approx(0.60 * area_m2 * std::sqrt(2.0 * gravity_m_s2 * seat_m)).epsilon(1e-4));
}

TEST_CASE("an outlet that wishes for more than it gets is told so") {
  const ToldFarm farm = told(R"(
farm: wish
creeks: {c: {surface: 100 m}}
outlets: {garden: {level: 95 m, wished: 2 L/s}}
pipes: {a: {from: c, to: garden, size: 3/4 in SIDR 15, length: 200 m}}
)");
  CHECK(says(farm.text(solver::Code::Starved, "garden"), "garden outlet gets"));
  CHECK(says(farm.text(solver::Code::Starved, "garden"), "of the 120 L/min wished for"));
}

}  // namespace leat::tests
