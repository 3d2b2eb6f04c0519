#include "tests/support/water_laws.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "solver/nodal/residual.h"

namespace leat::tests {

namespace {

using nodal::Edge;
using nodal::EdgeKind;

/// One edge's condition in plain words: either nothing runs and the heads say why, or it runs and
/// the heads pay for it.
class EdgeLaw {
 public:
  EdgeLaw(const Edge& edge, double flow, double up, double down, double loss, double tolerance)
      : edge_(edge), flow_(flow), up_(up), down_(down), loss_(loss), tolerance_(tolerance) {}

  [[nodiscard]] bool holds() const {
    if (edge_.closed) {
      return flow_ == 0.0;
    }
    switch (edge_.kind) {
      case EdgeKind::Link:
        return near(up_ - down_, loss_);
      case EdgeKind::OneWay: {
        const double drive = up_ - down_ - edge_.opening_head_m;
        return runs() ? near(drive, loss_) : still() && drive <= tolerance_;
      }
      case EdgeKind::Discharge:
        return runs() ? near(up_ - edge_.level_m, loss_)
                      : still() && up_ <= edge_.level_m + tolerance_;
      case EdgeKind::CappedDischarge:
        if (at_limit()) {
          return up_ - edge_.level_m >= loss_ - tolerance_;
        }
        return flow_ < edge_.limit_m3_s && (runs() ? near(up_ - edge_.level_m, loss_)
                                                   : still() && up_ <= edge_.level_m + tolerance_);
      case EdgeKind::LimitedSupply:
        if (at_limit()) {
          return down_ <= edge_.level_m - loss_ + tolerance_;
        }
        return flow_ < edge_.limit_m3_s && near(edge_.level_m - down_, loss_);
      case EdgeKind::Pump:
        return runs() ? near(up_ - down_, loss_) : still() && up_ - down_ <= loss_ + tolerance_;
      case EdgeKind::Ram:
        return true;  // hangs on another edge: `ram_holds`
      case EdgeKind::Crest:
        return crest_holds();
      case EdgeKind::HeldInlet: {
        const double gap = edge_.shut_level_m - down_;
        if (!runs()) {
          return still() && (up_ <= edge_.level_m + tolerance_ || gap <= tolerance_);
        }
        const double join = edge_.linear_loss_s_m2 * flow_;
        return (near(up_ - edge_.level_m, loss_) && gap >= join - tolerance_) ||
               (near(gap, join) && up_ - edge_.level_m >= loss_ - tolerance_);
      }
      case EdgeKind::HeadHold: {
        const double join = edge_.linear_loss_s_m2 * flow_;
        const double drive = std::min(edge_.level_m, up_) - down_;
        return runs() ? near(drive, join) : still() && drive <= tolerance_;
      }
    }
    return false;
  }

 private:
  [[nodiscard]] bool near(double a, double b) const { return std::abs(a - b) <= tolerance_; }
  [[nodiscard]] bool runs() const { return flow_ > 1e-12; }
  [[nodiscard]] bool still() const { return std::abs(flow_) <= 1e-12; }
  [[nodiscard]] bool at_limit() const {
    return std::abs(flow_ - edge_.limit_m3_s) <= 1e-12 + 1e-9 * edge_.limit_m3_s;
  }

  [[nodiscard]] bool crest_holds() const {
    const double join = edge_.linear_loss_s_m2 * flow_;
    const double depth = edge_.floor_loss_s_m2 * flow_;
    const double velocity_head = edge_.velocity_head_s2_m5 * flow_ * flow_;
    const double floor = edge_.level_m + velocity_head;
    const double top = flow_ >= 0.0 ? up_ : down_;
    const bool joined = near(up_ - down_, join) && top >= floor + std::abs(depth) - tolerance_;
    // Parted: the side the water comes from stands at the floor, the other is lower.
    const bool parted_forward = flow_ >= 0.0 && near(up_, edge_.level_m + velocity_head + depth) &&
                                down_ <= up_ + tolerance_;
    const bool parted_backward = flow_ <= 0.0 &&
                                 near(down_, edge_.level_m + velocity_head - depth) &&
                                 up_ <= down_ + tolerance_;
    // Dry: neither side reaches the floor, nothing runs.
    const bool dry =
        still() && up_ <= edge_.level_m + tolerance_ && down_ <= edge_.level_m + tolerance_;
    return joined || parted_forward || parted_backward || dry;
  }

