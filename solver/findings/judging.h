// Room: what is wrong, one file a theme: codes with figures, no words.
//
// What every judgement works on, and the themes: each raises its findings.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "solver/findings/finding_list.h"
#include "solver/flow/solved_case.h"
#include "solver/flow/static_heads.h"

namespace leat::solver {

/// A farm solved for several load cases, the one asked for first, and the list of what is found.
struct Judging {
  const model::Farm& farm;
  std::vector<SolvedCase>& cases;                                      // one a load case
  const std::vector<std::optional<StaticPressure>>& static_pressures;  // a pipe
  FindingList& findings;
  double air_head_m = 0.0;
  double vapour_head_m = 0.0;

  [[nodiscard]] SolvedCase& chosen() const { return cases.front(); }
  [[nodiscard]] std::optional<model::Month> month() const { return chosen().state.options.month; }
};

/// Siphons that break and tees that draw air.
void judge_happenings(const Judging& on);
/// Parting, gassing and low absolute pressure at summits; marks what a storm would part.
void judge_summits(const Judging& on);
/// Suction at tees, below vapour at tees and ends, joints in suction.
void judge_suction(const Judging& on);
/// Static pressure and the knock of what shuts, against the rating. True for pipes over it.
[[nodiscard]] std::vector<bool> judge_pressure(const Judging& on);
/// Pipe that suction flattens.
void judge_collapse(const Judging& on);
/// What could not be judged of a pipe, as its rating, wall or modulus is not known.
void judge_unknown_strength(const Judging& on);
/// Cover over intakes, and water too slow to carry silt out of a dip.
void judge_intakes(const Judging& on);
/// Water that runs backwards, and what drains when a level falls.
void judge_back_flow(const Judging& on);
/// Trough or pond water drawn into the line, and households on a line in suction.
void judge_back_siphonage(const Judging& on);
/// How a place that is no open water stands against air and vapour.
struct PlaceSight {
  double margin_m = 1e9;       // pressure head above that of vapour; not judged where air is let in
  bool is_in_suction = false;  // a tee below air pressure
  [[nodiscard]] bool is_below_vapour() const { return margin_m < 0.0; }
  [[nodiscard]] bool is_near_vapour() const;
};
[[nodiscard]] PlaceSight sight_of(const Judging& on, const SolvedCase& solved, std::size_t place);
/// Whether the line takes all a spring yields.
[[nodiscard]] bool is_drawn_down(const Judging& on, const SolvedCase& solved, std::size_t place);
/// Whether a summit is near vapour.
[[nodiscard]] bool is_near_vapour(const SummitAnswer& summit);

/// What each place gets and gives in the case asked for, and what was assumed.
void judge_shares(const Judging& on);

}  // namespace leat::solver
