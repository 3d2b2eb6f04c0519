// Room: shares no law with what it audits.
//
// Checks a printed answer against the farm file alone: balance, head loss, each limit's condition.
// Shares no law with the solver (solver/audit/plain_law.h has its own) and never sees its network,
// so that a mistake in turning the farm into numbers shows as well.
#pragma once

#include <cstddef>
#include <map>
#include <optional>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/audit/audit_fault.h"

namespace leat::solver {

/// What was checked, how well it held, and what did not.
struct AuditReport {
  std::size_t balances = 0;  // places whose water adds up
  std::size_t pipes = 0;     // pipes whose heads pay for their flow, or whose still water is level
  std::size_t limits = 0;    // conditions of floats, springs, one-ways, summits, inlets, levels ...
  std::size_t pressures = 0;                    // pipes whose pressures were worked out again
  double largest_imbalance_m3_s = 0.0;          // of all balances
  double largest_head_difference_m = 0.0;       // of all running pipes and ends
  std::map<AuditGap, std::size_t> not_checked;  // and how many
  std::optional<AuditFault> broken;             // the first law that does not hold

  [[nodiscard]] bool holds() const { return !broken.has_value(); }
};

/// Audits a converged answer (of any load case). An answer of another farm, with other places or
/// pipes, is reported as broken.
[[nodiscard]] AuditReport audit_answer(const model::Farm& farm, const SteadyAnswer& answer);

}  // namespace leat::solver
