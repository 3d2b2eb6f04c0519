// Solves random farms by the million on every core and says how it went.
//   million [FARMS] [--printed]
// FARMS is 1 000 000 when not given: half of the prototype's kind, half with everything, seeds from
// 1 on, every fifth farm with its floats wide open (the farms of random_farms_test.cpp).
// Each farm is solved once and its network held against the laws of water. With --printed the
// whole study runs instead (tees that draw air, siphons that break), and its printed answer is
// audited. Exit status 1 when a farm stays unsolved or a law is broken, 2 for a wrong argument.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <ctime>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <fmt/format.h>

#include "render/words/audit.h"
#include "solver/audit/audit.h"
#include "solver/flow/flow_state.h"
#include "solver/steady/steady.h"
#include "tests/support/random_farm.h"
#include "tests/support/water_laws.h"

namespace leat::tests {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t slowest_kept = 10;
/// Farms a core takes at a time: enough that asking for more costs nothing.
constexpr std::uint64_t farms_a_turn = 250;

enum class Depth { Network, Printed };

/// One farm's seed and how hard it was.
struct Effort {
  std::uint64_t seed = 0;
  FarmKind kind = FarmKind::Prototype;
  int iterations = 0;
  double milliseconds = 0.0;
};

bool is_slower(const Effort& a, const Effort& b) {
  return a.iterations != b.iterations ? a.iterations > b.iterations : a.seed < b.seed;
}

const char* word_of(FarmKind kind) {
  return kind == FarmKind::Prototype ? "prototype's kind" : "everything";
}

std::string named(const Effort& farm) {
  return fmt::format("seed {} ({})", farm.seed, word_of(farm.kind));
}

/// A largest figure and the farm it was met in.
struct Worst {
  double figure = 0.0;
  Effort farm;

  void take(double other, const Effort& where) {
    if (other > figure) {
      figure = other;
      farm = where;
    }
  }
};

/// What one core counted; added up at the end.
struct Tally {
  std::uint64_t farms = 0;
  std::uint64_t restarted = 0;
  std::map<int, std::map<FarmKind, std::uint64_t>> by_iterations;
  Worst residual_m;
  Worst imbalance;  // share of the farm's largest flow, which counts as 1e-6 L/s at least
  Worst head_difference_m;
  std::vector<Effort> slowest;
  std::vector<std::string> unsolved;
  std::vector<std::string> broken;

