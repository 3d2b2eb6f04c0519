// The choice of sizes against every choice there is, on random trees.
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/size/size_choice.h"

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

}  // namespace leat
