#include "tests/support/random_network.h"

#include <utility>

namespace leat::tests {

RandomNetwork network_of(std::uint64_t seed, model::Farm farm) {
  RandomNetwork made;
  made.seed = seed;
  made.farm = std::make_unique<model::Farm>(std::move(farm));
  const solver::Surroundings around = solver::surroundings_of(*made.farm, std::nullopt);
  made.network = solver::network_of(*made.farm, around, solver::NetworkOptions{});
  return made;
}

RandomNetwork random_network(std::uint64_t seed, FarmKind kind) {
  return network_of(seed, random_farm(seed, kind));
}

std::vector<RandomNetwork> networks_of_size(FarmKind kind,
                                            std::size_t least,
                                            std::size_t most,
                                            std::size_t count) {
  std::vector<RandomNetwork> networks;
  for (std::uint64_t seed = 1; networks.size() < count; ++seed) {
    RandomNetwork made = random_network(seed, kind);
    const std::size_t nodes = made.problem().nodes.size();
    if (nodes >= least && nodes <= most) {
      networks.push_back(std::move(made));
    }
  }
  return networks;
}

}  // namespace leat::tests