  const Edge& edge_;
  double flow_;
  double up_;
  double down_;
  double loss_;
  double tolerance_;
};

/// What a ram lifts, times its lift, is its efficiency's part of what drives it, times its fall.
bool ram_holds(const solver::FlowState& state, std::size_t index) {
  const Edge& edge = state.network->problem.edges[index];
  const double lifted = state.solution.state.flow_m3_s[index];
  const double driving = state.solution.state.flow_m3_s[edge.driver];
  const std::vector<double>& head = state.solution.state.head_m;
  const double supply = edge.supply == nodal::outside ? edge.supply_level_m : head[edge.supply];
  const double fall = supply - edge.level_m;
  if (driving <= 0.0 || fall <= 1e-6) {
    return std::abs(lifted) <= 1e-12;
  }
  const double ratio = std::max(1.0, (head[edge.down] - edge.level_m) / fall);
  if (ratio >= 26.0) {
    return std::abs(lifted) <= 1e-12;
  }
  const double efficiency = lifted * ratio / driving;
  return efficiency >= -1e-9 && efficiency <= 1.0 + 1e-9;
}

}  // namespace

std::optional<std::string> broken_law(const solver::FlowState& state, double head_tolerance_m) {
  const nodal::Problem& problem = state.network->problem;
  const std::vector<double>& head = state.solution.state.head_m;
  const std::vector<double>& flow = state.solution.state.flow_m3_s;
  double largest = 0.0;
  std::vector<double> balance(problem.nodes.size(), 0.0);
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    const Edge& edge = problem.edges[i];
    largest = std::max(largest, std::abs(flow[i]));
    if (edge.up != nodal::outside) {
      balance[edge.up] -= flow[i];
    }
    if (edge.down != nodal::outside) {
      balance[edge.down] += flow[i];
    }
    const double up = edge.up == nodal::outside ? 0.0 : head[edge.up];
    const double down = edge.down == nodal::outside ? 0.0 : head[edge.down];
    if (std::isnan(up) || std::isnan(down)) {
      if (flow[i] != 0.0) {
        return fmt::format("edge {}: water runs where none can come", i);
      }
      continue;
    }
    const double loss = nodal::edge_loss(problem, i, flow[i]).loss_m;
    if (!EdgeLaw(edge, flow[i], up, down, loss, head_tolerance_m).holds()) {
      return fmt::format("edge {} of kind {}: flow {} up {} down {} loss {} level {} limit {}",
                         i,
                         static_cast<int>(edge.kind),
                         flow[i],
                         up,
                         down,
                         loss,
                         edge.level_m,
                         edge.limit_m3_s);
    }
  }
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    if (problem.edges[i].kind == EdgeKind::Ram && !ram_holds(state, i)) {
      return fmt::format(
          "ram at edge {}: lifts {} of {} m3/s", i, flow[i], flow[problem.edges[i].driver]);
    }
  }
  for (std::size_t i = 0; i < problem.nodes.size(); ++i) {
    const bool free = !problem.nodes[i].fixed_head_m && state.solution.reached[i];
    if (free && std::abs(balance[i]) > 1e-9 * largest + 1e-15) {
      return fmt::format(
          "node {}: {} m3/s out of balance, largest flow {}", i, balance[i], largest);
    }
  }
  return std::nullopt;
}

}  // namespace leat::tests
