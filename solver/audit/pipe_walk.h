// Walks along one pipe with its flow and says which heads belong to it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "solver/audit/audit_fault.h"
#include "solver/audit/pipe_parts.h"

namespace leat::solver::audit {

/// Heads within this of a limit may stand on either side of it.
inline constexpr double edge_of_limit_m = 2e-6;

/// A run of parts of one pipe with one flow.
struct Run {
  const PipeParts* pipe = nullptr;
  std::size_t first = 0;  // part
  std::size_t last = 0;   // part, itself in the run
  double flow_m3_s = 0.0;
  double viscosity_m2_s = 0.0;
  double loss_share = 0.0;  // how far its losses may be off

  /// What rounding and the solver's own small losses at joins may differ [m].
  [[nodiscard]] double tolerance_m() const;
};

/// A summit on the way: the head on the side the water comes from, and whether it has let go.
struct SummitSeen {
  std::size_t summit = 0;
  double head_m = 0.0;
  bool let_go = false;
  bool is_certain = true;  // false at the very edge
};

struct LegSeen {
  const Part* leg = nullptr;
  double start_m = 0.0;  // head at its start as the path runs ...
  double end_m = 0.0;    // ... and at its end
};

/// A law that the water on its way breaks, with its figure [m] where it has one.
struct WalkFault {
  AuditLaw law = AuditLaw::Head;
  double by_m = 0.0;
};

struct Walked {
  double head_m = 0.0;    // at the end the water comes from
  bool at_least = false;  // a limit holds it back on the way: the head is that or more
  std::vector<SummitSeen> summits;
  std::vector<LegSeen> legs;  // those whose heads are certain
  std::optional<WalkFault> broken;
};

/// Against the flow, from the head at the run's lower end: every leg adds its loss, every lip holds
/// the water up to its floor. `at_least`: the lower end only says that the head is that or more.
[[nodiscard]] Walked walk_against(const Run& run, double end_head_m, bool at_least);

/// With the flow, from the head at its upper end, as far as a regulator or the first lip that lets
/// go: adds what is seen there to `walked`, whose `at_least` says that a limit held on the way.
void walk_with(const Run& run, double start_head_m, Walked& walked);

/// What stands at an end of still water: a head, or (`is_open`) air at that level; empty where
/// nothing is known.
struct StillEnd {
  std::optional<double> head_m;
  bool is_open = false;
};

/// What still water says about the two ends of a run: nothing where it agrees.
[[nodiscard]] std::optional<WalkFault> still_fault(const Run& run,
                                                   const StillEnd& from,
                                                   const StillEnd& to,
                                                   double tolerance_m);

}  // namespace leat::solver::audit
