// What changes no flow: order, names, a lift of the whole farm, the way a pipe between tees is
// written. And what must: a smaller bore on a single line.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <random>
#include <string>

#include <catch2/catch.hpp>

#include "solver/steady/steady.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

namespace {

using namespace leat::model;

constexpr std::uint64_t farms = 400;

solver::SteadyAnswer solve(const Farm& farm) {
  solver::SteadyAnswer answer = solver::solve_steady(farm, {});
  REQUIRE(answer.converged);
  return answer;
}

double largest_flow(const solver::SteadyAnswer& answer) {
  double largest = 0.0;
  for (const solver::PipeAnswer& pipe : answer.pipes) {
    largest = std::max(largest, std::abs(pipe.flow_m3_s));
  }
  return largest;
}

/// Flows agree to what two stopping tests of 1e-8 m can differ by in the flattest law.
void same_flow(double a, double b, double largest) {
  CHECK(a == Approx(b).margin(2e-6 * largest + 2e-9));
}

void lift(std::optional<Elevation>& level, Length by) {
  if (level) {
    level = *level + by;
  }
}

void lift(MonthSeries<Elevation>& levels, Length by) {
  for (Elevation& level : levels.by_month) {
    level = level + by;
  }
}

void lift_place(Place& place, Length by) {
  if (auto* spring = std::get_if<Spring>(&place.data)) {
    spring->overflow = spring->overflow + by;
    spring->intake = spring->intake + by;
  } else if (auto* creek = std::get_if<Creek>(&place.data)) {
    lift(creek->surface, by);
    lift(creek->intake, by);
  } else if (auto* pond = std::get_if<Pond>(&place.data)) {
    lift(pond->surface, by);
    lift(pond->intake, by);
  } else if (auto* tank = std::get_if<Tank>(&place.data)) {
    tank->floor = tank->floor + by;
    lift(tank->intake, by);
  } else if (auto* trough = std::get_if<Trough>(&place.data)) {
    trough->float_level = trough->float_level + by;
  } else if (auto* outlet = std::get_if<Outlet>(&place.data)) {
    outlet->level = outlet->level + by;
  } else {
    auto& tee = std::get<Tee>(place.data);
    tee.elevation = tee.elevation + by;
  }
}

Farm lifted(Farm farm, Length by) {
  for (Place& place : farm.places) {
    lift_place(place, by);
  }
  for (Pipe& pipe : farm.pipes) {
    lift(pipe.ends, by);
    for (PathPoint& point : pipe.path) {
      point.elevation = point.elevation + by;
    }
    for (Vent& vent : pipe.vents) {
      lift(vent.top, by);
    }
  }
  return farm;
}

/// The same farm with its places and pipes in another order and under other names.
struct Shuffled {
  Farm farm;
  std::vector<std::size_t> pipe_of;  // new index -> old index
};

Shuffled shuffled(const Farm& farm, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::vector<std::size_t> places(farm.places.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::shuffle(places.begin(), places.end(), random);
  std::vector<std::size_t> new_place(places.size());
  Shuffled made{farm, std::vector<std::size_t>(farm.pipes.size())};
  for (std::size_t i = 0; i < places.size(); ++i) {
    made.farm.places[i] = farm.places[places[i]];
    made.farm.places[i].name = "place " + std::to_string(i);
    new_place[places[i]] = i;
  }
  std::iota(made.pipe_of.begin(), made.pipe_of.end(), std::size_t{0});
  std::shuffle(made.pipe_of.begin(), made.pipe_of.end(), random);
  for (std::size_t i = 0; i < made.pipe_of.size(); ++i) {
    Pipe pipe = farm.pipes[made.pipe_of[i]];
    pipe.name = "line " + std::to_string(i);
    pipe.from = new_place[pipe.from];
    pipe.to = new_place[pipe.to];
    made.farm.pipes[i] = pipe;
  }
  return made;
}

bool is_plain_between_tees(const Farm& farm, const Pipe& pipe) {
  return std::holds_alternative<Tee>(farm.places[pipe.from].data) &&
         std::holds_alternative<Tee>(farm.places[pipe.to].data) && !pipe.one_way &&
         !pipe.regulator && !pipe.valve && pipe.vents.empty() && !pipe.entrance_k && !pipe.exit_k &&
         std::none_of(pipe.fittings.begin(), pipe.fittings.end(), [](const Fitting& fitting) {
           return fitting.one_way;
         });
}

Pipe reversed(Pipe pipe) {
  std::swap(pipe.from, pipe.to);
  if (!pipe.path.empty()) {
    const Length run = pipe.path.back().distance;
    std::reverse(pipe.path.begin(), pipe.path.end());
    for (PathPoint& point : pipe.path) {
      point.distance = run - point.distance;
    }
  }
  return pipe;
}

}  // namespace

TEST_CASE("the order in which a farm is written and its names change no flow", "[law]") {
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const Farm farm = random_farm(seed, FarmKind::Everything);
    const Shuffled other = shuffled(farm, seed);
    const solver::SteadyAnswer before = solve(farm);
    const solver::SteadyAnswer after = solve(other.farm);
    INFO("seed " << seed);
    for (std::size_t i = 0; i < other.pipe_of.size(); ++i) {
      same_flow(
          after.pipes[i].flow_m3_s, before.pipes[other.pipe_of[i]].flow_m3_s, largest_flow(before));
    }
  }
}

