// The choice of sizes against every choice there is, on random trees.
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "model/catalogue/pipe_catalogue.h"
#include "solver/size/size.h"
#include "solver/size/size_choice.h"
#include "solver/steady/steady.h"
#include "tests/support/farm_text.h"

namespace leat {
namespace {

using solver::ChosenSizes;
using solver::PartsOfRun;
using solver::ProgramEnding;
using solver::SizeChoice;

/// A random tree of 1 to 6 runs in 2 to 5 sizes: parents before children, a limit at every leaf.
/// Losses by Hazen and Williams, h = 10.67 L q^1.852 / (C^1.852 d^4.8704), C 140.
SizeChoice random_tree(std::mt19937_64& dice) {
  const auto number = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(dice);
  };
  const auto count = [&](int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(dice);
  };
  const int sizes = count(2, 5);
  std::vector<double> bore_m{number(0.012, 0.02)};
  std::vector<double> price{number(0.3, 1.0)};
  for (int i = 1; i < sizes; ++i) {
    bore_m.push_back(bore_m.back() * number(1.1, 1.4));
    price.push_back(price.back() * number(1.05, 1.8));
  }
  SizeChoice choice;
  const int runs = count(1, 6);
  std::vector<int> parent;
  std::vector<double> flow_m3_s(static_cast<std::size_t>(runs));
  std::vector<bool> is_leaf(static_cast<std::size_t>(runs), true);
  for (int run = 0; run < runs; ++run) {
    parent.push_back(run == 0 ? -1 : count(-1, run - 1));
    if (parent.back() >= 0) {
      is_leaf[static_cast<std::size_t>(parent.back())] = false;
    }
  }
  for (int run = 0; run < runs; ++run) {
    if (is_leaf[static_cast<std::size_t>(run)]) {
      const double need_m3_s = number(2e-5, 3e-4);
      for (int up = run; up >= 0; up = parent[static_cast<std::size_t>(up)]) {
        flow_m3_s[static_cast<std::size_t>(up)] += need_m3_s;
      }
    }
  }
  std::vector<std::vector<double>> loss_m;
  for (int run = 0; run < runs; ++run) {
    solver::SizeRun made{number(20.0, 400.0), {}};
    std::vector<double> losses;
    for (std::size_t k = 0; k < bore_m.size(); ++k) {
      made.options.push_back({k, price[k] * made.length_m});
      losses.push_back(10.67 * made.length_m *
                       std::pow(flow_m3_s[static_cast<std::size_t>(run)] / 140.0, 1.852) /
                       std::pow(bore_m[k], 4.8704));
    }
    choice.runs.push_back(std::move(made));
    loss_m.push_back(std::move(losses));
  }
  for (int run = 0; run < runs; ++run) {
    if (!is_leaf[static_cast<std::size_t>(run)]) {
      continue;
    }
    solver::HeadLimit limit;
    limit.available_m = number(1.0, 40.0);
    for (int up = run; up >= 0; up = parent[static_cast<std::size_t>(up)]) {
      limit.spent.push_back({static_cast<std::size_t>(up), loss_m[static_cast<std::size_t>(up)]});
    }
    choice.limits.push_back(std::move(limit));
  }
  return choice;
}

/// The least cost of all choices of one size a run, by trying each; none where none fits.
std::optional<double> least_by_trying(const SizeChoice& choice) {
  std::vector<std::size_t> size(choice.runs.size());
  double least = std::numeric_limits<double>::infinity();
  for (;;) {
    const bool fits = std::all_of(
        choice.limits.begin(), choice.limits.end(), [&](const solver::HeadLimit& limit) {
          double spent_m = 0.0;
          for (const solver::HeadLimit::Spent& spent : limit.spent) {
            spent_m += spent.loss_m[size[spent.run]];
          }
          return spent_m <= limit.available_m;
        });
    double cost = 0.0;
    for (std::size_t run = 0; run < size.size(); ++run) {
      cost += *choice.runs[run].options[size[run]].cost;
    }
    least = fits ? std::min(least, cost) : least;
    std::size_t run = 0;
    while (run < size.size() && ++size[run] == choice.runs[run].options.size()) {
      size[run++] = 0;
    }
    if (run == size.size()) {
      break;
    }
  }
  return std::isfinite(least) ? std::optional(least) : std::nullopt;
}

}  // namespace