  void keep(const Effort& farm) {
    ++farms;
    ++by_iterations[farm.iterations][farm.kind];
    slowest.push_back(farm);
    if (slowest.size() >= 4 * slowest_kept) {
      trim();
    }
  }
  void trim() {
    std::sort(slowest.begin(), slowest.end(), is_slower);
    slowest.resize(std::min(slowest.size(), slowest_kept));
  }
  void add(const Tally& other) {
    farms += other.farms;
    restarted += other.restarted;
    for (const auto& [iterations, kinds] : other.by_iterations) {
      for (const auto& [kind, count] : kinds) {
        by_iterations[iterations][kind] += count;
      }
    }
    residual_m.take(other.residual_m.figure, other.residual_m.farm);
    imbalance.take(other.imbalance.figure, other.imbalance.farm);
    head_difference_m.take(other.head_difference_m.figure, other.head_difference_m.farm);
    slowest.insert(slowest.end(), other.slowest.begin(), other.slowest.end());
    unsolved.insert(unsolved.end(), other.unsolved.begin(), other.unsolved.end());
    broken.insert(broken.end(), other.broken.begin(), other.broken.end());
    trim();
  }
};

solver::LoadCase load_case_of(std::uint64_t seed) {
  return seed % 5 == 0 ? solver::LoadCase::Wide : solver::LoadCase::Needs;
}

/// Residual and imbalance of the state the report ended at.
void take_residuals(const nodal::SolveReport& report,
                    double largest_flow_m3_s,
                    const Effort& farm,
                    Tally& tally) {
  if (report.table.empty()) {
    return;
  }
  tally.residual_m.take(report.table.back().residual_m, farm);
  tally.imbalance.take(
      report.table.back().imbalance_m3_s / std::max(largest_flow_m3_s, solver::still_flow_m3_s),
      farm);
}

double milliseconds_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

void solve_network(Effort effort, Tally& tally) {
  const model::Farm farm = random_farm(effort.seed, effort.kind);
  solver::NetworkOptions options;
  options.load_case = load_case_of(effort.seed);
  const auto start = Clock::now();
  const solver::FlowState state =
      solver::solve_flow(farm, solver::surroundings_of(farm, std::nullopt), options);
  effort.milliseconds = milliseconds_since(start);
  const nodal::SolveReport& report = state.solution.report;
  effort.iterations = report.iterations;
  tally.keep(effort);
  tally.restarted += report.restarts > 0 ? 1 : 0;
  if (!report.is_usable()) {
    tally.unsolved.push_back(fmt::format("{}: {}", named(effort), report.sentence));
    return;
  }
  double largest_flow = 0.0;
  for (const double flow : state.solution.state.flow_m3_s) {
    largest_flow = std::max(largest_flow, std::abs(flow));
  }
  take_residuals(report, largest_flow, effort, tally);
  if (const auto law = broken_law(state)) {
    tally.broken.push_back(fmt::format("{}: {}", named(effort), *law));
  }
}

void solve_printed(Effort effort, Tally& tally) {
  const model::Farm farm = random_farm(effort.seed, effort.kind);
  solver::SteadyOptions options;
  options.load_case = load_case_of(effort.seed);
  const auto start = Clock::now();
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options);
  effort.milliseconds = milliseconds_since(start);
  effort.iterations = answer.iterations;
  tally.keep(effort);
  tally.restarted += answer.report.restarts > 0 ? 1 : 0;
  if (!answer.converged) {
    tally.unsolved.push_back(fmt::format("{}: {}", named(effort), answer.report.sentence));
    return;
  }
  double largest_flow = 0.0;
  for (const solver::PipeAnswer& pipe : answer.pipes) {
    largest_flow = std::max(largest_flow, std::abs(pipe.flow_m3_s));
  }
  take_residuals(answer.report, largest_flow, effort, tally);
  const solver::AuditReport audit = solver::audit_answer(farm, answer);
  tally.head_difference_m.take(audit.largest_head_difference_m, effort);
  if (!audit.holds()) {
    tally.broken.push_back(fmt::format("{}: {}", named(effort), render::audit_sentence(audit)));
  }
}

