// The farms that the benchmarks solve, each set made once: random farms of one size.
#pragma once

#include <string>
#include <vector>

#include "solver/nodal/newton.h"
#include "tests/support/random_network.h"

namespace leat::bench {

struct FarmSet {
  std::string name;
  std::vector<tests::RandomNetwork> farms;
  std::vector<nodal::Solution> answers;  // of a cold solve
  int iterations = 0;                    // of all cold solves together
  double heads = 0.0;                    // unknown heads a farm, mean
};

// Sets of the prototype's kind hold springs, floats, one-ways and summits, and at least one spring;
// 20 nodes counts given heads and sought ones.
[[nodiscard]] const FarmSet& symmetric_twenty();
[[nodiscard]] const FarmSet& unsymmetric_twenty();
[[nodiscard]] const FarmSet& limit_free_twenty();
[[nodiscard]] const FarmSet& limit_free_hundred();  // pairs joined: 96 to 104 nodes

/// One solver a farm, its pattern analysed.
[[nodiscard]] std::vector<nodal::NodalSolver> solvers_of(const FarmSet& set);

}  // namespace leat::bench
