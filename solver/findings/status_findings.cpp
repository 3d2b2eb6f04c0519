#include <algorithm>

#include "solver/findings/judging.h"

namespace leat::solver {

namespace {

void raise_break(const Judging& on, const SolvedCase& solved, const BrokenLine& line) {
  const double above_m = line.high_elevation_m - line.intake_m;
  on.findings.raise(made_finding(
      Code::Breaks,
      Severity::Danger,
      on.farm.places[line.spring].name,
      solved.load_case,
      {above_m, 0.0, Measure::Length},
      SiphonBreaks{
          on.farm.pipes[line.pipe].name, on.farm.pipes[line.high_pipe].name, line.high_at_m}));
}

void raise_air(const Judging& on, const SolvedCase& solved, const DrawingTee& drawing) {
  const double head_m = drawing.head_m - solved.places[drawing.tee].elevation_m;
  on.findings.raise(made_finding(Code::AirIn,
                                 Severity::Danger,
                                 on.farm.places[drawing.tee].name,
                                 solved.load_case,
                                 {head_m, 0.0, Measure::Length},
                                 TeeDrawsAir{on.farm.places[drawing.open_end].name}),
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
