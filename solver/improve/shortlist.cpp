#include "solver/improve/shortlist.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numeric>
#include <optional>
#include <utility>

#include "solver/nodal/residual.h"
#include "solver/uncertainty/sensitivities.h"

namespace leat::solver {

namespace {

/// Weight of water gained anywhere beside that at the place asked for.
constexpr double weight_of_all = 1e-3;
/// Weight of a head at a place that gets no water, as a flow per metre.
constexpr double flow_per_head_m2_s = 1e-4;
/// Steps of a bisection: a flow is known to a thousandth of what bounds it.
constexpr int bisections = 10;
/// A pipe's flow after a change is sought up to so many times what it is.
constexpr double most_times_the_flow = 4.0;
constexpr double always = std::numeric_limits<double>::infinity();

/// Head a pipe takes at a flow, from its mouth to its end, with what opens its checks.
double pipe_loss_m(const FarmNetwork& network, std::size_t pipe, double flow_m3_s) {
  double loss_m = 0.0;
  for (const std::size_t edge : network.pipes[pipe].stretch_edge) {
    const nodal::Edge& law = network.problem.edges[edge];
    loss_m += nodal::edge_loss(network.problem, edge, flow_m3_s).loss_m;
    loss_m += law.kind == nodal::EdgeKind::OneWay ? law.opening_head_m : 0.0;
  }
  return loss_m;
}

double pipe_loss_slope_s_m2(const FarmNetwork& network, std::size_t pipe, double flow_m3_s) {
  double slope = 0.0;
  for (const std::size_t edge : network.pipes[pipe].stretch_edge) {
    slope += nodal::edge_loss(network.problem, edge, flow_m3_s).slope_s_m2;
  }
  return slope;
}

/// What changes of one pipe bring the place asked for: the pipe's own law followed all the way, the
/// rest of the farm to first order.
class PipeEstimates {
 public:
  PipeEstimates(const ChangeAim& aim, const FlowState& state)
      : aim_(aim), state_(state), adjoint_(state.network->problem, state.solution.state) {
    place_ = adjoint_.of(delivered_aim(state, aim.place));
    nodal::Aim everywhere;
    for (std::size_t i = 0; i < aim.farm->places.size(); ++i) {
      if (!model::is_open_water(aim.farm->places[i])) {
        const nodal::Aim one = delivered_aim(state, i);
        everywhere.flows.insert(everywhere.flows.end(), one.flows.begin(), one.flows.end());
      }
    }
    all_ = adjoint_.of(everywhere);
    is_known_ = place_.is_known && all_.is_known;
    const auto is_nothing = [](double value) { return value == 0.0; };
    const PlaceAnswer& water = aim.answer->places[aim.place];
    if (water.delivered_m3_s < still_flow_m3_s ||
        std::all_of(place_.by_residual.begin(), place_.by_residual.end(), is_nothing)) {
      aim_at_the_head();
    } else if (aim.answer->load_case == LoadCase::Needs && water.need_m3_s) {
      missing_m3_s_ = std::max(0.0, *water.need_m3_s - water.delivered_m3_s);
    }
  }

  /// A change of one pipe: its law, or what it lets through.
  [[nodiscard]] double of_pipe(const Change& change) {
    const std::size_t pipe = *change.pipe;
    if (!is_known_) {
      return power_of(pipe);
    }
    if (change.kind == ChangeKind::ValveSet) {
      return held_back(pipe);
    }
    const std::size_t edge = state_.network->pipes[pipe].stretch_edge.front();
    const double flow = state_.flow_m3_s(edge);
    if (change.kind == ChangeKind::Fitting && std::abs(flow) < still_flow_m3_s) {
      return always;  // a check that holds back all
    }
    const double by_head = flow_by_head(edge);
    return by_head <= 0.0 ? 0.0  // nothing runs there, whatever the pipe
                          : worth(edge, by_head, flow_after(change, pipe, flow, by_head) - flow);
  }

  /// A tank to settle in lets less through below it; more it cannot do for what stands above.
  [[nodiscard]] double of_tank(std::size_t tee) {
    double most = is_dry_ ? always : 0.0;  // where no water comes, a tank may let it in
    for (const std::size_t pipe : state_.network->pipes_of.at(tee)) {
      most = std::max(most, is_known_ ? held_back(pipe) : power_of(pipe));
    }
    return most;
  }

 private:
  /// The power lost in a pipe: where nothing else tells the pipes apart.
  [[nodiscard]] double power_of(std::size_t pipe) const {
    const std::optional<double>& loss = aim_.answer->pipes[pipe].head_loss_m;
    return loss ? std::abs(*loss) * std::abs(aim_.answer->pipes[pipe].flow_m3_s) : 0.0;
  }

