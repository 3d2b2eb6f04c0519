#include "solver/nodal/residual.h"

#include <algorithm>

#include "solver/nodal/smooth_min.h"

namespace leat::nodal {

namespace {

/// A fall this small drives no ram.
constexpr double least_fall_m = 1e-6;

/// The three ways of putting two residuals together, exact or smoothed, with the chain rule.
EdgeResidual combine(const SmoothValue& joined, const EdgeResidual& a, const EdgeResidual& b) {
  return {joined.value,
          joined.by_first * a.by_flow_s_m2 + joined.by_second * b.by_flow_s_m2,
          joined.by_first * a.by_head_up + joined.by_second * b.by_head_up,
          joined.by_first * a.by_head_down + joined.by_second * b.by_head_down};
}

class Smoothed {
 public:
  explicit Smoothed(double smoothing_m) : smoothing_m_(smoothing_m) {}
  [[nodiscard]] EdgeResidual min(const EdgeResidual& a, const EdgeResidual& b) const {
    return combine(smooth_min(a.residual_m, b.residual_m, smoothing_m_), a, b);
  }
  [[nodiscard]] EdgeResidual max(const EdgeResidual& a, const EdgeResidual& b) const {
    return combine(smooth_max(a.residual_m, b.residual_m, smoothing_m_), a, b);
  }

 private:
  double smoothing_m_;
};

class Exact {
 public:
  [[nodiscard]] EdgeResidual min(const EdgeResidual& a, const EdgeResidual& b) const {
    return a.residual_m < b.residual_m ? a : b;
  }
  [[nodiscard]] EdgeResidual max(const EdgeResidual& a, const EdgeResidual& b) const {
    return a.residual_m > b.residual_m ? a : b;
  }
};

/// A crest joins its two sides (loss e q) as long as neither side's head falls below the floor
/// (raised by f q, the water's own depth over it).
/// Forward flow sees the floor on the upstream side raised by its own velocity head, backward flow
/// on the other; one velocity head on both sides would break the sign rule.
template <class Join>
EdgeResidual crest(const Edge& edge,
                   double flow,
                   double up,
                   double down,
                   const EdgeResidual& still,
                   const Join& join) {
  const double e = edge.linear_loss_s_m2;
  const double forward = std::max(flow, 0.0);
  const double backward = std::max(-flow, 0.0);
  const double k = edge.velocity_head_s2_m5;
  const double floor_up = edge.level_m + k * forward * forward;
  const double floor_down = edge.level_m + k * backward * backward;
  const EdgeResidual through{up - down - e * flow, -e, 1.0, -1.0};
  const double f = edge.floor_loss_s_m2;
  const EdgeResidual up_alone{up - floor_up - f * flow, -2.0 * k * forward - f, 1.0, 0.0};
  const EdgeResidual down_alone{floor_down - down - f * flow, -2.0 * k * backward - f, 0.0, -1.0};
  const EdgeResidual a = join.min(up_alone, through);
  const EdgeResidual b = join.max(down_alone, through);
  return join.max(a, join.min(still, b));
}

template <class Join>
EdgeResidual residual(const Edge& edge,
                      double flow,
                      double up,
                      double down,
                      const Loss& loss,
                      double scale,
                      const Join& join) {
  const EdgeResidual still{-scale * flow, -scale, 0.0, 0.0};
  if (edge.closed) {
    return still;
  }
  const double h = loss.loss_m;
  const double slope = loss.slope_s_m2;
  const EdgeResidual at_limit{scale * (edge.limit_m3_s - flow), -scale, 0.0, 0.0};
  const EdgeResidual leaves{up - edge.level_m - h, -slope, 1.0, 0.0};
  switch (edge.kind) {
    case EdgeKind::Link:
      return link_residual(up, down, loss);
    case EdgeKind::OneWay:
      return join.max(still, {up - down - edge.opening_head_m - h, -slope, 1.0, -1.0});
    case EdgeKind::Pump:
      return join.max(still, {up - down - h, -slope, 1.0, -1.0});
    case EdgeKind::Discharge:
      return join.max(still, leaves);
    case EdgeKind::CappedDischarge:
      return join.max(still, join.min(at_limit, leaves));
    case EdgeKind::LimitedSupply:
      return join.min(at_limit, {edge.level_m - down - h, -slope, 0.0, -1.0});
    case EdgeKind::Crest:
      return crest(edge, flow, up, down, still, join);
    case EdgeKind::HeldInlet: {
      const double e = edge.linear_loss_s_m2;
      const EdgeResidual shutting{edge.shut_level_m - down - e * flow, -e, 0.0, -1.0};
      return join.max(still, join.min(leaves, shutting));
    }
    case EdgeKind::HeadHold: {
      const double e = edge.linear_loss_s_m2;
      const EdgeResidual holding{edge.level_m - down - e * flow, -e, 0.0, -1.0};
      const EdgeResidual through{up - down - e * flow, -e, 1.0, -1.0};
      return join.max(still, join.min(holding, through));
    }
    case EdgeKind::Ram:
      break;  // hangs on more than its own ends: ram_residual
  }
  return still;
}

}  // namespace

EdgeResidual smoothed_residual(const Edge& edge,
                               double flow_m3_s,
                               double head_up_m,
                               double head_down_m,
                               const Loss& loss,
                               const Smoothing& smoothing) {
  const double scale = smoothing.scale_s_m2;
  if (smoothing.smoothing_m == 0.0) {
    return residual(edge, flow_m3_s, head_up_m, head_down_m, loss, scale, Exact());
  }
  return residual(
      edge, flow_m3_s, head_up_m, head_down_m, loss, scale, Smoothed(smoothing.smoothing_m));
}

double exact_residual_m(const Edge& edge,
                        double flow_m3_s,
                        double head_up_m,
                        double head_down_m,
                        const Loss& loss,
                        double scale_s_m2) {
  return residual(edge, flow_m3_s, head_up_m, head_down_m, loss, scale_s_m2, Exact()).residual_m;
}

RamResidual ram_residual(const Problem& problem,
                         std::size_t edge,
                         double flow_m3_s,
                         double driving_flow_m3_s,
                         double head_down_m,
                         double supply_head_m,
                         double scale_s_m2) {
  const double level_m = problem.edges[edge].level_m;
  const double lift_m = head_down_m - level_m;
  const double fall_m = supply_head_m - level_m;
  RamResidual made;
  made.residual = {-scale_s_m2 * flow_m3_s, -scale_s_m2, 0.0, 0.0};
  if (fall_m <= least_fall_m) {
    return made;
  }
  const double ratio = lift_m / fall_m;
  const Share share = problem.share(edge, ratio);
  const double drive = scale_s_m2 * std::max(driving_flow_m3_s, 0.0);
  made.residual.residual_m += share.share * drive;
  made.residual.by_head_down = drive * share.by_ratio / fall_m;
  made.by_driving_flow_s_m2 = scale_s_m2 * share.share;
  made.by_supply_head = -drive * share.by_ratio * ratio / fall_m;
  return made;
}

bool makes_unsymmetric(const Edge& edge) {
  switch (edge.kind) {
    case EdgeKind::Crest:
    case EdgeKind::HeldInlet:
    case EdgeKind::HeadHold:
    case EdgeKind::Ram:
      return true;
    case EdgeKind::Discharge:
    case EdgeKind::CappedDischarge:
      return edge.down != outside;
    case EdgeKind::Link:
    case EdgeKind::OneWay:
    case EdgeKind::LimitedSupply:
    case EdgeKind::Pump:
      return false;
  }
  return true;
}

}  // namespace leat::nodal
