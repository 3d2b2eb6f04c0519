// Random farms as numbers, ready for the nodal solver, chosen by their size.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "solver/network/network_of_farm.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

/// A random farm beside its network.
struct RandomNetwork {
  std::uint64_t seed = 0;
  std::unique_ptr<model::Farm> farm;  // the network's laws may look into it
  std::unique_ptr<solver::FarmNetwork> network;

  [[nodiscard]] const nodal::Problem& problem() const { return network->problem; }
};

/// The network of a farm made from a seed.
[[nodiscard]] RandomNetwork network_of(std::uint64_t seed, model::Farm farm);
[[nodiscard]] RandomNetwork random_network(std::uint64_t seed, FarmKind kind);

/// The first `count` random farms of seeds 1, 2, ... whose network has `least` to `most` nodes,
/// given heads and sought ones together.
[[nodiscard]] std::vector<RandomNetwork> networks_of_size(FarmKind kind,
                                                          std::size_t least,
                                                          std::size_t most,
                                                          std::size_t count);

}  // namespace leat::tests
