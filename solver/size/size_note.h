// What was taken, tried and found while sizing; why there is no plan. Values, no sentences.
#pragma once

#include <string>
#include <variant>

namespace leat::solver {

/// No pipe is left to choose: the pipes are taken as laid.
struct PipesAsLaid {};
/// No size of the list brings a place all that is wanted there, this share of it at most.
struct PartlyReached {
  std::string place;
  double share = 0.0;
};
/// No size of the list stands the pressure in a pipe.
struct NoSizeStands {
  std::string pipe;
};
/// Solved as a farm, the cheapest choice by the sum of losses fell short and was tightened.
struct Tightened {
  int times = 0;
};
/// The search ended at its limit: a cheaper choice may be left.
struct SearchEnded {};
/// No choice tried does all that is asked.
struct NoneSound {};
struct FarmsSolved {
  int count = 0;
};
/// The file gives no prices of pipe: sizes of this kind were chosen by their weight.
struct ChosenByWeight {
  std::string kind;
};
/// The farm is too large to run its month for every trough and tank.
struct StoresByRuleOnly {};

using SizeNote = std::variant<PipesAsLaid,
                              PartlyReached,
                              NoSizeStands,
                              Tightened,
                              SearchEnded,
                              NoneSound,
                              FarmsSolved,
                              ChosenByWeight,
                              StoresByRuleOnly>;

/// Why nothing is sized.
enum class SizeRefusal {
  NothingToSize,       // no pipe is left to choose, no trough or tank has a day's amount to hold
  NoLinearProgramming  // this build has no solver for it
};

}  // namespace leat::solver
