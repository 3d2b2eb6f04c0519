#include "solver/prime.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>
#include <string>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::PrimeNeed;
using solver::PrimePlan;
using solver::PrimeStep;

struct Planned {
  model::Farm farm;
  PrimePlan plan;
};

Planned planned(const std::string& text, const solver::PrimeOptions& options = {}) {
  model::Farm farm = farm_of(text);
  PrimePlan plan = solver::priming_plan(farm, options);
  return {std::move(farm), std::move(plan)};
}

std::string demo(const std::string& name) {
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml",
                       std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

bool has_text(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

/// The first step whose text has that piece; the number of steps where there is none.
std::size_t step_with(const PrimePlan& plan, const std::string& piece) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(), [&](const PrimeStep& step) {
    return has_text(step.text, piece);
  });
  return static_cast<std::size_t>(found - plan.steps.begin());
}

double poured(const PrimePlan& plan) {
  double sum = 0.0;
  for (const PrimeStep& step : plan.steps) {
    sum += step.volume_m3.value_or(0.0);
  }
  return sum;
}

std::string all_of(const PrimePlan& plan) {
  std::string text = plan.verdict;
  for (const PrimeStep& step : plan.steps) {
    text += "\n" + step.where + ": " + step.text;
  }
  for (const std::string& remark : plan.remarks) {
    text += "\n- " + remark;
  }
  return text;
}

/// A siphon from a pond at 20 m over 22 m to an outlet at 12 m; `more` belongs to the pipe.
std::string siphon(const std::string& more = "", const std::string& place = "end: {level: 12 m}") {
  return "farm: siphon\nponds:\n  upper: {surface: 20 m}\noutlets:\n  " + place +
         "\npipes:\n  siphon:\n    from: upper\n    to: end\n    size: 32 mm PE100 SDR 11\n"
         "    path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]\n" +
         more;
}

}  // namespace

TEST_CASE("each step of a priming plan names a thing that is in the file") {
  for (const char* const name : {"01-over-the-rise",
                                 "05-tangle",
                                 "08-foot-valve-on-a-short-siphon",
                                 "02-high-trough",
                                 "07-air-that-stays"}) {
    const Planned made = planned(demo(name));
    CAPTURE(name);
    REQUIRE_FALSE(made.plan.steps.empty());
    for (const PrimeStep& step : made.plan.steps) {
      CAPTURE(step.text);
      const bool is_place =
          std::any_of(made.farm.places.begin(), made.farm.places.end(), [&](const auto& place) {
            return place.name == step.where;
          });
      const bool is_pipe = std::any_of(made.farm.pipes.begin(),
                                       made.farm.pipes.end(),
                                       [&](const auto& pipe) { return pipe.name == step.where; });
      CHECK((is_place || is_pipe));
      CHECK(has_text(step.text, step.where));
    }
  }
}

TEST_CASE("the water of all steps is the water the pipe holds") {
  // 1-1/4 in SIDR 15: bore 1.380 in (reference B1). Path lengths by Pythagoras:
  // (40, 3.5) 40.1528, (50, 4) 50.1597, (60, 5) 60.2080, (150, 13) 150.5623, (120, 11) 120.5031 ft:
  // 421.5859 ft. Volume pi/4 (1.380/12)^2 x 421.5859 = 4.37892 ft3 = 32.7567 gal.
  const Planned made = planned(demo("01-over-the-rise"));
  const double gallons = 32.7567;
  CHECK(made.plan.course.volume_m3 / 3.785411784e-3 == Approx(gallons).epsilon(1e-3));
  CHECK(poured(made.plan) == Approx(made.plan.course.volume_m3).epsilon(1e-3));
  double legs = 0.0;
  for (const solver::PrimeLeg& leg : made.plan.course.legs) {
    legs += leg.volume_m3;
  }
  CHECK(legs == Approx(made.plan.course.volume_m3).epsilon(1e-9));
  // 1.2 times that ready: 39.3 gal.
  CHECK(has_text(made.plan.steps.at(step_with(made.plan, "Carry")).text, "39.3 gal"));
  CHECK(has_text(made.plan.steps.at(step_with(made.plan, "Carry")).text, "40 jugs of 1 gal"));
}

