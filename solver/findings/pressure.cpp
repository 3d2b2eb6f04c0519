#include <algorithm>
#include <cmath>
#include <optional>

#include "solver/findings/closings.h"
#include "solver/findings/judging.h"
#include "solver/findings/pipe_strength.h"
#include "solver/findings/states.h"
#include "solver/hydraulics/pipe_rating.h"

namespace leat::solver {

namespace {

/// Nobody steps a line down by more tanks than this; such a pipe is the wrong one.
constexpr int most_tanks = 5;

/// Levels of tanks that break the pressure of a pipe over its limit; empty where the pipe has no
/// such stretch above its own far end.
std::vector<double> tank_levels_m(const Judging& on,
                                  const model::Pipe& pipe,
                                  const StaticPressure& seen,
                                  double limit_m) {
  const double fall_m = seen.head_m - seen.elevation_m;
  const int tanks = hydraulics::break_pressure_tanks(fall_m, limit_m);
  const double far_end_m = in_metres(model::to_end_level(on.farm, pipe, on.month()));
  if (tanks > most_tanks) {
    return {};
  }
  std::vector<double> levels_m;  // none where it is over a share of the rating by its rounding
  for (int i = 1; i <= tanks; ++i) {
    const double level_m = seen.head_m - fall_m * i / (tanks + 1);
    if (level_m <= far_end_m) {
      return {};
    }
    levels_m.push_back(level_m);
  }
  return levels_m;
}

void raise_over_rating(const Judging& on,
                       std::size_t index,
                       const PipeStrength& strength,
                       double share,
                       double limit_Pa) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const StaticPressure& seen = *on.static_pressures[index];
  const double limit_m = on.chosen().state.surroundings.head_of_pressure_m(limit_Pa);
  on.findings.raise(made_finding(Code::OverRating,
                                 Severity::Danger,
                                 pipe.name,
                                 LoadCase::Static,
                                 {seen.pressure_Pa, limit_Pa, Measure::Pressure},
                                 OverRating{{seen.at_m, seen.elevation_m},
                                            share,
                                            *strength.rating_Pa,
                                            *strength.derating < 1.0,
                                            tank_levels_m(on, pipe, seen, limit_m)}));
}

void judge_knock(const Judging& on,
                 std::size_t index,
                 const PipeStrength& strength,
                 const Knock& knock) {
  const std::optional<StaticPressure>& seen = on.static_pressures[index];
  const double still_Pa = seen ? std::max(0.0, seen->pressure_Pa) : 0.0;
  const double knock_Pa = on.chosen().state.surroundings.pressure_of_head_Pa(knock.head_m);
  const double limit_Pa = strength.surge_share * *strength.rating_Pa * *strength.derating;
  if (knock.head_m <= 0.0 || still_Pa + knock_Pa <= limit_Pa) {
    return;
  }
  on.findings.raise(made_finding(Code::Surge,
                                 Severity::Danger,
                                 on.farm.pipes[index].name,
                                 knock.load_case,
                                 {still_Pa + knock_Pa, limit_Pa, Measure::Pressure},
                                 Surge{knock.closing,
                                       knock.closing_s,
                                       still_Pa,
                                       knock_Pa,
                                       strength.surge_share,
                                       *strength.rating_Pa,
                                       *strength.derating < 1.0}));
}

void note_assumed_rating(const Judging& on, const model::Pipe& pipe, double rating_Pa) {
  on.findings.raise(made_finding(Code::RatingAssumed,
                                 Severity::Note,
                                 pipe.name,
                                 LoadCase::Static,
                                 {rating_Pa, std::nullopt, Measure::Pressure},
                                 RatingAssumed{pipe.size.text}));
}

/// Fast water where no knock was worked out.
void judge_speed(const Judging& on, std::size_t index) {
  for (const SolvedCase& solved : on.cases) {
    const double velocity = std::abs(solved.pipes[index].velocity_m_s);
    if (velocity > fast_velocity_m_s) {
      on.findings.raise(made_finding(Code::Fast,
                                     Severity::Note,
                                     on.farm.pipes[index].name,
                                     solved.load_case,
                                     {velocity, fast_velocity_m_s, Measure::Velocity},
                                     FastWater{}));
    }
  }
}

bool is_under_pressure(const std::optional<StaticPressure>& seen) {
  return seen && seen->pressure_Pa > 0.0;
}

/// True where the pipe is over its rating.
bool judge_pipe(const Judging& on, std::size_t index, const std::optional<Knock>& knock) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const PipeStrength strength = strength_of(pipe);
  if (!strength.rating_Pa || !strength.derating) {
    return false;
  }
  if (knock) {
    judge_knock(on, index, strength, *knock);
  }
  if (!is_under_pressure(on.static_pressures[index])) {
    return false;
  }
  if (pipe.size.rating_assumed) {
    note_assumed_rating(on, pipe, *strength.rating_Pa);
  }
  const double share = knock ? 1.0 : hydraulics::static_share_without_surge;
  const double limit_Pa = share * *strength.rating_Pa * *strength.derating;
  if (on.static_pressures[index]->pressure_Pa <= limit_Pa) {
    return false;
  }
  raise_over_rating(on, index, strength, share, limit_Pa);
  return true;
}

/// The greatest suction of all cases, where what flattens the pipe cannot be worked out.
double unjudged_suction_Pa(const Judging& on, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  if (pipe.size.material == model::PipeMaterial::SuctionHose ||
      collapse_suction_Pa(pipe, true).has_value()) {
    return 0.0;
  }
  double suction_Pa = 0.0;
  for (const SolvedCase& solved : on.cases) {
    suction_Pa = std::max(suction_Pa, -solved.pipes[index].lowest_pressure_Pa.value_or(0.0));
  }
  return suction_Pa;
}

}  // namespace

std::vector<bool> judge_pressure(const Judging& on) {
  const std::vector<std::optional<Knock>> knocks = knocks_of(on);
  std::vector<bool> over(on.farm.pipes.size(), false);
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    over[i] = judge_pipe(on, i, knocks[i]);
    if (!knocks[i]) {
      judge_speed(on, i);
    }
  }
  return over;
}

void judge_unknown_strength(const Judging& on) {
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    const model::Pipe& pipe = on.farm.pipes[i];
    const PipeStrength strength = strength_of(pipe);
    const std::optional<StaticPressure>& seen = on.static_pressures[i];
    StrengthUnknown unknown;
    if (is_under_pressure(seen) && (!strength.rating_Pa || !strength.derating)) {
      unknown.rating = strength.rating_Pa ? StrengthUnknown::Rating::LostToWarmth
                                          : StrengthUnknown::Rating::Missing;
    }
    unknown.knock_unknown = strength.rating_Pa && (!strength.wall_m || !strength.modulus_Pa) &&
                            something_shuts(on.farm, pipe);
    if (const double suction_Pa = unjudged_suction_Pa(on, i); suction_Pa > suction_limit_Pa) {
      unknown.suction_Pa = suction_Pa;
    }
    if (unknown.rating == StrengthUnknown::Rating::Judged && !unknown.knock_unknown &&
        !unknown.suction_Pa) {
      continue;
    }
    on.findings.raise(made_finding(Code::NoRating,
                                   Severity::Note,
                                   pipe.name,
                                   LoadCase::Static,
                                   {seen ? std::optional<double>(seen->pressure_Pa) : std::nullopt,
                                    std::nullopt,
                                    Measure::Pressure},
                                   unknown));
  }
}

}  // namespace leat::solver
