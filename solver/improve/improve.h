// The ranked list of single changes that help a trough, and the best pair. See METHOD.md,
// "Improve".
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/improve/change.h"

namespace leat::solver {

inline constexpr std::size_t most_changes_solved = 300;

struct ImproveOptions {
  std::optional<std::string> place;      // trough, outlet or pond; the worst off when absent
  LoadCase load_case = LoadCase::Needs;  // Needs or Wide
  std::optional<model::Month> month;     // the driest month when absent
  std::optional<model::UnitSystem> units;
  std::size_t most_solved = most_changes_solved;
  bool sensitivities = false;
  bool pairs = true;     // whether the best pair is sought
  unsigned threads = 0;  // 0: as many as the machine has cores; the plan does not depend on it
};

/// One change, or a pair, carried out and solved.
struct SolvedChange {
  ChangeKind kind = ChangeKind::WiderPipe;  // of a pair, of its first
  std::vector<std::string> words;           // what to do: one; of a pair two
  std::string gets;              // of what is set by hand: what each place then gets, or empty
  std::string where;             // pipe or place changed; empty for a pair
  double gain_m3_s = 0.0;        // at the place asked for, over its hours as they are now
  double total_gain_m3_s = 0.0;  // of all troughs, outlets and ponds
  std::optional<double> met_before;
  std::optional<double> met_after;
  std::vector<Finding> new_flags;  // cautions and dangers that were not there before, worst first
  std::optional<double> cost;      // money, where the prices are in the file
  bool helps = false;
  bool has_new_danger = false;
  bool leaves_another_short = false;  // a place that had its need does not have it any more

  /// One sentence, without a full stop.
  [[nodiscard]] std::string sentence() const {
    const std::string done = words.empty() ? std::string() : words.front();
    return gets.empty() ? done : done + ": " + gets;
  }
};

/// How the water at the place asked for answers to one number of the file, to first order.
struct SmallChange {
  std::string input;  // "level of north"
  std::string by;     // "raised 1 ft", "10 % more", "laid in 1 in SIDR 15"
  double gain_m3_s = 0.0;
};

struct ImprovePlan {
  SteadyAnswer answer;         // as the farm is, in the load case the changes are solved in
  std::vector<Finding> flags;  // of the farm as it is, in the load case asked for
  std::size_t place = 0;       // whom the changes are for
  bool nothing_starves = false;
  std::vector<SolvedChange> changes;  // best first; those that raise a new danger last
  std::optional<SolvedChange> pair;   // where it betters the best single change
  std::vector<std::string> air;       // what air in a line may be taking now, a sentence each
  bool small_changes_asked = false;
  std::vector<SmallChange> small_changes;  // largest first; empty unless asked for
  std::vector<std::string> notes;
  std::vector<model::Diagnostic> problems;  // why there is no plan
};

/// Carries out every single change (possible_changes.h), or the most promising where there are more
/// than `most_solved`, solves each and ranks them.
[[nodiscard]] ImprovePlan improve_plan(const model::Farm& farm, const ImproveOptions& options);

}  // namespace leat::solver