TEST_CASE("water is poured in with both ends shut and an opening at the top, and never else") {
  for (const std::string& more :
       {std::string(),
        std::string("    valve: {type: gate, open: 1/2, at: end}\n"),
        std::string("    fittings: [{hinged foot valve: start}]\n"),
        std::string("    valve: {type: ball, open: 100 %, at: start}\n")}) {
    const PrimePlan plan = planned(siphon(more)).plan;
    CAPTURE(all_of(plan));
    REQUIRE(plan.need == PrimeNeed::ByHand);
    const bool has_foot_valve = has_text(more, "foot valve");
    const bool has_end_valve = has_text(more, "at: end");
    const bool has_start_valve = has_text(more, "at: start");
    const std::size_t stop = step_with(plan, "Know how to stop it");
    const std::size_t inlet = step_with(plan,
                                        has_foot_valve    ? "foot valve is clean and shuts"
                                        : has_start_valve ? "shut the ball valve at the start"
                                                          : "Put a plug on a cord");
    const std::size_t outlet =
        step_with(plan, has_end_valve ? "shut the gate valve at the end" : "put a cap on the end");
    const std::size_t open_top = step_with(plan, "Open the line at the summit");
    const std::size_t pour = step_with(plan, "Pour water in");
    const std::size_t cap = step_with(plan, "Cap the summit");
    const std::size_t let_in =
        step_with(plan, has_start_valve ? "open the ball valve at the start" : "pull the plug");
    const std::size_t let_out =
        step_with(plan, has_end_valve ? "open the gate valve at the end" : "work the cap off");
    CHECK(stop == 0);
    CHECK(inlet < pour);
    CHECK(outlet < pour);
    CHECK(open_top < pour);
    CHECK(pour < cap);
    // The inlet is never opened before the top is capped, the end never before the inlet.
    if (has_foot_valve) {
      CHECK(let_in == plan.steps.size());
    } else {
      CHECK(cap < let_in);
      CHECK(let_in < let_out);
    }
    CHECK(cap < let_out);
    CHECK(let_out < plan.steps.size());
  }
}

TEST_CASE("the opening of the last valve is the file's own") {
  const PrimePlan plan = planned(siphon("    valve: {type: gate, open: 1/2, at: end}\n")).plan;
  CHECK(step_with(plan, "to 1/2 open") < plan.steps.size());
  const PrimePlan full = planned(siphon("    valve: {type: gate, open: 100 %, at: end}\n")).plan;
  CHECK(step_with(full, "until it is wide open") < full.steps.size());
}

TEST_CASE("a valve the file has shut is planned for as open") {
  const PrimePlan shut = planned(siphon("    valve: {type: gate, shut: yes, at: end}\n")).plan;
  const PrimePlan open = planned(siphon("    valve: {type: gate, open: 100 %, at: end}\n")).plan;
  REQUIRE(shut.need == PrimeNeed::ByHand);
  CHECK(shut.flow_m3_s.value() == Approx(open.flow_m3_s.value()));
  CHECK(has_text(shut.verdict, "The file has the valve of siphon shut"));
}

TEST_CASE("filling keeps to 0.3 m/s and takes as long as its volume asks") {
  // 32 mm PE100 SDR 11: the bore is the catalogue's; 0.3 m/s x pi/4 bore^2.
  solver::PrimeOptions slow;
  slow.fill_m3_s = 5.0 / 60000.0;
  const Planned made = planned(siphon(), slow);
  CHECK(made.plan.fill_m3_s == Approx(5.0 / 60000.0));
  CHECK(made.plan.fill_s == Approx(made.plan.course.volume_m3 * 60000.0 / 5.0));
  solver::PrimeOptions fast;
  fast.fill_m3_s = 100.0 / 60000.0;
  const Planned hurried = planned(siphon(), fast);
  const double bore = in_metres(hurried.farm.pipes[0].size.bore);
  CHECK(hurried.plan.fill_m3_s == Approx(0.3 * std::numbers::pi / 4.0 * bore * bore));
  CHECK(has_text(all_of(hurried.plan), "hold it to"));
  // Time until the pond's own water comes: volume by flow.
  const PrimeStep& wait =
      hurried.plan.steps.at(step_with(hurried.plan, "the water you poured in runs out"));
  CHECK(wait.time_s.value() ==
        Approx(hurried.plan.course.volume_m3 / hurried.plan.flow_m3_s.value()));
}