  /// Any part of a pipe's flow can be held back.
  [[nodiscard]] double held_back(std::size_t pipe) {
    const std::size_t edge = state_.network->pipes[pipe].stretch_edge.front();
    const double by_head = flow_by_head(edge);
    return by_head <= 0.0 ? 0.0 : worth(edge, by_head, -state_.flow_m3_s(edge));
  }

  /// What the flow of an edge gains by a head given to it.
  [[nodiscard]] double flow_by_head(std::size_t edge) {
    return adjoint_.of(nodal::aim_at_flow(edge)).by_residual[edge];
  }

  /// Water for the place, no more than it misses, and a little for all of it, by more in an edge.
  [[nodiscard]] double worth(std::size_t edge, double by_head, double more_m3_s) const {
    const double to_place = place_.by_residual[edge] / by_head * more_m3_s;
    const double to_all = all_.by_residual[edge] / by_head * more_m3_s;
    return std::min(to_place, missing_m3_s_) + weight_of_all * to_all;
  }

  /// Where no water comes: what lifts the head there, if that is known.
  void aim_at_the_head() {
    is_dry_ = true;
    const std::size_t node = state_.network->places[aim_.place].node;
    if (node == no_index || !state_.head_m(node)) {
      return;
    }
    nodal::Sensitivity head = adjoint_.of(nodal::aim_at_head(node));
    if (!head.is_known) {
      return;
    }
    for (double& value : head.by_residual) {
      value *= flow_per_head_m2_s;
    }
    place_ = std::move(head);
  }

  /// The flow x at which x = q + s (h(q) + h'(q) (x - q) - new h(x)): s is what the flow q gains by
  /// a head given to the pipe.
  [[nodiscard]] double flow_after(const Change& change,
                                  std::size_t pipe,
                                  double flow,
                                  double by_head) const {
    const FarmNetwork& now = *state_.network;
    std::unique_ptr<FarmNetwork> changed;
    if (change.kind != ChangeKind::SecondLine) {
      changed = network_of(changed_farm(*aim_.farm, change.settings.front().phases.front()),
                           state_.surroundings,
                           state_.options);
    }
    const double loss_m = pipe_loss_m(now, pipe, flow);
    const double slope = pipe_loss_slope_s_m2(now, pipe, flow);
    const auto is_below = [&](double x) {
      const double new_loss_m =
          changed ? pipe_loss_m(*changed, pipe, x) : pipe_loss_m(now, pipe, 0.5 * x);
      return x < flow + by_head * (loss_m + slope * (x - flow) - new_loss_m);
    };
    double low = std::min(0.0, most_times_the_flow * flow);
    double high = std::max(0.0, most_times_the_flow * flow);
    for (int i = 0; i < bisections; ++i) {
      const double middle = 0.5 * (low + high);
      (is_below(middle) ? low : high) = middle;
    }
    return 0.5 * (low + high);
  }

  const ChangeAim& aim_;
  const FlowState& state_;
  nodal::Sensitivities adjoint_;
  nodal::Sensitivity place_;
  nodal::Sensitivity all_;
  bool is_known_ = false;
  bool is_dry_ = false;
  double missing_m3_s_ = always;  // more than this the place does not take
};

}  // namespace

std::vector<double> estimated_gains(const ChangeAim& aim,
                                    const FlowState& state,
                                    const std::vector<Change>& changes) {
  PipeEstimates estimates(aim, state);
  std::vector<double> gains;
  gains.reserve(changes.size());
  for (const Change& change : changes) {
    switch (change.kind) {
      case ChangeKind::WiderPipe:
      case ChangeKind::SecondLine:
      case ChangeKind::ValveSet:
      case ChangeKind::Fitting:
        gains.push_back(estimates.of_pipe(change));
        break;
      case ChangeKind::Tank:
        gains.push_back(estimates.of_tank(*change.place));
        break;
      case ChangeKind::Bleeding:
        gains.push_back(0.0);  // the answer counts no air
        break;
      case ChangeKind::Seat:
      case ChangeKind::Store:
      case ChangeKind::ValveOpened:
      case ChangeKind::FloatLower:
      case ChangeKind::SourceHigher:
      case ChangeKind::Hours:
        gains.push_back(always);  // few, and no derivative speaks for so large a step
        break;
    }
  }
  return gains;
}

std::vector<std::size_t> most_promising(const std::vector<double>& estimates, std::size_t most) {
  std::vector<std::size_t> order(estimates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return estimates[a] > estimates[b];
  });
  order.resize(std::min(most, order.size()));
  std::sort(order.begin(), order.end());
  return order;
}

}  // namespace leat::solver
