#include "tests/bench/farm_sets.h"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <stdexcept>
#include <utility>

#include "tests/support/nodal_pattern.h"

namespace leat::bench {

using tests::FarmKind;
using tests::RandomNetwork;

namespace {

using Choice = std::function<bool(const nodal::Problem&)>;

bool has_spring(const nodal::Problem& problem) {
  return std::any_of(problem.edges.begin(), problem.edges.end(), [](const nodal::Edge& edge) {
    return edge.kind == nodal::EdgeKind::LimitedSupply;
  });
}

Choice of_size(std::size_t least, std::size_t most) {
  return [=](const nodal::Problem& problem) {
    return problem.nodes.size() >= least && problem.nodes.size() <= most;
  };
}

Choice twenty_with_spring(nodal::MatrixShape shape) {
  return [=](const nodal::Problem& problem) {
    return problem.nodes.size() == 20 && has_spring(problem) &&
           tests::pattern_of(problem).shape == shape;
  };
}

/// Two farms on one line: a pipe joins the first tees, which stand first among the places.
model::Farm joined(model::Farm farm, const model::Farm& other) {
  const std::size_t before = farm.places.size();
  model::Pipe between = other.pipes.front();
  between.name = "between";
  between.from = 0;
  between.to = before;
  between.path.clear();
  farm.places.insert(farm.places.end(), other.places.begin(), other.places.end());
  for (model::Pipe pipe : other.pipes) {
    pipe.name = "other " + pipe.name;
    pipe.from += before;
    pipe.to += before;
    farm.pipes.push_back(std::move(pipe));
  }
  between.length = std::max(between.length, metres(100.0));
  farm.pipes.push_back(std::move(between));
  return farm;
}

/// Solves a farm and adds it to the set.
void add(FarmSet& set, RandomNetwork farm) {
  set.answers.push_back(nodal::solve(farm.problem()));
  if (!set.answers.back().report.is_usable()) {
    throw std::runtime_error("a farm of the benchmark is not solved");
  }
  set.iterations += set.answers.back().report.iterations;
  set.heads += static_cast<double>(tests::pattern_of(farm.problem()).heads);
  set.farms.push_back(std::move(farm));
}

FarmSet made(std::string name, FarmKind kind, std::size_t count, const Choice& fits) {
  FarmSet set;
  set.name = std::move(name);
  for (std::uint64_t seed = 1; set.farms.size() < count; ++seed) {
    RandomNetwork farm = tests::random_network(seed, kind);
    if (fits(farm.problem())) {
      add(set, std::move(farm));
    }
  }
  set.heads /= static_cast<double>(count);
  return set;
}

/// The generator's limit-free farms end at some 80 nodes, so pairs of some 50 are joined.
FarmSet made_of_pairs(std::string name, std::size_t count) {
  const FarmSet halves = made("", FarmKind::LimitFree, 2 * count, of_size(48, 52));
  FarmSet set;
  set.name = std::move(name);
  for (std::size_t i = 0; i < halves.farms.size(); i += 2) {
    add(set,
        tests::network_of(halves.farms[i].seed,
                          joined(*halves.farms[i].farm, *halves.farms[i + 1].farm)));
  }
  set.heads /= static_cast<double>(count);
  return set;
}

}  // namespace

const FarmSet& symmetric_twenty() {
  static const FarmSet set = made(
      "symmetric/20", FarmKind::Prototype, 32, twenty_with_spring(nodal::MatrixShape::Symmetric));
  return set;
}

const FarmSet& unsymmetric_twenty() {
  static const FarmSet set = made("unsymmetric/20",
                                  FarmKind::Prototype,
                                  32,
                                  twenty_with_spring(nodal::MatrixShape::Unsymmetric));
  return set;
}

const FarmSet& limit_free_twenty() {
  static const FarmSet set = made("limit-free/20", FarmKind::LimitFree, 32, of_size(20, 20));
  return set;
}

const FarmSet& limit_free_hundred() {
  static const FarmSet set = made_of_pairs("limit-free/100", 16);
  return set;
}

std::vector<nodal::NodalSolver> solvers_of(const FarmSet& set) {
  std::vector<nodal::NodalSolver> solvers;
  for (const RandomNetwork& farm : set.farms) {
    solvers.emplace_back(farm.problem());
    // The analysis is done in the first step.
    (void)solvers.back().solve(farm.problem(), {});
  }
  return solvers;
}

}  // namespace leat::bench
