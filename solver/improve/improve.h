// Room: single changes carried out, solved and ranked, as values; no words.
// The ranked list of single changes that help a trough, and the best pair. See METHOD.md,
// "Improve".
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/improve/change.h"
#include "solver/uncertainty/farm_input.h"

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

/// What one place gets by a change.
struct PlaceShare {
  std::size_t place = 0;
  double got_m3_s = 0.0;
  std::optional<double> need_m3_s;
};

/// One change, or a pair, carried out and solved.
struct SolvedChange {
  ChangeKind kind = ChangeKind::WiderPipe;  // of a pair, of its first
  std::vector<Action> actions;              // what to do: one; of a pair two
  std::vector<PlaceShare>
      gets;                // of what is set by hand: what places then get, that asked for first
  std::string where;       // pipe or place changed; empty for a pair
  double gain_m3_s = 0.0;  // at the place asked for, over its hours as they are now
  double total_gain_m3_s = 0.0;  // of all troughs, outlets and ponds
  std::optional<double> met_before;
  std::optional<double> met_after;
  std::vector<Finding> new_flags;  // cautions and dangers that were not there before, worst first
  std::optional<double> cost;      // money, where the prices are in the file
  bool helps = false;
  bool has_new_danger = false;
  bool leaves_another_short = false;  // a place that had its need does not have it any more
};

// By how much one number of the file is changed.
struct HigherBy {
  double by_m = 0.0;
};
struct LaidIn {
  std::string size;
};
struct MoreBy {
  double share = 0.0;
};

/// How the water at the place asked for answers to one number of the file, to first order.
struct SmallChange {
  FarmInput input;
  std::variant<HigherBy, LaidIn, MoreBy> by;
  double gain_m3_s = 0.0;
};

/// What air in a line may be taking now: bled, and what a pocket that fills the leg leaves.
struct AirLoss {
  Action bleeding;
  double left_m3_s = 0.0;
};

// What is to be known of a plan.
/// Changes are ranked by what the place would get with every float wide open, as nothing goes short
/// or the place that was asked for has its need, or none.
struct RankedWideOpen {
  std::string place;
  bool was_asked_for = false;
  bool has_need = false;
};
/// Of so many possible changes those that promise most were solved.
struct OnlyPromising {
  std::size_t possible = 0;
  std::size_t solved = 0;
};
/// Changes for which no balance was found are left out.
struct LeftOut {
  std::size_t count = 0;
};
/// No small change of one number does anything, or what it does is not known.
struct NoSmallChange {};
using ImproveNote = std::variant<RankedWideOpen, OnlyPromising, LeftOut, NoSmallChange>;

// Why there is no plan.
/// With everything shut nothing runs.
struct StaticCase {};
struct NoSuchPlace {
  std::string asked;
  std::optional<std::string> nearest;
};
/// No trough, outlet or pond takes water.
struct NothingToImprove {};
using ImproveRefusal = std::variant<StaticCase, NoSuchPlace, NothingToImprove>;

struct ImprovePlan {
  SteadyAnswer answer;         // as the farm is, in the load case the changes are solved in
  std::vector<Finding> flags;  // of the farm as it is, in the load case asked for
  std::size_t place = 0;       // whom the changes are for
  bool nothing_starves = false;
  std::vector<SolvedChange> changes;  // best first; those that raise a new danger last
  std::optional<SolvedChange> pair;   // where it betters the best single change
  /// What holds the place back: why it goes short, else that the farm's only source gives all it
  /// has (of several, which one holds it back is not known here).
  std::optional<Finding> held_back_by;
  std::vector<AirLoss> air;
  bool small_changes_asked = false;
  std::vector<SmallChange> small_changes;  // largest first; empty unless asked for
  std::vector<ImproveNote> notes;
  std::optional<ImproveRefusal> refusal;    // why there is no plan,
  std::vector<model::Diagnostic> problems;  // ... or why the farm has no answer
};

/// Carries out every single change (possible_changes.h), or the most promising where there are more
/// than `most_solved`, solves each and ranks them.
[[nodiscard]] ImprovePlan improve_plan(const model::Farm& farm, const ImproveOptions& options);

}  // namespace leat::solver
