// Reading a farm's text: 1 000, 10 000 and 100 000 pipes, with paths, fittings and troughs.
#include <cstdint>
#include <string>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "model/keys/farm_file.h"

namespace leat::bench {

namespace {

/// A chain of tees downhill from one spring; every fourth has a trough on a branch of its own,
/// every tenth pipe a path and fittings.
std::string farm_text(std::int64_t pipes) {
  std::string tees = "tees:\n";
  std::string troughs = "troughs:\n";
  std::string lines = "pipes:\n";
  std::int64_t made = 0;
  std::string before = "head spring";
  double level = 500.0;
  for (std::int64_t i = 0; made < pipes; ++i) {
    const std::string tee = fmt::format("tee {}", i);
    const double next = level - 0.001;
    tees += fmt::format("  {}: {:.3f} m\n", tee, next);
    lines += fmt::format("  line {}: {{from: {}, to: {}, size: 1 in SIDR 15, ", i, before, tee);
    // The spring's pipe starts at its intake.
    const double start = i == 0 ? 499.0 : level;
    lines += i % 10 == 0 ? fmt::format(
                               "path: [[0 m, {0:.3f} m], [30 m, {1:.3f} m], "
                               "[60 m, {2:.3f} m]], fittings: [2 elbow]}}\n",
                               start,
                               start - 2.0,
                               next)
                         : "length: 60 m}\n";
    ++made;
    if (i % 4 == 0 && made < pipes) {
      troughs += fmt::format("  trough {}: {{float: {:.3f} m, need: 2 L/min}}\n", i, next - 5.0);
      lines += fmt::format(
          "  branch {0}: {{from: {1}, to: trough {0}, size: 3/4 in SIDR 15, length: 20 m}}\n",
          i,
          tee);
      ++made;
    }
    before = tee;
    level = next;
  }
  return "farm: Long Chain\nsprings:\n"
         "  head spring: {overflow: 500 m, intake: 499 m, yield: 30 L/min}\n" +
         tees + troughs + lines;
}

void load(benchmark::State& bench) {
  const std::string text = farm_text(bench.range(0));
  for (auto round : bench) {
    const model::LoadedFarm loaded = model::load_farm(text, "long-chain.yaml");
    if (!loaded.farm) {
      bench.SkipWithError(loaded.problems.front().text.c_str());
      return;
    }
    benchmark::DoNotOptimize(loaded.farm->pipes.data());
  }
  bench.counters["bytes"] = static_cast<double>(text.size());
}

BENCHMARK(load)->Name("load")->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace leat::bench
