// How sure a season is, given how the farm was measured: the season run again and again, each time
// on a farm with every input off by an error of its model. See METHOD.md, "Spread of a season".
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"
#include "solver/season/season.h"
#include "solver/uncertainty/spread.h"
#include "solver/uncertainty/uncertain_inputs.h"

namespace leat::solver {

/// Seasons run when no number is asked for: a year by the hour of twenty places is some 0.2 s.
inline constexpr int usual_season_draws = 100;

struct SeasonSpreadOptions {
  SeasonOptions season;  // `until_dry` is of the farm as written only
  int draws = usual_season_draws;
  std::uint64_t seed = 1;
  unsigned threads = 0;  // 0: as many as the machine has cores; the answer does not depend on it
};

/// The 5th, 50th and 95th percentile of the draws.
struct LowLikelyHigh {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

/// The day by which a twentieth, half, and all but a twentieth of the draws have seen something; a
/// draw that never does counts as later than all days. None where so many never do.
struct EarlyLikelyLate {
  std::optional<model::Date> early;
  std::optional<model::Date> likely;
  std::optional<model::Date> late;
};

/// A trough, or an outlet with a wish. In the order of the season's troughs.
struct TroughSpread {
  std::size_t place = 0;
  LowLikelyHigh got_m3;                // over the whole season
  std::optional<LowLikelyHigh> met;    // of its own need, at most 1; none without a need
  std::optional<double> chance_short;  // share of draws with a short day; none without a need
  EarlyLikelyLate first_short;         // its first day short; none without a need
  LowLikelyHigh dry_h;                 // unmet volume over the need's rate, all months
};

/// A tank, or a pond whose shape is known. In the order of the season's tanks and ponds.
struct StoreSpread {
  std::size_t place = 0;
  LowLikelyHigh lowest_m;     // level on the datum, read off its own wall: the error of the store's
                              // own level is not in it
  EarlyLikelyLate filled;     // of a pond: the first day it stands full; of a tank nothing
  double chance_empty = 0.0;  // share of draws that bring it down to its lowest mouth, or bottom
};

/// How often a line draws air at its spring, and stands still from then on.
struct BreakSpread {
  std::size_t pipe = 0;  // the one leaving the spring
  double chance_breaks = 0.0;
};

/// What the causes explain the spread of.
struct ExplainedSpread {
  enum class What { Nothing, NeedMet, LowestLevel };
  What what = What::Nothing;
  std::size_t place = 0;
};

struct SeasonSpread {
  SeasonAnswer answer;  // of the farm as written
  int draws = 0;
  std::uint64_t seed = 0;
  int unsolved = 0;  // draws for which no balance was found; they count nowhere
  std::vector<TroughSpread> troughs;
  std::vector<StoreSpread> tanks;
  std::vector<StoreSpread> ponds;
  std::vector<SummitSpread> summits;  // those of the farm, and vertices that part in some draw
  std::vector<BreakSpread> breaks;    // lines that break in some draw
  /// The trough that gets least of its need, where any is short in some draw; else the store whose
  /// lowest level spreads most.
  ExplainedSpread explained;
  std::vector<Cause>
      causes;  // most first; those that chance may make are left out: none may be told
};

/// The spread of a season. Where the farm as written has no answer, or `progress` stops the run,
/// `answer` says why and there are no draws. Never throws for what a farm file can hold. `progress`
/// is called on the calling thread alone.
[[nodiscard]] SeasonSpread season_spread_of(const model::Farm& farm,
                                            const SeasonSpreadOptions& options,
                                            const Progress& progress = {});

/// The same with these inputs in place of the farm's own.
[[nodiscard]] SeasonSpread season_spread_of(const model::Farm& farm,
                                            const SeasonSpreadOptions& options,
                                            std::span<const UncertainInput> inputs,
                                            const Progress& progress = {});

}  // namespace leat::solver
