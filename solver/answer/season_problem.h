// Why a season has no answer: one value a problem. Sentences: render/words/season_problems.h.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "model/farm/date.h"
#include "model/text/diagnostic.h"

namespace leat::solver {

/// The step is shorter or longer than a season's may be (solver/season/season_clock.h).
struct StepOutOfRange {};
struct EndsBeforeItBegins {
  model::Date from;
  model::Date to;
};
/// More days than a season may have (solver/season/season_clock.h).
struct SeasonTooLong {};
/// No spring has the name of `SeasonOptions::until_dry`.
struct UnknownSpring {
  std::string name;
  std::vector<std::string> springs;  // the farm's
};
/// Who asked stopped the season, or the draws of its spread.
struct SeasonStopped {
  bool in_draws = false;
};
/// No balance of heads and flows was found at a step.
struct NoBalance {
  model::Date on;
  double from_s = 0.0;  // since midnight
  std::string report;   // of the solver of networks
};

using SeasonProblem = std::variant<StepOutOfRange,
                                   EndsBeforeItBegins,
                                   SeasonTooLong,
                                   UnknownSpring,
                                   model::Diagnostic,  // of the farm's file: a size left to choose
                                   SeasonStopped,
                                   NoBalance>;

}  // namespace leat::solver