TEST_CASE("the fill pump must lift water to the summit", "[reference]") {
  INFO("reference E5.1: 0.4335 psi a foot of water");
  solver::PrimeOptions creep;
  creep.fill_m3_s = 1e-7;  // no friction to speak of
  const Planned made = planned(demo("01-over-the-rise"), creep);
  // From the end at 77 ft to the summit at 106 ft: 29 ft x 0.4335 = 12.57 psi (water at 58 F is a
  // little lighter).
  REQUIRE(made.plan.pump.has_value());
  CHECK(made.plan.pump->needed_Pa / 6894.757 == Approx(12.57).epsilon(2e-3));
  // At a real rate friction comes on top.
  const PrimePlan real = planned(demo("01-over-the-rise")).plan;
  CHECK(real.pump->needed_Pa > made.plan.pump->needed_Pa);
  // 72 % of 100 psi at the lowest point, which is the end itself.
  CHECK(real.pump->has_limit);
  CHECK(real.pump->most_Pa / 6894.757 == Approx(72.0).epsilon(1e-3));
}

TEST_CASE("a weak fill pump stops below the summit and a strong one is too much for a dip") {
  solver::PrimeOptions weak;
  weak.shut_off_Pa = 9806.65 * 6.0;
  const Planned made = planned(siphon(), weak);
  // 6 m of water from the end at 12 m: it stops at 18 m, 4 m short of 22 m.
  CHECK(made.plan.pump->reaches_m.value() == Approx(18.0).epsilon(1e-3));
  CHECK(has_text(all_of(made.plan), "below the summit: fill the rest by hand"));
  // 100 psi pipe (689.5 kPa): 72 % is 496.4 kPa at the dip of 2 m, 10 m below the end at 12 m, so
  // 496.4 - 98.1 = 398 kPa at the end.
  const std::string dip = R"(farm: dip
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m}
pipes:
  siphon: {from: upper, to: end, size: "1 in SIDR 15, 100 psi",
           path: [[0 m, 19 m], [20 m, 22 m], [60 m, 2 m], [100 m, 12 m]]}
)";
  solver::PrimeOptions strong;
  strong.shut_off_Pa = 450e3;
  const PrimePlan plan = planned(dip, strong).plan;
  CHECK(plan.pump->most_Pa / 1000.0 == Approx(398.4).epsilon(2e-3));
  REQUIRE_FALSE(plan.answer.flags.empty());
  CHECK(plan.answer.flags.front().code == "over-rating");
  // By bucket it can be done all the same.
  CHECK(plan.need == PrimeNeed::ByHand);
  CHECK(planned(dip).plan.need == PrimeNeed::ByHand);
}

TEST_CASE("a line that its own priming water would overload is not to be primed") {
  const std::string text = R"(farm: deep dip
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m}
pipes:
  siphon: {from: upper, to: end, size: "1 in SIDR 15, 100 psi",
           path: [[0 m, 19 m], [20 m, 22 m], [140 m, -29 m], [300 m, 12 m]]}
)";
  const PrimePlan plan = planned(text).plan;
  CAPTURE(all_of(plan));
  // 22 + 29 = 51 m of water: 500 kPa, over 496 kPa; from the source it would be 49 m, 480 kPa.
  REQUIRE(plan.need == PrimeNeed::CannotHold);
  CHECK(plan.steps.empty());
  CHECK(has_text(plan.verdict, "filled to the summit with both ends shut"));
}