TEST_CASE("On random trees one size a run costs what the cheapest of all choices costs",
          "[size][laws]") {
  int solved = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    CAPTURE(seed);
    std::mt19937_64 dice(seed);
    const SizeChoice choice = random_tree(dice);
    const std::optional<double> least = least_by_trying(choice);
    const ChosenSizes chosen = solver::choose_sizes(choice, PartsOfRun::OneSize);
    REQUIRE((chosen.ending == ProgramEnding::Solved) == least.has_value());
    if (!least) {
      continue;
    }
    ++solved;
    CHECK(chosen.cost == Approx(*least).epsilon(1e-9));
    // Two sizes a run are never dearer, and keep every limit.
    const ChosenSizes parted = solver::choose_sizes(choice, PartsOfRun::TwoSizes);
    REQUIRE(parted.ending == ProgramEnding::Solved);
    CHECK(parted.cost <= *least * (1.0 + 1e-9));
    for (const solver::HeadLimit& limit : choice.limits) {
      double spent_m = 0.0;
      for (const solver::HeadLimit::Spent& spent : limit.spent) {
        for (std::size_t i = 0; i < spent.loss_m.size(); ++i) {
          spent_m += spent.loss_m[i] * parted.share[spent.run][i];
        }
      }
      CHECK(spent_m <= limit.available_m * (1.0 + 1e-7));
    }
  }
  CHECK(solved > 120);  // the trees are not all hopeless
}

TEST_CASE("A run is laid in a second size only where the fall binds", "[size][laws]") {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    CAPTURE(seed);
    std::mt19937_64 dice(seed);
    const SizeChoice choice = random_tree(dice);
    const ChosenSizes parted = solver::choose_sizes(choice, PartsOfRun::TwoSizes);
    if (parted.ending != ProgramEnding::Solved) {
      continue;
    }
    std::size_t parts = 0;
    for (const auto& shares : parted.share) {
      parts += static_cast<std::size_t>(
          std::count_if(shares.begin(), shares.end(), [](double share) { return share > 0.0; }));
    }
    // A corner of the feasible set: one size a run, and one more for each limit that binds.
    CHECK(parts <= choice.runs.size() + choice.limits.size());
  }
}

TEST_CASE("On whole farms the sizes chosen cost what the cheapest that feeds every trough costs",
          "[size][laws]") {
  const std::vector<std::pair<std::string, double>> sizes = {
      {"20 mm PE100 SDR 11", 0.9}, {"25 mm PE100 SDR 11", 1.3}, {"32 mm PE100 SDR 11", 2.0}};
  int exact = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    CAPTURE(seed);
    std::mt19937_64 dice(seed);
    const auto number = [&](double low, double high) {
      return std::uniform_real_distribution<double>(low, high)(dice);
    };
    const model::Farm farm = tests::farm_of(fmt::format(
        "farm: random\nsite: {{water: 12 C}}\ncreeks: {{pool: {{surface: 60 m}}}}\n"
        "tees: {{fork: 45 m}}\ntroughs:\n  one: {{float: {:.3f} m, need: {:.3f} L/min, seat: 12 "
        "mm}}\n"
        "  two: {{float: {:.3f} m, need: {:.3f} L/min, seat: 12 mm}}\npipes:\n"
        "  main: {{from: pool, to: fork, size: choose, length: {:.3f} m, fittings: [strainer]}}\n"
        "  to one: {{from: fork, to: one, size: choose, length: {:.3f} m, fittings: [3 elbow]}}\n"
        "  to two: {{from: fork, to: two, size: choose, length: {:.3f} m}}\n"
        "prices: {{20 mm PE100 SDR 11: 0.9 per m, 25 mm PE100 SDR 11: 1.3 per m, "
        "32 mm PE100 SDR 11: 2 per m}}\n",
        number(48.0, 57.0),
        number(4.0, 14.0),
        number(46.0, 57.0),
        number(4.0, 14.0),
        number(60.0, 300.0),
        number(60.0, 300.0),
        number(60.0, 300.0)));
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t choice = 0; choice < 27; ++choice) {
      const std::size_t of_run[3] = {choice % 3, choice / 3 % 3, choice / 9};
      std::vector<solver::LaidRun> runs;
      double cost = 0.0;
      for (std::size_t run = 0; run < 3; ++run) {
        const double length_m = in_metres(farm.pipes[run].length);
        runs.push_back({run, {{*model::find_pipe_size(sizes[of_run[run]].first), length_m}}});
        cost += length_m * sizes[of_run[run]].second;
      }
      const solver::SteadyAnswer answer =
          solver::solve_steady(solver::laid_farm(farm, runs, std::nullopt).farm, {});
      REQUIRE(answer.converged);
      const bool feeds = std::all_of(
          answer.places.begin(), answer.places.end(), [](const solver::PlaceAnswer& water) {
            return water.met.value_or(1.0) >= 0.9999;
          });
      least = feeds ? std::min(least, cost) : least;
    }
    solver::SizeOptions options;
    options.one_size = true;
    const solver::SizePlan plan = solver::size_plan(farm, options);
    REQUIRE(plan.problems.empty());
    if (plan.method == solver::SizeMethod::Exact) {
      ++exact;
      CHECK(*plan.cost == Approx(least).epsilon(1e-9));
    } else {
      CHECK((!plan.meets_needs || !std::isfinite(least) || *plan.cost <= least + 1e-9));
    }
  }
  CHECK(exact >= 4);
}

}  // namespace leat