TEST_CASE("lifting the whole farm by a constant changes no flow", "[law]") {
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const Farm farm = random_farm(seed, FarmKind::Everything);
    const solver::SteadyAnswer before = solve(farm);
    const solver::SteadyAnswer after = solve(lifted(farm, metres(seed % 2 == 0 ? 137.25 : -512.5)));
    INFO("seed " << seed);
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      same_flow(after.pipes[i].flow_m3_s, before.pipes[i].flow_m3_s, largest_flow(before));
    }
  }
}

TEST_CASE("writing a plain pipe between two tees the other way flips its sign only", "[law]") {
  int turned = 0;
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const Farm farm = random_farm(seed, FarmKind::Everything);
    for (std::size_t turn = 0; turn < farm.pipes.size(); ++turn) {
      if (!is_plain_between_tees(farm, farm.pipes[turn])) {
        continue;
      }
      ++turned;
      Farm other = farm;
      other.pipes[turn] = reversed(farm.pipes[turn]);
      const solver::SteadyAnswer before = solve(farm);
      const solver::SteadyAnswer after = solve(other);
      INFO("seed " << seed << " pipe " << turn);
      for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
        const double sign = i == turn ? -1.0 : 1.0;
        same_flow(sign * after.pipes[i].flow_m3_s, before.pipes[i].flow_m3_s, largest_flow(before));
      }
      break;
    }
  }
  CHECK(turned > 100);
}

TEST_CASE("a single line never gets more from a smaller bore or a longer pipe", "[law]") {
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const Farm farm = random_farm(seed, FarmKind::SingleLine);
    Farm narrow = farm;
    narrow.pipes[0].size.bore = narrow.pipes[0].size.bore * 0.9;
    Farm longer = farm;
    longer.pipes[0].length = longer.pipes[0].length * 1.1;
    const double flow = solve(farm).pipes[0].flow_m3_s;
    INFO("seed " << seed);
    CHECK(flow > 0.0);
    CHECK(solve(narrow).pipes[0].flow_m3_s < flow);
    CHECK(solve(longer).pipes[0].flow_m3_s < flow);
  }
}

TEST_CASE("a farm without limits balances and needs no restart", "[law]") {
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const solver::SteadyAnswer answer = solve(random_farm(seed, FarmKind::LimitFree));
    INFO("seed " << seed);
    CHECK(answer.report.restarts == 0);
    CHECK(answer.iterations <= 12);
  }
}

}  // namespace leat::tests