TEST_CASE("a siphon that cannot hold is refused with the reason and no steps") {
  const std::string text = R"(farm: too high
site: {altitude: 1800 m, water: 21 C}
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 8 m}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 26.5 m], [100 m, 8 m]]}
)";
  const PrimePlan plan = planned(text).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  CHECK(plan.steps.empty());
  CHECK(has_text(plan.verdict, "Do not prime it as it is"));
  // Where the water parts, the leg up to the summit alone decides: a lower end adds nothing.
  CHECK(has_text(all_of(plan), "the leg up to the summit alone decides"));
  std::string lower = text;
  lower.replace(lower.find("{level: 8 m}"), 12, "{level: 4 m}");
  lower.replace(lower.find("[100 m, 8 m]"), 12, "[100 m, 4 m]");
  CHECK(planned(lower).plan.flow_m3_s.value() == Approx(plan.flow_m3_s.value()).epsilon(1e-4));
}

TEST_CASE("a vent on a siphon's summit makes priming useless", "[reference]") {
  INFO("reference F8: never an automatic vent where the running pressure is below the air's");
  const PrimePlan low = planned(siphon("    vents: [20 m]\n")).plan;
  CHECK(low.need == PrimeNeed::CannotHold);
  CHECK(has_text(low.verdict, "the vent on siphon at 20 m"));
  const PrimePlan tall = planned(siphon("    vents: [{at: 20 m, top: 25 m}]\n")).plan;
  CHECK(tall.need == PrimeNeed::CannotHold);
  CHECK(has_text(tall.verdict, "lets air in"));
}

TEST_CASE("a siphon that would empty its spring box is not to be primed") {
  const PrimePlan plan = planned(demo("06-siphon-that-breaks")).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  CHECK(has_text(plan.verdict, "throttle the outlet until it takes less than the yield"));
}

TEST_CASE("a siphon whose end stands above its water is refused") {
  std::string text = siphon("", "end: {level: 21 m}");
  text.replace(text.find("[100 m, 12 m]"), 13, "[100 m, 21 m]");
  const PrimePlan plan = planned(text).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  CHECK(has_text(plan.verdict, "does not run uphill"));
}

TEST_CASE("a line that stays below its water needs no priming and says how it fills") {
  const Planned made = planned(demo("07-air-that-stays"));
  CHECK(made.plan.need == PrimeNeed::FillsItself);
  CHECK_FALSE(made.plan.pump.has_value());
  CHECK(step_with(made.plan, "Open the high point of meadow line at 110 m") <
        made.plan.steps.size());
  CHECK(step_with(made.plan, "Open the high point of meadow line at 230 m") <
        made.plan.steps.size());
  CHECK(poured(made.plan) == Approx(made.plan.course.volume_m3));
  // It fills no faster than it runs, which is less than 0.3 m/s here.
  CHECK(made.plan.fill_m3_s == Approx(made.plan.flow_m3_s.value()));
  CHECK(made.plan.fill_s == Approx(made.plan.course.volume_m3 / made.plan.flow_m3_s.value()));
  // Falling legs 39.2 - 38.3 and 39.0 - 38.2 hold back 1.7 m, the fall is 40 - 39.1 = 0.9 m.
  CHECK(made.plan.lock.lifted_m == Approx(1.7));
  CHECK(made.plan.lock.fall_m == Approx(0.9));
  CHECK(has_text(all_of(made.plan), "it does not start until they are bled"));
  // Vents let the air out by themselves.
  std::string vented = demo("07-air-that-stays");
  vented += "    vents: [{at: 110 m, top: 40.3 m}, {at: 230 m, top: 40.3 m}]\n";
  const PrimePlan plan = planned(vented).plan;
  CHECK(plan.lock.pockets == 0);
  CHECK(step_with(plan, "Open the high point") == plan.steps.size());
}

TEST_CASE("a poppet foot valve throttles a short siphon and hardly a long one") {
  // Trade computation (trade-needs, section 1): about 28 % on 12 m, 8 % on 60 m.
  solver::PrimeOptions options;
  options.pipe = "short siphon";
  const PrimePlan brief = planned(demo("08-foot-valve-on-a-short-siphon"), options).plan;
  options.pipe = "long siphon";
  const PrimePlan lengthy = planned(demo("08-foot-valve-on-a-short-siphon"), options).plan;
  const auto loss = [](const PrimePlan& plan) {
    return 1.0 - plan.flow_m3_s.value() / plan.flow_without_foot_valve_m3_s.value();
  };
  CHECK(loss(brief) == Approx(0.28).margin(0.06));
  CHECK(loss(lengthy) == Approx(0.08).margin(0.02));
  CHECK(has_text(all_of(brief), "Never unscrew it on a running line"));
  CHECK_FALSE(planned(siphon()).plan.flow_without_foot_valve_m3_s.has_value());
}

