#include <algorithm>

#include <fmt/format.h>

#include "solver/findings/judging.h"

namespace leat::solver {

namespace {

void raise_break(const Judging& on, const SolvedCase& solved, const BrokenLine& line) {
  const std::string& spring = on.farm.places[line.spring].name;
  const double above_m = line.high_elevation_m - line.intake_m;
  on.flags.raise(
      made_flag("breaks",
                FlagSeverity::Danger,
                spring,
                fmt::format("{} draws down to its intake and lets air into {}; the high point of "
                            "{} at {} stands {} above the intake, so the siphon breaks and does "
                            "not start again by itself: throttle the outlet until it takes less "
                            "than the yield",
                            spring,
                            on.farm.pipes[line.pipe].name,
                            on.farm.pipes[line.high_pipe].name,
                            on.length(line.high_at_m),
                            on.length(above_m)),
                solved.load_case,
                {above_m, 0.0, "m"}));
}

void raise_air(const Judging& on, const SolvedCase& solved, const DrawingTee& drawing) {
  const std::string& tee = on.farm.places[drawing.tee].name;
  const std::string& end = on.farm.places[drawing.open_end].name;
  const double head_m = drawing.head_m - solved.places[drawing.tee].elevation_m;
  on.flags.raise(
      made_flag("air-in",
                FlagSeverity::Danger,
                tee,
                fmt::format("{} stands {} above the grade line of a full line and draws air in "
                            "through {}, which stands open; solved again with air in {}. A one-way "
                            "before {}, or its end closed, keeps the air out",
                            tee,
                            on.length(-head_m),
                            end,
                            tee,
                            end),
                solved.load_case,
                {head_m, 0.0, "m"}),
      Worse::Lower);
}

/// With a spring drawn below its intake the line runs part full and draws air at its mouth already;
/// in a case nobody asked for, more of it through a float is no news.
bool draws_air_at_a_spring(const Judging& on, const SolvedCase& solved) {
  for (std::size_t i = 0; i < on.farm.places.size(); ++i) {
    if (is_drawn_down(on, solved, i)) {
      return true;
    }
  }
  return false;
}

}  // namespace

void judge_happenings(const Judging& on) {
  for (const SolvedCase& solved : on.cases) {
    for (const BrokenLine& line : solved.happenings.broken_lines) {
      raise_break(on, solved, line);
    }
    const bool is_news = &solved == &on.chosen() || !draws_air_at_a_spring(on, solved);
    for (const DrawingTee& drawing : solved.happenings.drawing_tees) {
      if (is_news) {
        raise_air(on, solved, drawing);
      }
    }
  }
}

}  // namespace leat::solver
