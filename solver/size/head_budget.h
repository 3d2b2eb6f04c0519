// What the water asks of the pipe: the flows that are known beforehand, and the head that may be
// lost on the way to each trough, outlet and summit.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/network/network_of_farm.h"
#include "solver/size/size_choice.h"

namespace leat::solver {

/// How much of the farm is known before any size is.
enum class FlowsKnown {
  All,    // trees with a capped need, or one outlet alone, at every end
  Least,  // trees whose open ends may take more: the sums of the needs are the least flows
  None    // rings, regulators, vents, settling tanks, pipe that may run either way
};

/// The tree the water runs down, where it is one.
struct WaterTree {
  FlowsKnown known = FlowsKnown::None;
  std::vector<double> flow_m3_s;             // by pipe: the needs below it
  std::vector<std::vector<std::size_t>> up;  // by pipe: the pipes from the source to it, it last
  std::vector<std::size_t> ends;             // pipes that end where water is wanted
};

/// Flow that must come to a place [m3/s]: the need of a trough, the wish of an outlet; a tank must
/// be fed around the clock with what is drunk below it in a day. None where nothing is said.
[[nodiscard]] std::optional<double> wanted_at(const model::Farm& farm,
                                              std::size_t place,
                                              std::optional<model::Month> month);

[[nodiscard]] WaterTree water_tree(const model::Farm& farm, std::optional<model::Month> month);

/// The head lost in a pipe in one size at the tree's flow.
struct PipeSpending {
  double loss_m = 0.0;                   // end to end, what the water's way out costs with it
  std::optional<double> end_level_m;     // where it leaves into air
  std::vector<double> loss_to_summit_m;  // to each summit, its velocity head with it
};

/// By pipe of the farm, all of whose sizes are chosen.
[[nodiscard]] std::vector<PipeSpending> spending_of(const model::Farm& farm,
                                                    const WaterTree& tree,
                                                    const Surroundings& surroundings,
                                                    std::optional<model::Month> month);

/// A limit with where it comes from.
struct LimitOrigin {
  std::size_t pipe = 0;  // the pipe that ends there, or that the summit is of
  bool is_summit = false;
};

struct HeadBudget {
  std::vector<HeadLimit> limits;
  std::vector<LimitOrigin> origins;  // one a limit
};

/// The limits of a farm. `spending[k]` is that with every run in its k-th option (the last where it
/// has fewer); `runs` are the pipes to be sized, in the order of the limits' run numbers, and
/// `options` how many each has. A trough's or outlet's limit is the head of its source over its own
/// level; a summit's leaves `near_vapour_margin_m` above vapour.
[[nodiscard]] HeadBudget head_budget(const model::Farm& farm,
                                     const WaterTree& tree,
                                     const std::vector<std::vector<PipeSpending>>& spending,
                                     const std::vector<std::size_t>& runs,
                                     const std::vector<std::size_t>& options,
                                     const Surroundings& surroundings,
                                     std::optional<model::Month> month);

}  // namespace leat::solver
