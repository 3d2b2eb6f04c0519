// A year in steps of an hour on a farm of 20 places, and a cold solve of one of its steps.
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "model/keys/farm_file.h"
#include "solver/network/farm_stores.h"
#include "solver/network/network_of_farm.h"
#include "solver/nodal/newton.h"
#include "solver/season/season.h"
#include "tests/bench/season_farm.h"

namespace leat::bench {

namespace {

model::Farm loaded() {
  model::LoadedFarm read = model::load_farm(season_farm, "bench.yaml");
  if (!read.farm) {
    throw std::runtime_error("the farm of the season's benchmark does not load");
  }
  return *std::move(read.farm);
}

/// The whole study, an iteration a year; `step` counts the time by its steps.
void year(benchmark::State& bench) {
  const model::Farm farm = loaded();
  solver::SeasonOptions options;
  options.from = model::Date{2026, 1, 1};
  options.to = model::Date{2026, 12, 31};
  double steps = 0.0;
  double iterations = 0.0;
  for (auto round : bench) {
    const solver::SeasonAnswer answer = solver::run_season(farm, options);
    if (!answer.converged) {
      bench.SkipWithError("the season found no balance");
      return;
    }
    steps = static_cast<double>(answer.steps);
    iterations = static_cast<double>(answer.iterations);
  }
  bench.counters["steps"] = steps;
  bench.counters["iterations"] = iterations;
}

/// One step of the same farm in August, stock drinking, from a cold start, analysis at hand.
void cold_step(benchmark::State& bench) {
  const model::Farm farm = loaded();
  std::vector<solver::StoreNote> notes;
  const solver::FarmStores stores(farm, model::Date{2026, 8, 15}, notes);
  solver::NetworkOptions options;
  options.month = model::Month::Aug;
  options.stores = &stores;
  const auto network =
      solver::network_of(farm, solver::surroundings_of(farm, options.month), options);
  network->problem.step_s = 3600.0;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const std::size_t drunk = network->places[i].drink_edge;
    if (drunk != solver::no_index && std::holds_alternative<model::Trough>(farm.places[i].data)) {
      network->problem.edges[drunk].limit_m3_s = 1e-3 / 60.0;
    }
  }
  nodal::NodalSolver solver(network->problem);
  if (!solver.solve(network->problem, {}).report.is_usable()) {
    bench.SkipWithError("the step found no balance");
    return;
  }
  for (auto round : bench) {
    benchmark::DoNotOptimize(solver.solve(network->problem, {}).state.head_m.data());
  }
}

BENCHMARK(year)->Name("season/year")->Unit(benchmark::kMillisecond);
BENCHMARK(cold_step)->Name("season/cold-step")->Unit(benchmark::kMicrosecond);

}  // namespace

}  // namespace leat::bench
