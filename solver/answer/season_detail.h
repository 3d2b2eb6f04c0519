// What a finding of a season tells beside its place, figure and limit: one struct a sentence.
// Sentences: render/words/findings_season.cpp.
#pragma once

#include <optional>
#include <string>

#include "model/farm/date.h"
#include "solver/answer/frost.h"
#include "solver/answer/reason.h"

namespace leat::solver {

/// The water of a line parts at its summit, and the line stops until it is primed again.
struct LineParts {
  model::Date on;
  double summit_m = 0.0;
};

/// A spring draws down to its intake and its siphon breaks; the figure: the high point above the
/// intake [m].
struct LineBreaks {
  model::Date on;
  std::string pipe;  // that leaves the spring
  std::string high_pipe;
};

/// A tee draws air through a branch that stands open.
struct LineDrawsAir {
  std::string open_end;
  model::Date first_on;
};

/// A trough or outlet goes short; the figure: the share met in its worst month.
struct ShortInMonth {
  int year = 1970;
  model::Month month = model::Month::Jan;
  std::optional<model::Date> short_from;  // the first day of the season
  double dry_h = 0.0;                     // of all months
  SeasonReason reason;                    // of the worst
};

/// More is taken from a creek than may be; the figure: what is taken, the limit: what may be.
struct TakesMoreThanSpare {
  model::Date on;
};

/// Water runs over; the figure: how much in all [m3].
struct RunsOver {
  std::optional<model::Date> float_hangs_from;  // the day its float breaks; none: over its brim
};

/// A tank or pond runs empty; the figure: its lowest level [m], the limit: its mouth or bottom.
struct RunsEmpty {
  model::Date on;
  bool at_mouth = true;  // down at the mouth of its lowest pipe; else at its bottom
};

/// A pipe may freeze; the figure: its flow, the limit: the least that keeps it open.
struct PipeFreezes {
  FrostPipe frost;
};

}  // namespace leat::solver
