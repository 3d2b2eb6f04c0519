// What pipe to lay: farms small enough to be sized by hand.
#include "solver/size/size.h"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "model/catalogue/pipe_catalogue.h"
#include "solver/hydraulics/friction.h"
#include "solver/hydraulics/water.h"
#include "solver/network/pipe_geometry.h"
#include "tests/support/farm_text.h"

namespace leat {
namespace {

using solver::SizeMethod;
using solver::SizePlan;

/// A thousand feet from a pool to an open end, neither entrance nor exit counted.
std::string long_run(const std::string& more) {
  return "farm: long run\nsite: {water: 15 C}\nshow: US\n"
         "creeks: {pool: {surface: 100 ft}}\n"
         "outlets: {low end: {level: 70 ft, wished: 10 gal/min}}\n"
         "pipes:\n  run: {from: pool, to: low end, size: choose, length: 1000 ft, entrance: 0, "
         "exit: 0}\n" +
         more;
}

const char* const three_prices =
    "prices: {1 in SIDR 15: 0.40 per ft, 1-1/4 in SIDR 15: 0.62 per ft, "
    "1-1/2 in SIDR 15: 0.80 per ft}\n";

SizePlan plan_of(const std::string& text, const solver::SizeOptions& options = {}) {
  const model::Farm farm = tests::farm_of(text);
  SizePlan plan = solver::size_plan(farm, options);
  for (const model::Diagnostic& problem : plan.problems) {
    UNSCOPED_INFO(problem.text);
  }
  return plan;
}

template <class Note>
bool has_note(const SizePlan& plan) {
  return std::any_of(plan.notes.begin(), plan.notes.end(), [](const solver::SizeNote& note) {
    return std::holds_alternative<Note>(note);
  });
}

const solver::Finding* flag_of(const SizePlan& plan, solver::Code code) {
  const auto& flags = plan.answer.flags;
  const auto found =
      std::find_if(flags.begin(), flags.end(), [&](const auto& flag) { return flag.code == code; });
  return found == flags.end() ? nullptr : &*found;
}

/// Head lost in a foot of the pipe at 10 gal/min [m/m].
double gradient(double bore_in) {
  const hydraulics::Water water = hydraulics::water_at(celsius(15.0));
  const hydraulics::FrictionLaw law =
      hydraulics::darcy_weisbach(bore_in * 0.0254, 1.0, 1.5e-6, water.kinematic_viscosity_m2_s);
  return hydraulics::friction_loss(law, in_cubic_metres_per_second(us_gallons_per_minute(10.0)))
      .loss_m;
}

const char* const forked =
    "farm: forked\nshow: metric\nsite: {water: 12 C}\n"
    "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 40 L/min}}\n"
    "tees: {fork: 50 m}\n"
    "troughs:\n  high: {float: 54 m, need: 8 L/min, seat: 10 mm}\n"
    "  low: {float: 40 m, need: 12 L/min, seat: 10 mm}\n"
    "pipes:\n"
    "  main: {from: box, to: fork, size: choose, length: 200 m, fittings: [strainer, 2 elbow]}\n"
    "  to high: {from: fork, to: high, size: choose, length: 150 m}\n"
    "  to low: {from: fork, to: low, size: choose, length: 180 m}\n";

const char* const metric_prices =
    "prices: {20 mm PE100 SDR 11: 0.9 per m, 25 mm PE100 SDR 11: 1.3 per m, "
    "32 mm PE100 SDR 11: 2 per m, 40 mm PE100 SDR 11: 3.1 per m}\n";

}  // namespace

TEST_CASE("A long run is laid in two sizes that just use up the fall", "[size]") {
  const SizePlan plan = plan_of(long_run(three_prices));
  REQUIRE(plan.problems.empty());
  CHECK(plan.method == SizeMethod::Exact);
  REQUIRE(plan.runs.size() == 1);
  REQUIRE(plan.runs[0].parts.size() == 2);
  // L1 = (H - L S2) / (S1 - S2), the narrow pipe's length (method of BC factsheet 590.304-5).
  const double narrow = gradient(1.049);
  const double wide = gradient(1.380);
  const double expected_ft = (30.0 - 1000.0 * wide) / (narrow - wide);
  CHECK(plan.runs[0].parts[0].size.text == "1-1/4 in SIDR 15");
  CHECK(plan.runs[0].parts[1].size.text == "1 in SIDR 15");
  CHECK(in_feet(metres(plan.runs[0].parts[1].length_m)) == Approx(expected_ft).margin(0.1));
  CHECK(*plan.cost == Approx(0.40 * expected_ft + 0.62 * (1000.0 - expected_ft)).epsilon(1e-4));
  CHECK(*plan.bound == Approx(*plan.cost));
  CHECK(plan.runs[0].parts[0].length_m + plan.runs[0].parts[1].length_m ==
        Approx(304.8).epsilon(1e-12));
}

TEST_CASE("In one size the same run takes the next wider pipe whole", "[size]") {
  solver::SizeOptions options;
  options.one_size = true;
  const SizePlan plan = plan_of(long_run(three_prices), options);
  REQUIRE(plan.runs.at(0).parts.size() == 1);
  CHECK(plan.runs[0].parts[0].size.text == "1-1/4 in SIDR 15");
  CHECK(*plan.cost == Approx(620.0).epsilon(1e-9));
  CHECK(plan.method == SizeMethod::Exact);
}

TEST_CASE("The real farm with the sizes laid gives what is wished for", "[size]") {
  const SizePlan plan = plan_of(long_run(three_prices));
  REQUIRE(plan.answer.converged);
  CHECK(plan.laid.pipes.size() == 2);
  CHECK(plan.laid.pipes[0].name == "run a");
  CHECK(plan.laid.pipes[1].name == "run b");
  CHECK(plan.answer.places.at(1).met == Approx(1.0).margin(1e-3));
  CHECK(flag_of(plan, solver::Code::Starved) == nullptr);
}

TEST_CASE("Pipe in store is laid first and costs nothing", "[size]") {
  const SizePlan bought = plan_of(long_run(three_prices));
  const SizePlan plan =
      plan_of(long_run(std::string(three_prices) + "stock: {1-1/2 in SIDR 15: 300 ft}\n"));
  CHECK(*plan.cost < *bought.cost - 100.0);
  REQUIRE(plan.runs.at(0).parts.size() >= 2);
  CHECK(plan.runs[0].parts[0].size.text == "1-1/2 in SIDR 15");
  CHECK(in_feet(metres(plan.runs[0].parts[0].length_m)) == Approx(300.0).margin(0.01));
  CHECK(*plan.runs[0].parts[0].cost == 0.0);
}

TEST_CASE("Stock alone is laid where it reaches, and more is never laid than there is", "[size]") {
  const SizePlan plan =
      plan_of(long_run("prices: {2 in SIDR 15: 2 per ft}\nstock: {1-1/4 in SIDR 15: 400 ft}\n"));
  double narrow_ft = 0.0;
  for (const solver::SizedPart& part : plan.runs.at(0).parts) {
    narrow_ft += part.size.text == "1-1/4 in SIDR 15" ? in_feet(metres(part.length_m)) : 0.0;
  }
  CHECK(narrow_ft == Approx(400.0).margin(0.01));
  CHECK(*plan.cost == Approx(1200.0).margin(0.1));
}

TEST_CASE("Without prices the lightest pipe of the farm's kind is taken and no cost is told",
          "[size]") {
  const SizePlan plan = plan_of(long_run(""));
  CHECK_FALSE(plan.cost);
  CHECK_FALSE(plan.bound);
  CHECK_FALSE(plan.runs.at(0).parts.at(0).cost);
  CHECK(plan.runs[0].parts[0].size.text.find("SIDR 15") != std::string::npos);
  CHECK(has_note<solver::ChosenByWeight>(plan));
}

TEST_CASE("Every trough of a forked line gets its need in the sizes chosen", "[size]") {
  const SizePlan plan = plan_of(std::string(forked) + metric_prices);
  REQUIRE(plan.answer.converged);
  CHECK(plan.method == SizeMethod::Exact);
  for (const solver::PlaceAnswer& water : plan.answer.places) {
    if (water.met) {
      CHECK(*water.met >= 0.995);
    }
  }
}

TEST_CASE("Two sizes in a run are never dearer than one", "[size]") {
  solver::SizeOptions one;
  one.one_size = true;
  const SizePlan in_one = plan_of(std::string(forked) + metric_prices, one);
  const SizePlan in_two = plan_of(std::string(forked) + metric_prices);
  CHECK(*in_two.cost <= *in_one.cost + 1e-9);
  CHECK(*in_two.bound <= *in_one.bound + 1e-9);
}

TEST_CASE("A weak size is not laid where the still water is over its rating", "[size]") {
  // 80 m of still water are 785 kPa, over 0.72 of SIDR 15's lowest rating (538 kPa), not of SIDR 7.
  const SizePlan plan = plan_of(
      "farm: deep\nsite: {water: 12 C}\ncreeks: {pool: {surface: 100 m}}\n"
      "troughs: {deep: {float: 20 m, need: 10 L/min, seat: 4 mm}}\n"
      "pipes:\n  line: {from: pool, to: deep, size: choose, length: 900 m}\n"
      "prices: {1 in SIDR 15: 1 per m, '1 in SIDR 7, 200 psi': 3 per m}\n");
  CHECK(plan.runs.at(0).parts.at(0).size.text == "1 in SIDR 7, 200 psi");
  CHECK(flag_of(plan, solver::Code::OverRating) == nullptr);
}

TEST_CASE("A siphon's rise is laid wide enough to keep its summit from vapour", "[size]") {
  // The fall is ample, but the summit stands 5.6 m over the pool: what the rising leg may lose is
  // what is left of the air's pressure.
  const auto siphon = [](double summit_m) {
    return fmt::format(
        "farm: siphon\nsite: {{water: 12 C}}\ncreeks: {{pool: {{surface: 20 m}}}}\n"
        "troughs: {{low: {{float: 5 m, need: 20 L/min, seat: 8 mm}}}}\n"
        "pipes:\n  line: {{from: pool, to: low, size: choose, length: 230 m, "
        "path: [[0 m, 19.5 m], [150 m, {} m], [220 m, 5 m]]}}\n{}",
        summit_m,
        metric_prices);
  };
  const SizePlan low = plan_of(siphon(20.5));
  const SizePlan high = plan_of(siphon(25.6));
  CHECK(*high.cost > *low.cost + 1.0);
  REQUIRE(high.answer.converged);
  double margin_m = 1e9;
  for (const solver::PipeAnswer& pipe : high.answer.pipes) {
    if (pipe.summit && pipe.summit->margin_m) {
      margin_m = std::min(margin_m, *pipe.summit->margin_m);
    }
  }
  CHECK(margin_m >= 2.5);
  CHECK(margin_m < 4.0);
}

TEST_CASE("No run is faster at its needs than plastic pipe may be", "[size]") {
  // 60 m of fall would drive 30 L/min through 20 mm pipe at 2.5 m/s.
  const SizePlan plan =
      plan_of(std::string("farm: steep\nsite: {water: 12 C}\ncreeks: {pool: {surface: 60 m}}\n"
                          "troughs: {low: {float: 20 m, need: 30 L/min, seat: 10 mm}}\n"
                          "pipes:\n  line: {from: pool, to: low, size: choose, length: 120 m}\n") +
              metric_prices);
  for (const solver::PipeAnswer& pipe : plan.answer.pipes) {
    CHECK(std::abs(pipe.velocity_m_s) <= 1.524 * 1.0001);
  }
}

TEST_CASE("A ring is sized by trying and says how far it may be from the cheapest", "[size]") {
  const SizePlan plan = plan_of(
      std::string("farm: ring\nsite: {water: 12 C}\ncreeks: {pool: {surface: 60 m}}\n"
                  "tees: {west: 50 m, east: 50 m}\n"
                  "troughs:\n  one: {float: 45 m, need: 12 L/min, seat: 10 mm}\n"
                  "  two: {float: 48 m, need: 9 L/min, seat: 10 mm}\n"
                  "pipes:\n"
                  "  a: {from: pool, to: west, size: choose, length: 150 m}\n"
                  "  b: {from: pool, to: east, size: choose, length: 200 m}\n"
                  "  c: {from: west, to: east, size: choose, length: 80 m}\n"
                  "  to one: {from: west, to: one, size: 25 mm PE100 SDR 11, length: 60 m}\n"
                  "  to two: {from: east, to: two, size: 25 mm PE100 SDR 11, length: 60 m}\n") +
      metric_prices);
  REQUIRE(plan.answer.converged);
  CHECK(plan.runs.size() == 3);
  REQUIRE(plan.bound);
  CHECK(*plan.bound <= *plan.cost + 1e-9);
  CHECK(flag_of(plan, solver::Code::Starved) == nullptr);
  CHECK((plan.method == SizeMethod::Improved || *plan.bound == Approx(*plan.cost)));
}

TEST_CASE("A spring that yields too little is sized for what it has, and that is said", "[size]") {
  std::string text = std::string(forked) + metric_prices;
  text.replace(text.find("yield: 40"), 9, "yield: 15");
  const SizePlan plan = plan_of(text);
  REQUIRE(plan.answer.converged);
  CHECK(plan.method == SizeMethod::Improved);
  CHECK(has_note<solver::PartlyReached>(plan));
}

TEST_CASE("The line into a tank is sized for what is drunk below it in a day", "[size]") {
  const SizePlan plan = plan_of(
      std::string("farm: tank\nsite: {water: 12 C}\n"
                  "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 30 L/min}}\n"
                  "tanks: {store: {floor: 50 m, full: 2 m, depth: 1 m, diameter: 2 m}}\n"
                  "troughs: {yard: {float: 40 m, need: 4320 L/day, within: 6 h, seat: 10 mm}}\n"
                  "pipes:\n  fill: {from: box, to: store, size: choose, length: 600 m}\n"
                  "  draw: {from: store, to: yard, size: choose, length: 200 m}\n") +
      metric_prices);
  REQUIRE(plan.answer.converged);
  // 4320 L in a day is 3 L/min around the clock, 12 L/min within six hours.
  CHECK(plan.answer.pipes.at(0).flow_m3_s >= 3e-3 / 60.0 * 0.995);
  const auto of_tank = [](const solver::StoreRule& rule) { return rule.place == 1; };
  CHECK(std::count_if(plan.stores.begin(), plan.stores.end(), of_tank) == 6);
}

TEST_CASE("A farm without a run to size is refused by name, one with a pump is sized", "[size]") {
  const SizePlan none = plan_of(
      "farm: f\ncreeks: {c: {surface: 10 m}}\nponds: {p: {surface: 2 m}}\n"
      "pipes: {a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m}}\n");
  CHECK(none.problems.empty());
  CHECK(none.refusals == std::vector{solver::SizeRefusal::NothingToSize});
  const SizePlan pumped = plan_of(
      "farm: f\ncreeks: {c: {surface: 10 m}}\nponds: {p: {surface: 2 m}}\n"
      "pumps: {lift: {from: c, to: p, curve: [[0 L/min, 20 m], [40 L/min, 12 m]]}}\n"
      "pipes: {a: {from: c, to: p, size: choose, length: 60 m}}\n");
  REQUIRE(pumped.problems.empty());
  REQUIRE(pumped.refusals.empty());
  REQUIRE(pumped.runs.size() == 1);
  CHECK(pumped.runs[0].parts.size() == 1);
}

TEST_CASE("A run with a summit, a vent and placed fittings keeps them when it is parted",
          "[size]") {
  const model::Farm farm = tests::farm_of(
      "farm: f\ncreeks: {c: {surface: 20 m}}\noutlets: {o: {level: 2 m}}\n"
      "pipes:\n  line: {from: c, to: o, size: choose, length: 110 m, "
      "path: [[0 m, 19 m], [40 m, 12 m], [60 m, 14 m], [100 m, 2 m]], "
      "vents: [{at: 60 m, top: 30 m}], exit: 0.7, "
      "fittings: [strainer, 3 elbow, {swing check: 80 m}, {ball valve: end}]}\n");
  const model::PipeSize wide = *model::find_pipe_size("1-1/4 in SIDR 15");
  const model::PipeSize narrow = *model::find_pipe_size("1 in SIDR 15");
  const solver::LaidFarm laid =
      solver::laid_farm(farm, {{0, {{wide, 80.0}, {narrow, 30.0}}}}, std::nullopt);
  REQUIRE(laid.farm.pipes.size() == 2);
  const model::Pipe& first = laid.farm.pipes[0];
  const model::Pipe& second = laid.farm.pipes[1];
  CHECK(in_metres(first.length + second.length) == Approx(110.0).epsilon(1e-12));
  CHECK(first.path.size() + second.path.size() == 6);
  CHECK(in_metres(first.path.back().elevation) == Approx(in_metres(second.path[0].elevation)));
  CHECK(in_metres(second.path[0].distance) == 0.0);
  CHECK(first.vents.size() == 1);
  CHECK(second.vents.empty());
  CHECK(first.fittings.size() == 2);   // strainer and, the longest part's, the elbows
  CHECK(second.fittings.size() == 2);  // the check, nearer its start by as much, and the end's
  CHECK(in_metres(second.fittings[0].place.distance) ==
        Approx(80.0 - in_metres(first.path.back().distance)));
  CHECK_FALSE(first.exit_k);
  CHECK(second.exit_k == 0.7);
}

TEST_CASE("A joint is never laid on a summit, which would hide it", "[size]") {
  const model::Farm farm = tests::farm_of(
      "farm: f\ncreeks: {c: {surface: 20 m}}\noutlets: {o: {level: 2 m}}\n"
      "pipes:\n  line: {from: c, to: o, size: choose, length: 106 m, "
      "path: [[0 m, 19 m], [60 m, 21 m], [100 m, 2 m]]}\n");
  const double to_summit_m = solver::course_of(farm, farm.pipes[0], std::nullopt).points[1].along_m;
  const model::PipeSize size = *model::find_pipe_size("1 in SIDR 15");
  const solver::LaidFarm laid = solver::laid_farm(
      farm, {{0, {{size, to_summit_m}, {size, 106.0 - to_summit_m}}}}, std::nullopt);
  CHECK(solver::course_of(laid.farm, laid.farm.pipes[0], std::nullopt).summits().size() == 1);
}

TEST_CASE(
    "A trough that fills slowly holds a day, one that fills within the hour two gallons a head",
    "[size]") {
  // USDA Livestock Watering Data Sheet, as reference I3.4.
  const double day_m3 = 2.0;
  CHECK(solver::volume_by_refill_m3(day_m3, 30.0, day_m3 / 3000.0) ==
        Approx(60.0 * 3.785411784e-3));
  CHECK(solver::volume_by_refill_m3(day_m3, 30.0, day_m3 / (3.9 * 3600.0)) == Approx(0.5));
  CHECK(solver::volume_by_refill_m3(day_m3, 30.0, day_m3 / (4.1 * 3600.0)) == Approx(2.0));
  CHECK(solver::volume_by_refill_m3(day_m3, 30.0, 0.0) == Approx(2.0));
}

TEST_CASE("What a herd drinks beyond the flow of its hours must stand in the trough", "[size]") {
  CHECK(solver::volume_for_hours_m3(1.2, 4.0, 1.2 / 86400.0) == Approx(1.0));  // 20 of 24 hours
  CHECK(solver::volume_for_hours_m3(1.2, 24.0, 1.2 / 86400.0) == 0.0);
}

}  // namespace leat