TEST_CASE("branches of a siphon are kept out before it is filled and let in when it runs") {
  const std::string text = R"(farm: tee on the summit
ponds:
  upper: {surface: 20 m}
tees:
  crest: 22 m
outlets:
  end: {level: 12 m}
troughs:
  side trough: {float: 13 m, need: 5 L/min, seat: 8 mm}
  valved trough: {float: 13 m, need: 5 L/min, seat: 8 mm}
pipes:
  up: {from: upper, to: crest, size: 32 mm PE100 SDR 11, path: [[0 m, 19 m], [60 m, 22 m]]}
  down: {from: crest, to: end, size: 32 mm PE100 SDR 11, length: 120 m}
  side: {from: crest, to: side trough, size: 25 mm PE100 SDR 11, length: 100 m}
  valved: {from: crest, to: valved trough, size: 25 mm PE100 SDR 11, length: 100 m,
           valve: {type: ball, open: 100 %, at: start}}
)";
  const PrimePlan plan = planned(text).plan;
  CAPTURE(all_of(plan));
  REQUIRE(plan.need == PrimeNeed::ByHand);
  const std::size_t pour = step_with(plan, "Pour water in at the summit at crest");
  CHECK(step_with(plan, "side has no valve at crest") < pour);
  CHECK(step_with(plan, "Shut the valve of valved at crest") < pour);
  CHECK(step_with(plan, "let water into side at crest") > pour);
  CHECK(step_with(plan, "let water into side at crest") < plan.steps.size());
  CHECK(poured(plan) == Approx(plan.course.volume_m3));
}

TEST_CASE("a float that does not close against the full line is capped") {
  const std::string text = R"(farm: weak float
ponds:
  upper: {surface: 20 m}
troughs:
  end: {float: 12 m, need: 5 L/min, seat: 8 mm, closes against: 50 kPa}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]}
)";
  // The full line puts 10 m of water on it: 98 kPa.
  const PrimePlan plan = planned(text).plan;
  CHECK(step_with(plan, "more than the 50 kPa it closes against") < plan.steps.size());
  CHECK(step_with(plan, "let its float down slowly") < plan.steps.size());
}

TEST_CASE("without a name the line that climbs highest above its water is planned") {
  const std::string text = R"(farm: two siphons
ponds:
  upper: {surface: 20 m}
outlets:
  a: {level: 12 m}
  b: {level: 12 m}
pipes:
  low: {from: upper, to: a, size: 32 mm PE100 SDR 11, path: [[0 m, 19 m], [20 m, 21 m], [99 m, 12 m]]}
  high: {from: upper, to: b, size: 32 mm PE100 SDR 11, path: [[0 m, 19 m], [20 m, 23 m], [80 m, 12 m]]}
)";
  const Planned made = planned(text);
  CHECK(made.plan.course.line.pipes == std::vector<std::size_t>{1});
  solver::PrimeOptions options;
  options.pipe = "low";
  CHECK(planned(text, options).plan.course.line.pipes == std::vector<std::size_t>{0});
  options.pipe = "lwo";
  const PrimePlan unknown = planned(text, options).plan;
  REQUIRE(unknown.problems.size() == 1);
  CHECK(unknown.problems[0].code == "unknown-pipe");
  CHECK(unknown.problems[0].hint == "did you mean 'low'?");
}

TEST_CASE("a line along which water runs backwards has no plan") {
  const std::string text = R"(farm: backwards
ponds:
  upper: {surface: 20 m}
  lower: {surface: 10 m}
pipes:
  line: {from: lower, to: upper, size: 32 mm PE100 SDR 11, length: 100 m}
)";
  const PrimePlan plan = planned(text).plan;
  REQUIRE(plan.problems.size() == 1);
  CHECK(plan.problems[0].code == "runs-backwards");
}

}  // namespace leat::tests
