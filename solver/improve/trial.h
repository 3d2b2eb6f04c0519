// A change carried out and solved: who gets what, what is newly wrong, how it ranks.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/warm_cases.h"
#include "solver/improve/change.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

/// What a farm, changed or not, does for its places. Indexes are those of the farm's own places.
struct Outcome {
  bool is_solved = false;
  /// Water got in the drinking hours of the farm as it is [m3/s]: what a store has gathered before
  /// them, and what troughs in turn get in their share of them, is spread over those hours.
  std::vector<double> got_m3_s;
  std::vector<std::optional<double>> met;
  std::vector<Finding> flags;  // cautions and dangers of all phases, one a code and place

  [[nodiscard]] double total_m3_s() const;
};

/// Compares changes: the place asked for first, then all water. What makes a trough go short that
/// had its need is worth no more, in the case `needs`, than the share that trough keeps; where
/// flows are compared it comes after what leaves everybody's need alone.
class Ranking {
 public:
  Ranking(const ChangeAim& aim, const Outcome& before) : aim_(aim), before_(before) {}

  /// Whether an outcome is better than another. Figures that agree to a millionth count as equal;
  /// then the trough worst off among the others, the fewer new flags, the lesser cost decide.
  [[nodiscard]] bool is_better(const Outcome& a,
                               const std::optional<double>& cost_a,
                               const Outcome& b,
                               const std::optional<double>& cost_b) const;

  /// Flags that the farm as it is does not have.
  [[nodiscard]] std::vector<Finding> new_flags(const Outcome& outcome) const;
  [[nodiscard]] bool has_new_danger(const Outcome& outcome) const;
  [[nodiscard]] double gain_m3_s(const Outcome& outcome) const;
  [[nodiscard]] double total_gain_m3_s(const Outcome& outcome) const;
  /// Whether the place asked for gets more and no other trough ends where that one is now.
  [[nodiscard]] bool helps(const Outcome& outcome) const;
  /// Whether another place that had its need goes short.
  [[nodiscard]] bool leaves_another_short(const Outcome& outcome) const;

 private:
  /// Whether shares of the need are compared: else flows, as with floats wide open a need caps
  /// nothing.
  [[nodiscard]] bool is_by_need() const;
  /// The share of its need the place asked for gets, and no more than a place keeps that loses its
  /// own.
  [[nodiscard]] double share_counted(const Outcome& outcome) const;
  [[nodiscard]] bool goes_short(const Outcome& outcome, std::size_t other) const;

  ChangeAim aim_;
  const Outcome& before_;
};

/// Solves changes of one farm, every one for the load case and month of the aim's answer and from
/// the answer of the farm as it is: an outcome does not depend on the trials before. One thread's
/// own.
class ChangeTrials {
 public:
  /// `base`, of the aim's farm and month, must outlive this.
  ChangeTrials(const ChangeAim& aim, const BaseCases& base) : aim_(aim), warm_(base) {}

  /// The farm as it is, from the answer there is.
  [[nodiscard]] Outcome as_it_is() const;
  /// With dangers judged over all load cases.
  [[nodiscard]] Outcome judged(const Setting& setting);
  /// The one load case alone, without flags: for the choice among settings.
  [[nodiscard]] Outcome quick(const Setting& setting);

 private:
  template <class Solve>
  Outcome solved_phases(const Setting& setting, const Solve& solve) const;
  void add_phase(const model::Farm& changed,
                 const std::vector<PlaceAnswer>& places,
                 double share,
                 Outcome& outcome) const;
  void tell_shares_of_the_whole(Outcome& outcome) const;
  void close(const Setting& setting, Outcome& outcome) const;

  ChangeAim aim_;
  WarmCases warm_;
};

/// Both changes at once; empty where they cannot stand together (the same pipe or place, or both
/// by the hour).
[[nodiscard]] std::optional<Setting> both(const Change& a,
                                          const Setting& of_a,
                                          const Change& b,
                                          const Setting& of_b);

}  // namespace leat::solver