Tally solve_all(std::uint64_t farms, Depth depth, unsigned cores) {
  std::vector<Tally> tallies(cores);
  std::atomic<std::uint64_t> next{0};
  const auto work = [&](Tally& tally) {
    for (std::uint64_t first = next.fetch_add(farms_a_turn); first < farms;
         first = next.fetch_add(farms_a_turn)) {
      for (std::uint64_t i = first; i < std::min(farms, first + farms_a_turn); ++i) {
        Effort farm;
        farm.seed = i / 2 + 1;
        farm.kind = i % 2 == 0 ? FarmKind::Prototype : FarmKind::Everything;
        depth == Depth::Network ? solve_network(farm, tally) : solve_printed(farm, tally);
      }
    }
  };
  std::vector<std::thread> threads;
  for (Tally& tally : tallies) {
    threads.emplace_back(work, std::ref(tally));
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  Tally sum;
  for (const Tally& tally : tallies) {
    sum.add(tally);
  }
  return sum;
}

std::uint64_t count_of(const std::map<FarmKind, std::uint64_t>& kinds, FarmKind kind) {
  const auto found = kinds.find(kind);
  return found == kinds.end() ? 0 : found->second;
}

void print_histogram(const Tally& tally) {
  fmt::print("{:>10}  {:>16}  {:>10}\n", "iterations", "prototype's kind", "everything");
  double sum = 0.0;
  // Beyond 20 the counts are few: they are gathered in tens, then hundreds.
  std::map<int, std::map<FarmKind, std::uint64_t>> gathered;
  const auto start_of_bin = [](int iterations) {
    const int width = iterations <= 20 ? 1 : iterations <= 100 ? 10 : 100;
    return (iterations - (width > 1 ? 1 : 0)) / width * width + (width > 1 ? 1 : 0);
  };
  for (const auto& [iterations, kinds] : tally.by_iterations) {
    for (const auto& [kind, count] : kinds) {
      gathered[start_of_bin(iterations)][kind] += count;
      sum += iterations * static_cast<double>(count);
    }
  }
  for (const auto& [first, kinds] : gathered) {
    const int width = first <= 20 ? 1 : first <= 100 ? 10 : 100;
    const std::string label =
        width == 1 ? fmt::format("{}", first) : fmt::format("{}-{}", first, first + width - 1);
    fmt::print("{:>10}  {:>16}  {:>10}\n",
               label,
               count_of(kinds, FarmKind::Prototype),
               count_of(kinds, FarmKind::Everything));
  }
  fmt::print("mean {:.2f} iterations, {} farms restarted\n",
             sum / static_cast<double>(tally.farms),
             tally.restarted);
}

int report(const Tally& tally, Depth depth, double seconds, double core_seconds) {
  print_histogram(tally);
  fmt::print(
      "worst residual {:.3g} m at {}\n", tally.residual_m.figure, named(tally.residual_m.farm));
  fmt::print("worst imbalance {:.3g} of the largest flow (or of 1e-6 L/s) at {}\n",
             tally.imbalance.figure,
             named(tally.imbalance.farm));
  if (depth == Depth::Printed) {
    fmt::print("largest head difference the audit met {:.3g} m at {}\n",
               tally.head_difference_m.figure,
               named(tally.head_difference_m.farm));
  }
  fmt::print("slowest:\n");
  for (const Effort& farm : tally.slowest) {
    fmt::print("  {}: {} iterations, {:.1f} ms\n", named(farm), farm.iterations, farm.milliseconds);
  }
  for (const std::string& text : tally.unsolved) {
    fmt::print("UNSOLVED {}\n", text);
  }
  for (const std::string& text : tally.broken) {
    fmt::print("BROKEN LAW {}\n", text);
  }
  fmt::print("{} farms, {} unsolved, {} breaking a law; {:.1f} s, {:.0f} farms a core second\n",
             tally.farms,
             tally.unsolved.size(),
             tally.broken.size(),
             seconds,
             static_cast<double>(tally.farms) / core_seconds);
  return tally.unsolved.empty() && tally.broken.empty() ? 0 : 1;
}

/// A count of farms from text; none where it is no number from 1 to a hundred million.
std::optional<std::uint64_t> farms_in(std::string_view text) {
  if (text.empty() || text.size() > 8 ||
      text.find_first_not_of("0123456789") != std::string_view::npos) {
    return std::nullopt;
  }
  const std::uint64_t farms = std::stoull(std::string(text));
  return farms == 0 ? std::nullopt : std::optional<std::uint64_t>(farms);
}

int run(const std::vector<std::string_view>& arguments) {
  std::uint64_t farms = 1'000'000;
  Depth depth = Depth::Network;
  for (const std::string_view argument : arguments) {
    if (argument == "--printed") {
      depth = Depth::Printed;
    } else if (const std::optional<std::uint64_t> asked = farms_in(argument)) {
      farms = *asked;
    } else {
      fmt::print(stderr,
                 "million: '{}' is not a count of farms (million [FARMS] [--printed])\n",
                 argument);
      return 2;
    }
  }
  const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
  const auto start = Clock::now();
  const Tally tally = solve_all(farms, depth, cores);
  // std::clock counts the time of all cores together, and not what other programs took meanwhile.
  const double core_seconds = static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
  return report(tally, depth, milliseconds_since(start) / 1000.0, core_seconds);
}

}  // namespace

}  // namespace leat::tests

int main(int count, char** words) {
  return leat::tests::run({words + 1, words + count});
}
