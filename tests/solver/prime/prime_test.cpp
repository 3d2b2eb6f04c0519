#include "solver/prime/prime.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <variant>

#include <catch2/catch.hpp>

#include "tests/support/primed_farm.h"

namespace leat::tests {

namespace {

using solver::InletClosing;
using solver::OutletClosing;
using solver::PrimeNeed;
using solver::PrimePlan;
using solver::PrimeStep;

namespace priming = solver::priming;

double poured(const PrimePlan& plan) {
  double sum = 0.0;
  for (const PrimeStep& step : plan.steps) {
    sum += step.volume_m3.value_or(0.0);
  }
  return sum;
}

/// Codes of the findings the plan carries.
std::string flags_of(const PrimePlan& plan) {
  std::string codes;
  for (const solver::Finding& flag : plan.answer.flags) {
    codes += std::string(solver::word_of(flag.code)) + " @ " + flag.where + "\n";
  }
  return codes;
}

/// The code of the finding with which a line is not to be filled; empty where it is none.
std::string unsafe_code(const PrimePlan& plan) {
  const auto* const unsafe =
      plan.refusal ? std::get_if<priming::FoundUnsafe>(&*plan.refusal) : nullptr;
  return unsafe == nullptr ? "" : solver::word_of(unsafe->finding.code);
}

/// Index of the step that shuts or opens that branch; the number of steps where there is none.
template <class Action>
std::size_t step_at_branch(const PrimePlan& plan, const std::string& pipe) {
  std::size_t i = step_that<Action>(plan);
  while (i < plan.steps.size() && std::get<Action>(plan.steps[i].action).branch.pipe != pipe) {
    i = step_that<Action>(plan, i + 1);
  }
  return i;
}

std::vector<std::string> pipes_of(const std::vector<priming::Branch>& branches) {
  std::vector<std::string> names;
  for (const priming::Branch& branch : branches) {
    names.push_back(branch.pipe);
  }
  return names;
}

}  // namespace

TEST_CASE("each step of a priming plan names a thing that is in the file") {
  for (const char* const name : {"01-over-the-rise",
                                 "05-tangle",
                                 "08-foot-valve-on-a-short-siphon",
                                 "02-high-trough",
                                 "07-air-that-stays"}) {
    const Planned made = planned(demo_text(name));
    CAPTURE(name);
    REQUIRE_FALSE(made.plan.steps.empty());
    for (const PrimeStep& step : made.plan.steps) {
      const bool is_place =
          std::any_of(made.farm.places.begin(), made.farm.places.end(), [&](const auto& place) {
            return place.name == step.where;
          });
      const bool is_pipe = std::any_of(made.farm.pipes.begin(),
                                       made.farm.pipes.end(),
                                       [&](const auto& pipe) { return pipe.name == step.where; });
      CHECK((is_place || is_pipe));
    }
  }
}

TEST_CASE("the water of all steps is the water the pipe holds") {
  // 1-1/4 in SIDR 15: bore 1.380 in (reference B1). Path lengths by Pythagoras:
  // (40, 3.5) 40.1528, (50, 4) 50.1597, (60, 5) 60.2080, (150, 13) 150.5623, (120, 11) 120.5031 ft:
  // 421.5859 ft. Volume pi/4 (1.380/12)^2 x 421.5859 = 4.37892 ft3 = 32.7567 gal.
  const Planned made = planned(demo_text("01-over-the-rise"));
  const double gallons = 32.7567;
  CHECK(made.plan.course.volume_m3 / 3.785411784e-3 == Approx(gallons).epsilon(1e-3));
  CHECK(poured(made.plan) == Approx(made.plan.course.volume_m3).epsilon(1e-3));
  double legs = 0.0;
  for (const solver::PrimeLeg& leg : made.plan.course.legs) {
    legs += leg.volume_m3;
  }
  CHECK(legs == Approx(made.plan.course.volume_m3).epsilon(1e-9));
  // 1.2 times that ready: 39.3 gal.
  const auto& carry = action_of<priming::CarryWater>(made.plan);
  CHECK(carry.ready_m3 / 3.785411784e-3 == Approx(39.3).margin(0.05));
  CHECK(carry.line_m3 == made.plan.course.volume_m3);
}

TEST_CASE("water is poured in with both ends shut and an opening at the top, and never else") {
  for (const std::string& more :
       {std::string(),
        std::string("    valve: {type: gate, open: 1/2, at: end}\n"),
        std::string("    fittings: [{hinged foot valve: start}]\n"),
        std::string("    valve: {type: ball, open: 100 %, at: start}\n")}) {
    const PrimePlan plan = planned(high_siphon(more)).plan;
    CAPTURE(more, flags_of(plan));
    REQUIRE(plan.need == PrimeNeed::ByHand);
    const bool has_foot_valve = more.find("foot valve") != std::string::npos;
    const bool has_end_valve = more.find("at: end") != std::string::npos;
    const bool has_start_valve = more.find("at: start") != std::string::npos;
    CHECK(plan.inlet.by == (has_foot_valve    ? InletClosing::By::OneWay
                            : has_start_valve ? InletClosing::By::Valve
                                              : InletClosing::By::Plug));
    CHECK(plan.outlet.by ==
          (has_end_valve ? OutletClosing::By::Valve : OutletClosing::By::FittedValve));
    CHECK_FALSE(action_of<priming::CloseOutlet>(plan).left_open);
    const std::size_t pour = step_that<priming::Pour>(plan);
    const std::size_t cap = step_that<priming::CapSummit>(plan);
    const std::size_t let_in = step_that<priming::OpenInlet>(plan);
    const std::size_t let_out = step_that<priming::OpenOutlet>(plan);
    CHECK(step_that<priming::KnowHowToStop>(plan) == 0);
    CHECK(step_that<priming::CloseInlet>(plan) < pour);
    CHECK(step_that<priming::CloseOutlet>(plan) < pour);
    CHECK(step_that<priming::OpenSummit>(plan) < pour);
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
  const PrimePlan plan = planned(high_siphon("    valve: {type: gate, open: 1/2, at: end}\n")).plan;
  CHECK(plan.outlet.opening == 0.5);
  const PrimePlan full =
      planned(high_siphon("    valve: {type: gate, open: 100 %, at: end}\n")).plan;
  CHECK(full.outlet.opening == 1.0);
}

TEST_CASE("a valve the file has shut is planned for as open") {
  const PrimePlan shut = planned(high_siphon("    valve: {type: gate, shut: yes, at: end}\n")).plan;
  const PrimePlan open =
      planned(high_siphon("    valve: {type: gate, open: 100 %, at: end}\n")).plan;
  REQUIRE(shut.need == PrimeNeed::ByHand);
  CHECK(shut.flow_m3_s.value() == Approx(open.flow_m3_s.value()));
  CHECK(shut.opened_valves == std::vector<std::string>{"siphon"});
  CHECK(shut.outlet.opening == 1.0);
  CHECK(open.opened_valves.empty());
}

TEST_CASE("filling leaves the air its way and takes as long as its volume asks") {
  // 32 mm PE100 SDR 11: the bore is the catalogue's; 0.3 m/s x pi/4 bore^2.
  solver::PrimeOptions slow;
  slow.fill_m3_s = 2.0 / 60000.0;
  const Planned made = planned(high_siphon(), slow);
  CHECK(made.plan.rate.fill_m3_s == Approx(2.0 / 60000.0));
  CHECK(made.plan.rate.fill_s == Approx(made.plan.course.volume_m3 * 60000.0 / 2.0));
  solver::PrimeOptions fast;
  fast.fill_m3_s = 100.0 / 60000.0;
  const Planned hurried = planned(high_siphon(), fast);
  const double bore = in_metres(hurried.farm.pipes[0].size.bore);
  const double area = std::numbers::pi / 4.0 * bore * bore;
  CHECK(hurried.plan.rate.pump_m3_s == Approx(0.3 * area));
  // Poured in at the top the air must come up past the water: 0.35 sqrt(9.80665 x bore), in half of
  // the bore. The 0.35 is from memory, the half common practice, no source.
  CHECK(hurried.plan.rate.fill_m3_s == Approx(0.35 * std::sqrt(9.80665 * bore) * area / 2.0));
  REQUIRE(remark_of<priming::PourSlower>(hurried.plan) != nullptr);
  CHECK(remark_of<priming::PourSlower>(hurried.plan)->fill_m3_s == hurried.plan.rate.fill_m3_s);
  CHECK(remark_of<priming::PourSlower>(made.plan) == nullptr);
  // Time until the pond's own water comes: volume by flow.
  CHECK(action_of<priming::WaitForOwnWater>(hurried.plan).after_s ==
        Approx(hurried.plan.course.volume_m3 / hurried.plan.flow_m3_s.value()));
}

TEST_CASE("the fill pump must lift water to the summit", "[reference]") {
  INFO("reference E5.1: 0.4335 psi a foot of water");
  solver::PrimeOptions creep;
  creep.fill_m3_s = 1e-7;  // no friction to speak of
  const Planned made = planned(demo_text("01-over-the-rise"), creep);
  // From the end at 77 ft to the summit at 106 ft: 29 ft x 0.4335 = 12.57 psi (water at 58 F is a
  // little lighter).
  REQUIRE(made.plan.pump.has_value());
  CHECK(made.plan.pump->needed_Pa / 6894.757 == Approx(12.57).epsilon(2e-3));
  // At a real rate friction comes on top.
  const PrimePlan real = planned(demo_text("01-over-the-rise")).plan;
  CHECK(real.pump->needed_Pa > made.plan.pump->needed_Pa);
  // 72 % of 100 psi at the lowest point, which is the end itself.
  CHECK(real.pump->has_limit);
  CHECK(real.pump->most_Pa / 6894.757 == Approx(72.0).epsilon(1e-3));
}

TEST_CASE("a weak fill pump stops below the summit and a strong one is too much for a dip") {
  solver::PrimeOptions weak;
  weak.shut_off_Pa = 9806.65 * 6.0;
  const Planned made = planned(high_siphon(), weak);
  // 6 m of water from the end at 12 m: it stops at 18 m, 4 m short of 22 m.
  CHECK(made.plan.pump->reaches_m.value() == Approx(18.0).epsilon(1e-3));
  REQUIRE(remark_of<priming::PumpInstead>(made.plan) != nullptr);
  const std::optional<priming::OwnPump>& own = remark_of<priming::PumpInstead>(made.plan)->own;
  REQUIRE(own.has_value());
  CHECK(own->short_m == Approx(4.0).epsilon(5e-3));
  CHECK_FALSE(own->is_too_strong);
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
  CHECK(plan.answer.flags.front().code == solver::Code::OverRating);
  // By bucket it can be done all the same.
  CHECK(plan.need == PrimeNeed::ByHand);
  CHECK(planned(dip).plan.need == PrimeNeed::ByHand);
}

TEST_CASE("a line that its own priming water would overload is not to be primed") {
  const PrimePlan plan = planned(siphon_over_deep_dip).plan;
  CAPTURE(flags_of(plan));
  // 22 + 29 = 51 m of water: 500 kPa, over 496 kPa; from the source it would be 49 m, 480 kPa.
  REQUIRE(plan.need == PrimeNeed::CannotHold);
  CHECK(plan.steps.empty());
  CHECK(unsafe_code(plan) == "over-rating");
  CHECK(std::get<priming::FoundUnsafe>(*plan.refusal).by_own_water);
}

TEST_CASE("a siphon that cannot hold is refused with the reason and no steps") {
  const std::string text = siphon_too_high;
  const PrimePlan plan = planned(text).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  CHECK(plan.steps.empty());
  CHECK(unsafe_code(plan) == "parted");
  CHECK_FALSE(std::get<priming::FoundUnsafe>(*plan.refusal).by_own_water);
  // Where the water parts, the leg up to the summit alone decides: a lower end adds nothing.
  CHECK(remark_of<priming::PartedFlow>(plan) != nullptr);
  std::string lower = text;
  lower.replace(lower.find("{level: 8 m}"), 12, "{level: 4 m}");
  lower.replace(lower.find("[100 m, 8 m]"), 12, "[100 m, 4 m]");
  CHECK(planned(lower).plan.flow_m3_s.value() == Approx(plan.flow_m3_s.value()).epsilon(1e-4));
}

TEST_CASE("a vent on a siphon's summit makes priming useless", "[reference]") {
  INFO("reference F8: never an automatic vent where the running pressure is below the air's");
  const PrimePlan low = planned(high_siphon("    vents: [20 m]\n")).plan;
  CHECK(low.need == PrimeNeed::CannotHold);
  const auto& spilling = std::get<priming::VentInTheWay>(low.refusal.value());
  CHECK(spilling.pipe == "siphon");
  CHECK(spilling.at_m == Approx(20.0));
  CHECK_FALSE(spilling.stands_higher);
  const PrimePlan tall = planned(high_siphon("    vents: [{at: 20 m, top: 25 m}]\n")).plan;
  CHECK(tall.need == PrimeNeed::CannotHold);
  CHECK(std::get<priming::VentInTheWay>(tall.refusal.value()).stands_higher);
}

TEST_CASE("a siphon that would empty its spring box is not to be primed") {
  const PrimePlan plan = planned(demo_text("06-siphon-that-breaks")).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  CHECK(unsafe_code(plan) == "breaks");
}

TEST_CASE("a siphon whose end stands above its water is refused") {
  const PrimePlan plan = planned(siphon_uphill()).plan;
  CHECK(plan.need == PrimeNeed::CannotHold);
  const auto& uphill = std::get<priming::EndAboveSource>(plan.refusal.value());
  CHECK(uphill.source_m == Approx(20.0));
  CHECK(uphill.end_m == Approx(21.0));
}

TEST_CASE("a line that stays below its water needs no priming and says how it fills") {
  const Planned made = planned(demo_text("07-air-that-stays"));
  CHECK(made.plan.need == PrimeNeed::FillsItself);
  CHECK_FALSE(made.plan.pump.has_value());
  // Both rises stand open before any water comes, and are closed in the order it comes to them.
  const auto at_m = [&made](std::size_t step) {
    const solver::PrimeAction& action = made.plan.steps.at(step).action;
    const auto* const open = std::get_if<priming::OpenBeforeWater>(&action);
    return open != nullptr ? open->point.at_m
                           : std::get<priming::CloseHighPoint>(action).point.at_m;
  };
  const std::size_t opened = step_that<priming::OpenBeforeWater>(made.plan);
  const std::size_t let_in = step_that<priming::LetWaterIn>(made.plan);
  const std::size_t closed = step_that<priming::CloseHighPoint>(made.plan);
  REQUIRE(let_in == opened + 2);
  REQUIRE(closed > let_in);
  REQUIRE(step_that<priming::LetItRunFull>(made.plan) == closed + 2);
  CHECK(at_m(opened) == Approx(110.0));
  CHECK(at_m(opened + 1) == Approx(230.0));
  CHECK(at_m(closed) == Approx(110.0));
  CHECK(at_m(closed + 1) == Approx(230.0));
  CHECK(std::get<priming::OpenBeforeWater>(made.plan.steps[opened].action).is_first);
  CHECK(poured(made.plan) == Approx(made.plan.course.volume_m3));
  // It fills no faster than it runs, which is less than 0.3 m/s here.
  CHECK(made.plan.rate.fill_m3_s == Approx(made.plan.flow_m3_s.value()));
  CHECK(made.plan.rate.fill_s == Approx(made.plan.course.volume_m3 / made.plan.flow_m3_s.value()));
  // Falling legs 39.2 - 38.3 and 39.0 - 38.2 hold back 1.7 m, the fall is 40 - 39.1 = 0.9 m.
  CHECK(made.plan.lock.lifted_m == Approx(1.7));
  CHECK(made.plan.lock.fall_m == Approx(0.9));
  REQUIRE(remark_of<priming::AirHoldsBack>(made.plan) != nullptr);
  CHECK_FALSE(remark_of<priming::AirHoldsBack>(made.plan)->starts);
  // Vents let the air out by themselves.
  std::string vented = demo_text("07-air-that-stays");
  vented += "    vents: [{at: 110 m, top: 40.3 m}, {at: 230 m, top: 40.3 m}]\n";
  const PrimePlan plan = planned(vented).plan;
  CHECK(plan.lock.pockets == 0);
  CHECK(step_that<priming::OpenBeforeWater>(plan) == plan.steps.size());
}

TEST_CASE("a poppet foot valve throttles a short siphon and hardly a long one") {
  // Trade computation (trade-needs, section 1): about 28 % on 12 m, 8 % on 60 m.
  solver::PrimeOptions options;
  options.pipe = "short siphon";
  const PrimePlan brief = planned(demo_text("08-foot-valve-on-a-short-siphon"), options).plan;
  options.pipe = "long siphon";
  const PrimePlan lengthy = planned(demo_text("08-foot-valve-on-a-short-siphon"), options).plan;
  const auto loss = [](const PrimePlan& plan) {
    return 1.0 - plan.flow_m3_s.value() / plan.flow_without_foot_valve_m3_s.value();
  };
  CHECK(loss(brief) == Approx(0.28).margin(0.06));
  CHECK(loss(lengthy) == Approx(0.08).margin(0.02));
  CHECK(remark_of<priming::FootValvePrice>(brief) != nullptr);
  CHECK_FALSE(planned(high_siphon()).plan.flow_without_foot_valve_m3_s.has_value());
}

TEST_CASE("branches of a siphon are kept out before it is filled and let in when it runs") {
  const PrimePlan plan = planned(siphon_with_branches).plan;
  CAPTURE(flags_of(plan));
  REQUIRE(plan.need == PrimeNeed::ByHand);
  using How = priming::ShutBranch::How;
  const std::size_t pour = step_that<priming::Pour>(plan);
  CHECK(plan.steps.at(pour).where == "crest");
  const std::size_t side = step_at_branch<priming::ShutBranch>(plan, "side");
  const std::size_t valved = step_at_branch<priming::ShutBranch>(plan, "valved");
  REQUIRE(side < pour);
  REQUIRE(valved < pour);
  CHECK(std::get<priming::ShutBranch>(plan.steps[side].action).how == How::HasNoValve);
  CHECK(std::get<priming::ShutBranch>(plan.steps[valved].action).how == How::AtItsValve);
  const std::size_t side_in = step_at_branch<priming::LetBranchIn>(plan, "side");
  CHECK(side_in > pour);
  REQUIRE(side_in < plan.steps.size());
  CHECK(std::get<priming::LetBranchIn>(plan.steps[side_in].action).leaves);
  // The flow with every branch open can be measured only after the last is.
  const std::size_t measure = step_that<priming::MeasureFlow>(plan);
  CHECK(step_at_branch<priming::LetBranchIn>(plan, "valved") < measure);
  CHECK(measure < plan.steps.size());
  // Stopped at its lower end alone the water would run on to the branches.
  CHECK(pipes_of(action_of<priming::KnowHowToStop>(plan).shut_off) ==
        std::vector<std::string>{"side", "valved"});
  CHECK(poured(plan) == Approx(plan.course.volume_m3));
}

TEST_CASE("a float that does not close against the full line gets a valve in front of it") {
  // The full line puts 10 m of water on it: 98 kPa.
  const PrimePlan plan = planned(siphon_to_weak_float).plan;
  CHECK(plan.outlet.by == OutletClosing::By::FittedValve);
  CHECK(plan.outlet.at_float);
  CHECK(plan.outlet.closes_against_Pa.value() == Approx(50e3));
  CHECK(plan.outlet.standing_Pa == Approx(98e3).epsilon(5e-3));
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
  CHECK_FALSE(unknown.is_made());
  CHECK(std::get<priming::UnknownPipe>(unknown.problem.value()).near == "low");
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
  CHECK_FALSE(plan.is_made());
  CHECK(std::get<priming::RunsBackwards>(plan.problem.value()).pipe == "line");
}

TEST_CASE("the way to stop a siphon shuts off every branch that takes its water") {
  const PrimePlan plan = planned(demo_text("05-tangle")).plan;
  REQUIRE(plan.need == PrimeNeed::ByHand);
  // 'cross valve' is shut in the file and stays so.
  const auto drowned = [](const priming::Branch& branch) {
    return branch.pipe == "drowned end" && branch.tee == "creek tee";
  };
  for (const auto& branches : {action_of<priming::KnowHowToStop>(plan).shut_off,
                               action_of<priming::Watch>(plan).shut_off}) {
    const std::vector<std::string> pipes = pipes_of(branches);
    CHECK(std::any_of(branches.begin(), branches.end(), drowned));
    CHECK(std::count(pipes.begin(), pipes.end(), "cross valve") == 0);
  }
  const std::size_t shut = step_at_branch<priming::ShutBranch>(plan, "drowned end");
  REQUIRE(shut < step_that<priming::Pour>(plan));
  CHECK(std::get<priming::ShutBranch>(plan.steps[shut].action).how ==
        priming::ShutBranch::How::HasNoValve);
}

TEST_CASE("a line whose pipe the suction flattens, or whose water parts, is never filled") {
  const PrimePlan flat = planned(demo_text("11-sucked-flat")).plan;
  CHECK(flat.need == PrimeNeed::CannotHold);
  CHECK(flat.steps.empty());
  CHECK(unsafe_code(flat) == "collapse");
  CHECK_FALSE(flat.course.fills_itself());
  // A line that fills by itself is asked the same.
  for (const auto& [name, code] :
       {std::pair<const char*, const char*>{"10-dip-over-its-rating", "over-rating"},
        std::pair<const char*, const char*>{"14-knee-before-the-bank", "parted"},
        std::pair<const char*, const char*>{"15-float-that-lets-air-in", "air-in"}}) {
    const PrimePlan plan = planned(demo_text(name)).plan;
    CAPTURE(name, flags_of(plan));
    CHECK(plan.need == PrimeNeed::CannotHold);
    CHECK(plan.steps.empty());
    CHECK(plan.course.fills_itself());
    CHECK(unsafe_code(plan) == code);
    CHECK_FALSE(std::get<priming::FoundUnsafe>(*plan.refusal).by_own_water);
  }
  // A knock comes from shutting a valve too fast, not from filling.
  CHECK(planned(demo_text("12-slammed-valve")).plan.need == PrimeNeed::FillsItself);
}

TEST_CASE("a cap is asked for only where a hand can take it off") {
  const PrimePlan low = planned(low_siphon()).plan;
  CAPTURE(flags_of(low));
  REQUIRE(low.need == PrimeNeed::ByHand);
  CHECK(low.outlet.by == OutletClosing::By::Cap);
  // 22 - 12 = 10 m: 98 kPa, more than 50 kPa.
  const PrimePlan high = planned(high_siphon()).plan;
  CHECK(high.outlet.by == OutletClosing::By::FittedValve);
  CHECK_FALSE(high.outlet.is_under_water());
  CHECK(high.outlet.standing_Pa == Approx(98e3).epsilon(5e-3));
  // The same low line with its end under a pond's water.
  const PrimePlan drowned = planned(low_siphon("  end: {surface: 18.5 m}")).plan;
  CHECK(drowned.outlet.by == OutletClosing::By::FittedValve);
  CHECK(drowned.outlet.depth_m == Approx(0.5));
  CHECK(action_of<priming::MeasureFlow>(drowned).is_lifted);
  CHECK_FALSE(action_of<priming::MeasureFlow>(low).is_lifted);
}

TEST_CASE("ends that are only capped or plugged are not shut again while water runs") {
  const PrimePlan low = planned(low_siphon()).plan;
  const auto& watch = action_of<priming::Watch>(low);
  CHECK(low.inlet.by == InletClosing::By::Plug);
  CHECK(watch.top_up == priming::Watch::TopUp::BeginAgain);
  CHECK(watch.begin_at == step_that<priming::CarryWater>(low) + 1);
}

TEST_CASE("a plug that would hold back more than a hand can trust is a foot valve instead") {
  // Summit 20.9 m, inlet 15 m: 5.9 m of water, 58 kPa.
  const PrimePlan plan = planned(low_siphon("outlets:\n  end: {level: 18 m}",
                                            "[[0 m, 15 m], [20 m, 20.9 m], [60 m, 18 m]]"))
                             .plan;
  REQUIRE(plan.need == PrimeNeed::ByHand);
  CHECK(plan.inlet.by == InletClosing::By::FittedFootValve);
  CHECK(step_that<priming::CloseInlet>(plan) < step_that<priming::Pour>(plan));
  CHECK(step_that<priming::OpenInlet>(plan) == plan.steps.size());
  // The flow was reckoned with the file as it is, and the sheet says so.
  CHECK(remark_of<priming::FootValveToFit>(plan) != nullptr);
  CHECK(remark_of<priming::NoFootValve>(plan) == nullptr);
}

TEST_CASE("an end that the line rises to stays open until its air is out") {
  // A dip at 16 m before the end at 18 m.
  const PrimePlan plan =
      planned(low_siphon("outlets:\n  end: {level: 18 m}",
                         "[[0 m, 19 m], [20 m, 21 m], [50 m, 16 m], [70 m, 18 m]]"))
          .plan;
  REQUIRE(plan.need == PrimeNeed::ByHand);
  const std::size_t pour = step_that<priming::Pour>(plan);
  const std::size_t shut = step_that<priming::ShutOutlet>(plan);
  CHECK(action_of<priming::CloseOutlet>(plan).left_open);
  CHECK(plan.outlet.by == OutletClosing::By::Cap);
  CHECK(step_that<priming::CloseOutlet>(plan) < pour);
  CHECK(pour < shut);
  CHECK(shut < step_that<priming::PourOn>(plan));
  CHECK(step_that<priming::PourOn>(plan) < plan.steps.size());
  CHECK(poured(plan) == Approx(plan.course.volume_m3).epsilon(1e-9));
  // Both sides of the dip stand at 18 m, the end's level, when water comes to it: of the falling
  // leg 2 of its 5 m of height, sqrt(30^2 + 5^2) x 2/5 = 12.166 m, and the rise,
  // sqrt(20^2 + 2^2) = 20.100 m. The whole: sqrt(404) + sqrt(925) + sqrt(404) = 70.614 m.
  CHECK(plan.steps.at(shut).volume_m3.value() / plan.course.volume_m3 ==
        Approx((12.166 + 20.100) / 70.614).epsilon(1e-3));
}

TEST_CASE("a fill pump is joined to a valve, and the steps it replaces are named") {
  const PrimePlan valved = planned(demo_text("01-over-the-rise")).plan;
  const auto* const pump = remark_of<priming::PumpInstead>(valved);
  REQUIRE(pump != nullptr);
  CHECK(pump->replaces == std::vector<std::size_t>{step_that<priming::CloseOutlet>(valved) + 1,
                                                   step_that<priming::Pour>(valved) + 1});
  CHECK(valved.outlet.by == OutletClosing::By::Valve);
  CHECK(valved.outlet.valve == model::ValveType::Gate);
  CHECK(pump->draws_at_end);
  // Where the plan itself has a valve fitted, only the pouring is replaced.
  const PrimePlan fitted = planned(high_siphon()).plan;
  REQUIRE(remark_of<priming::PumpInstead>(fitted) != nullptr);
  CHECK(remark_of<priming::PumpInstead>(fitted)->replaces ==
        std::vector<std::size_t>{step_that<priming::Pour>(fitted) + 1});
}

TEST_CASE("a pump that is too strong is not said to reach the summit and be done") {
  solver::PrimeOptions strong;
  strong.shut_off_Pa = 3000e3;
  const PrimePlan plan = planned(high_siphon(), strong).plan;
  REQUIRE(remark_of<priming::PumpInstead>(plan) != nullptr);
  CHECK(remark_of<priming::PumpInstead>(plan)->own.value().is_too_strong);
  CHECK(remark_of<priming::PumpInstead>(plan)->own.value().short_m < 0.0);
  // Where nothing is to be pumped it is not passed over.
  const PrimePlan flat = planned(demo_text("11-sucked-flat"), strong).plan;
  REQUIRE(remark_of<priming::PumpIdle>(flat) != nullptr);
  CHECK_FALSE(remark_of<priming::PumpIdle>(flat)->fills_itself);
  const PrimePlan filling = planned(demo_text("07-air-that-stays"), strong).plan;
  REQUIRE(remark_of<priming::PumpIdle>(filling) != nullptr);
  CHECK(remark_of<priming::PumpIdle>(filling)->fills_itself);
}

}  // namespace leat::tests
