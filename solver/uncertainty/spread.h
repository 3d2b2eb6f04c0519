// How sure an answer is, given how the farm was measured: the farm solved again and again, each
// time with every input off by an error of its model. See METHOD.md, "Spread".
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/uncertainty/farm_input.h"

namespace leat::solver {

/// Draws made when none are asked for, and the most that may be.
inline constexpr int usual_draws = 1000;
inline constexpr int most_draws = 100000;
/// The share below which a likely figure is called low, and above which high.
inline constexpr double low_share = 0.05;
inline constexpr double high_share = 0.95;
/// A chance at or above this is said and makes the exit status 1: the low case says no.
inline constexpr double chance_worth_saying = 0.05;

struct SpreadOptions {
  SteadyOptions steady;  // case, month, broken float; not static
  int draws = usual_draws;
  std::uint64_t seed = 1;
  unsigned threads = 0;  // 0: as many as the machine has cores; the answer does not depend on it
};

/// What one place may be handed [m3/s], as `delivered` in an answer. All 0 where nothing was
/// solved.
struct PlaceSpread {
  double low_m3_s = 0.0;
  double likely_m3_s = 0.0;
  double high_m3_s = 0.0;
  std::optional<double> chance_short;  // share of draws short of their own need; none without one
};

/// How often the water parts at one vertex of a path.
struct SummitSpread {
  std::size_t pipe = 0;
  double at_m = 0.0;
  double chance_parts = 0.0;
};

/// How much of the spread one input makes: the share of the variance it explains to first order.
struct Cause {
  std::string input;  // as farm_input.h names it
  InputKind kind = InputKind::PlaceLevel;
  double share = 0.0;
};

struct Spread {
  SteadyAnswer answer;  // of the farm as written
  int draws = 0;
  std::uint64_t seed = 0;
  int unsolved = 0;       // draws for which no balance was found; they count nowhere
  int solved_slowly = 0;  // draws solved from nothing: their water runs otherwise than as written
  std::vector<PlaceSpread> places;    // by place of the farm
  std::vector<SummitSpread> summits;  // those of the farm, and vertices that part in some draw
  std::vector<Cause> causes;          // most first; those below 1 % are left out
};

/// The spread of a farm. Where the farm as written has no answer, `answer` says why and there are
/// no draws. Never throws for what a farm file can hold.
[[nodiscard]] Spread spread_of(const model::Farm& farm, const SpreadOptions& options);

}  // namespace leat::solver
