// What makes a siphon's summit safer and what never does, on random lines of one bore with their
// exit loss, running forward.
#include <cmath>
#include <cstdint>
#include <optional>
#include <random>

#include <catch2/catch.hpp>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/steady/steady.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

namespace {

using namespace leat::model;

constexpr std::uint64_t lines = 600;
/// Two stopping tests of 1e-8 m, carried through a kilometre of pipe.
constexpr double rounding_m = 1e-5;

/// A random line over one rise.
Farm siphon(std::uint64_t seed, Length lift) {
  Farm farm = random_farm(seed, FarmKind::SingleLine);
  Pipe& pipe = farm.pipes.front();
  const double source = in_metres(std::get<Creek>(farm.places[0].data).surface.at(std::nullopt));
  const double end = in_metres(std::get<Outlet>(farm.places[1].data).level);
  const double run = in_metres(pipe.length);
  std::mt19937_64 random(seed);
  const double share = 0.15 + 0.7 * static_cast<double>(random() >> 11) * 0x1.0p-53;
  pipe.path = {{metres(0.0), elevation_metres(source - 0.5)},
               {metres(share * run), elevation_metres(source) + lift},
               {metres(run), elevation_metres(end)}};
  // Long enough for any of the courses below: its length is kept.
  pipe.length = metres(run * 1.1 + 60.0);
  return farm;
}

Length lift_of(std::uint64_t seed) {
  return metres(static_cast<double>(seed % 97) / 97.0 * 8.0);
}

struct Running {
  double flow_m3_s = 0.0;
  double margin_m = 0.0;
  double absolute_head_m = 0.0;
};

/// Flow and summit, where the line runs forward and its summit's head is known.
std::optional<Running> run(const Farm& farm) {
  const solver::SteadyAnswer answer = solver::solve_steady(farm, {});
  REQUIRE(answer.converged);
  const solver::PipeAnswer& pipe = answer.pipes.front();
  if (pipe.flow_m3_s <= 1e-7 || !pipe.summit || !pipe.summit->margin_m) {
    return std::nullopt;
  }
  return Running{pipe.flow_m3_s, *pipe.summit->margin_m, *pipe.summit->absolute_head_m};
}

Farm throttled(Farm farm, double k, Placement::Where where) {
  Fitting fitting;
  fitting.name = "k";
  fitting.loss_coefficient = k;
  fitting.place.where = where;
  farm.pipes.front().fittings.push_back(fitting);
  return farm;
}

Farm with_foot_valve(Farm farm, const char* name) {
  const CatalogueFitting* const found = find_fitting(name);
  REQUIRE(found != nullptr);
  Fitting fitting;
  fitting.name = found->name;
  fitting.loss_coefficient = loss_coefficient(*found, farm.pipes.front().size.bore);
  fitting.one_way = true;
  fitting.lifting_velocity = lifting_velocity(*found, farm.pipes.front().size.bore);
  fitting.place.where = Placement::Where::Start;
  farm.pipes.front().fittings.push_back(fitting);
  return farm;
}

}  // namespace

TEST_CASE("a summit raised with the pipe as long as before never has more left", "[law]") {
  std::uint64_t compared = 0;
  for (std::uint64_t seed = 1; seed <= lines; ++seed) {
    const auto low = run(siphon(seed, lift_of(seed)));
    const auto high = run(siphon(seed, lift_of(seed) + metres(0.7)));
    if (low && high) {
      INFO("seed " << seed);
      CHECK(high->margin_m <= low->margin_m + rounding_m);
      ++compared;
    }
  }
  CHECK(compared > lines / 2);
}

TEST_CASE("a farm moved uphill never has more left at its summit", "[law]") {
  std::uint64_t compared = 0;
  for (std::uint64_t seed = 1; seed <= lines; ++seed) {
    Farm farm = siphon(seed, lift_of(seed));
    const auto low = run(farm);
    farm.site.altitude = farm.site.altitude + metres(800.0);
    const auto high = run(farm);
    if (low && high) {
      INFO("seed " << seed);
      CHECK(high->margin_m <= low->margin_m + rounding_m);
      ++compared;
    }
  }
  CHECK(compared > lines / 2);
}

TEST_CASE("throttling the outlet never lowers the summit's pressure, the inlet never raises it",
          "[law]") {
  std::uint64_t compared = 0;
  for (std::uint64_t seed = 1; seed <= lines; ++seed) {
    const Farm farm = siphon(seed, lift_of(seed));
    const double k = std::pow(10.0, static_cast<double>(seed % 13) / 4.0);
    const auto open = run(farm);
    const auto at_outlet = run(throttled(farm, k, Placement::Where::End));
    const auto at_inlet = run(throttled(farm, k, Placement::Where::Start));
    INFO("seed " << seed << " K " << k);
    if (open && at_outlet) {
      CHECK(at_outlet->absolute_head_m >= open->absolute_head_m - rounding_m);
      ++compared;
    }
    if (open && at_inlet) {
      CHECK(at_inlet->absolute_head_m <= open->absolute_head_m + rounding_m);
    }
  }
  CHECK(compared > lines / 2);
}

TEST_CASE("taking out a foot valve never lowers the flow", "[law]") {
  std::uint64_t compared = 0;
  for (std::uint64_t seed = 1; seed <= lines; ++seed) {
    const Farm farm = siphon(seed, lift_of(seed));
    const char* const name = seed % 2 == 0 ? "poppet foot valve" : "hinged foot valve";
    const auto with = run(with_foot_valve(farm, name));
    const auto without = run(farm);
    if (with && without) {
      INFO("seed " << seed);
      CHECK(without->flow_m3_s >= with->flow_m3_s * (1.0 - 1e-6));
      ++compared;
    }
  }
  CHECK(compared > lines / 2);
}

TEST_CASE("warmer water never leaves more at the summit of a still line", "[law]") {
  for (std::uint64_t seed = 1; seed <= lines; ++seed) {
    Farm farm = siphon(seed, lift_of(seed));
    solver::SteadyOptions still;
    still.load_case = solver::LoadCase::Static;
    double before_m = 1e9;
    // Above 4 C water is the lighter the warmer it is, which carries the air's weight a little
    // higher: at most 0.8 % of it, less than vapour takes.
    for (const double warmth_C : {10.0, 20.0, 30.0, 40.0}) {
      farm.site.water = MonthSeries<Temperature>::constant(celsius(warmth_C));
      const solver::SteadyAnswer answer = solver::solve_steady(farm, still);
      REQUIRE(answer.pipes.front().summit.has_value());
      const double margin_m = answer.pipes.front().summit->margin_m.value();
      INFO("seed " << seed << " at " << warmth_C << " C");
      CHECK(margin_m < before_m);
      before_m = margin_m;
    }
  }
}

}  // namespace leat::tests
