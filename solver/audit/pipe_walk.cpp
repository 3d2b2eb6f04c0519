#include "solver/audit/pipe_walk.h"

#include <algorithm>
#include <cmath>

#include "solver/audit/plain_law.h"

namespace leat::solver::audit {

namespace {

/// The solver's own small losses (METHOD.md): at joins, and the least slope of any law.
constexpr double small_loss_s_m2 = 1e-3;
constexpr double rounding_m = 1e-6;

/// Lowest head at a lip's upper side for a flow.
double floor_of(const Run& run, const Part& lip) {
  const double flow = std::abs(run.flow_m3_s);
  const double velocity_head_m =
      lip.has_velocity_head
          ? plain_velocity_head_m(in_metres(run.pipe->pipe->size.bore), run.flow_m3_s)
          : 0.0;
  return lip.floor_m + velocity_head_m + lip.depth_s_m2 * flow;
}

bool runs_forward(const Run& run) {
  return run.flow_m3_s > 0.0;
}

/// The run's parts from its lower end to its upper end.
std::vector<const Part*> against_flow(const Run& run) {
  std::vector<const Part*> parts;
  for (std::size_t i = run.first; i <= run.last; ++i) {
    parts.push_back(&run.pipe->parts[i]);
  }
  if (runs_forward(run)) {
    std::reverse(parts.begin(), parts.end());
  }
  return parts;
}

/// Loss of a leg as the water feels it, 0 or more.
double felt_loss_m(const Run& run, const Part& leg) {
  return std::abs(leg_loss_m(*run.pipe, leg, run.flow_m3_s, run.viscosity_m2_s));
}

LegSeen leg_between(const Run& run, const Part& leg, double upper_m, double lower_m) {
  return runs_forward(run) ? LegSeen{&leg, upper_m, lower_m} : LegSeen{&leg, lower_m, upper_m};
}

}  // namespace

double Run::tolerance_m() const {
  double losses_m = 0.0;
  for (std::size_t i = first; i <= last; ++i) {
    if (pipe->parts[i].kind == Part::Kind::Leg && flow_m3_s != 0.0) {
      losses_m += std::abs(leg_loss_m(*pipe, pipe->parts[i], flow_m3_s, viscosity_m2_s));
    }
  }
  const auto count = static_cast<double>(last - first + 3);
  return rounding_m + small_loss_s_m2 * std::abs(flow_m3_s) * count + loss_share * losses_m;
}

Walked walk_against(const Run& run, double end_head_m, bool at_least) {
  Walked walked;
  walked.head_m = end_head_m;
  walked.at_least = at_least;
  const double tolerance_m = run.tolerance_m();
  for (const Part* part : against_flow(run)) {
    switch (part->kind) {
      case Part::Kind::Leg: {
        if (part->one_way && !runs_forward(run)) {
          walked.broken = WalkFault{AuditLaw::BackwardsThroughOneWay};
          return walked;
        }
        const double lower_m = walked.head_m;
        walked.head_m += felt_loss_m(run, *part);
        if (!walked.at_least) {
          walked.legs.push_back(leg_between(run, *part, walked.head_m, lower_m));
        }
        break;
      }
      case Part::Kind::Lip: {
        const double floor_m = floor_of(run, *part);
        const double lower_m = walked.head_m;
        const bool let_go = walked.head_m < floor_m;
        const bool is_certain = std::abs(walked.head_m - floor_m) > edge_of_limit_m + tolerance_m;
        if (let_go && walked.at_least) {
          // Above a limit that holds, a lip may let go or not: the upper end decides.
          walked.head_m = floor_m;
        } else {
          walked.head_m = std::max(walked.head_m, floor_m);
        }
        if (part->summit && !walked.at_least) {
          walked.summits.push_back({*part->summit, walked.head_m, let_go, is_certain});
        }
        // A vent spills on the side its pipe starts from. One that the run begins at does spill.
        const double vent_m = runs_forward(run) ? walked.head_m : lower_m;
        const bool spills_here = run.first > 0 && part == &run.pipe->parts[run.first];
        if (part->vent_top_m && !walked.at_least && !spills_here &&
            vent_m > *part->vent_top_m + tolerance_m) {
          walked.broken = WalkFault{AuditLaw::AboveVent, vent_m - *part->vent_top_m};
          return walked;
        }
        break;
      }
      case Part::Kind::Regulator:
        if (!runs_forward(run)) {
          walked.broken = WalkFault{AuditLaw::BackwardsThroughRegulator};
          return walked;
        }
        if (walked.head_m > part->held_m + tolerance_m) {
          walked.broken = WalkFault{AuditLaw::ThroughRegulator, walked.head_m - part->held_m};
          return walked;
        }
        walked.at_least =
            walked.at_least || walked.head_m > part->held_m - tolerance_m - edge_of_limit_m;
        break;
      case Part::Kind::Shut:
        walked.broken = WalkFault{AuditLaw::ThroughShutValve};
        return walked;
    }
  }
  return walked;
}

void walk_with(const Run& run, double start_head_m, Walked& walked) {
  std::vector<const Part*> parts = against_flow(run);
  std::reverse(parts.begin(), parts.end());
  const double tolerance_m = run.tolerance_m();
  double head_m = start_head_m;
  for (const Part* part : parts) {
    if (part->kind == Part::Kind::Regulator || part->kind == Part::Kind::Shut) {
      return;
    }
    if (part->kind == Part::Kind::Leg) {
      const double upper_m = head_m;
      head_m -= felt_loss_m(run, *part);
      walked.legs.push_back(leg_between(run, *part, upper_m, head_m));
      continue;
    }
    const double floor_m = floor_of(run, *part);
    if (head_m < floor_m - tolerance_m) {
      walked.broken = WalkFault{AuditLaw::OverHighPoint, floor_m - head_m};
      return;
    }
    const bool at_edge = head_m <= floor_m + tolerance_m + edge_of_limit_m;
    if (part->summit) {
      walked.summits.push_back({*part->summit, head_m, at_edge, !at_edge});
    }
    if (at_edge) {
      return;
    }
  }
}

namespace {

/// Head that a still one-way leg keeps back before it opens.
double opening_head_m(const Part& leg) {
  double sum = 0.0;
  for (const LossAt& loss : leg.losses) {
    sum += loss.opening_head_m +
           loss.forward_k * loss.lifting_m_s * loss.lifting_m_s / (2.0 * gravity_m_s2);
  }
  return sum;
}

/// How far a head at one end of still water is felt along the run.
struct Felt {
  std::optional<double> head_m;  // at the far end; empty where something on the way cuts it off
  bool is_exact = true;          // false: at least so much stands there
  std::size_t cut_at = 0;        // part that cuts it off
};

Felt felt_forward(const Run& run, double head_m, double tolerance_m) {
  Felt felt{head_m, true, run.last + 1};
  for (std::size_t i = run.first; i <= run.last; ++i) {
    const Part& part = run.pipe->parts[i];
    if (part.kind == Part::Kind::Leg && part.one_way) {
      felt.is_exact = false;
      *felt.head_m -= opening_head_m(part);
    } else if (part.kind == Part::Kind::Regulator) {
      felt.is_exact = false;
      *felt.head_m = std::min(*felt.head_m, part.held_m);
    } else if (part.kind == Part::Kind::Shut ||
               (part.kind == Part::Kind::Lip && *felt.head_m <= part.floor_m + tolerance_m)) {
      return {std::nullopt, felt.is_exact, i};
    }
  }
  return felt;
}

Felt felt_backward(const Run& run, double head_m, double tolerance_m) {
  for (std::size_t i = run.last + 1; i-- > run.first;) {
    const Part& part = run.pipe->parts[i];
    const bool passes = part.kind == Part::Kind::Leg
                            ? !part.one_way
                            : part.kind == Part::Kind::Lip && head_m > part.floor_m + tolerance_m;
    if (!passes) {
      return {std::nullopt, true, i};
    }
  }
  return {head_m, true, run.first};
}

}  // namespace

std::optional<WalkFault> still_fault(const Run& run,
                                     const StillEnd& from,
                                     const StillEnd& to,
                                     double tolerance_m) {
  std::optional<Felt> ahead;
  std::optional<Felt> back;
  if (from.head_m && !from.is_open) {
    ahead = felt_forward(run, *from.head_m, tolerance_m);
    if (ahead->head_m && to.head_m && *ahead->head_m > *to.head_m + tolerance_m) {
      return WalkFault{AuditLaw::StillThoughDriven, *ahead->head_m - *to.head_m};
    }
  }
  if (to.head_m && !to.is_open) {
    back = felt_backward(run, *to.head_m, tolerance_m);
    if (back->head_m && from.head_m && *back->head_m > *from.head_m + tolerance_m) {
      return WalkFault{AuditLaw::StillThoughDrivenBack, *back->head_m - *from.head_m};
    }
  }
  // Both cut off, each beyond the point where the other is: between the two points two heads meet.
  const bool meet = ahead && back && ahead->is_exact && !ahead->head_m && !back->head_m &&
                    back->cut_at < ahead->cut_at &&
                    std::abs(*from.head_m - *to.head_m) > tolerance_m;
  if (meet) {
    return WalkFault{AuditLaw::HeadsMeet, std::abs(*from.head_m - *to.head_m)};
  }
  return std::nullopt;
}

}  // namespace leat::solver::audit
