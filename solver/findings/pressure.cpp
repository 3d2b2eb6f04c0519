#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "solver/findings/closings.h"
#include "solver/findings/judging.h"
#include "solver/findings/pipe_strength.h"
#include "solver/findings/states.h"
#include "solver/hydraulics/pipe_rating.h"

namespace leat::solver {

namespace {

/// Nobody steps a line down by more tanks than this; such a pipe is the wrong one.
constexpr int most_tanks = 5;

/// Where tanks would have to stand that break the pressure of a pipe over its limit; empty where
/// the pipe has no such stretch above its own far end.
std::string tank_advice(const Judging& on,
                        const model::Pipe& pipe,
                        const StaticPressure& seen,
                        double limit_m) {
  const double fall_m = seen.head_m - seen.elevation_m;
  const int tanks = hydraulics::break_pressure_tanks(fall_m, limit_m);
  const double far_end_m = in_metres(model::to_end_level(on.farm, pipe, on.month()));
  if (tanks > most_tanks) {
    return "";
  }
  std::vector<std::string> levels;
  for (int i = 1; i <= tanks; ++i) {
    const double level_m = seen.head_m - fall_m * i / (tanks + 1);
    if (level_m <= far_end_m) {
      return "";
    }
    levels.push_back(on.level(level_m));
  }
  if (levels.empty()) {
    return "";  // over a share of the rating by less than its rounding
  }
  return tanks == 1 ? fmt::format("a tank that breaks the pressure, near {}, or ", levels.front())
                    : fmt::format("{} tanks that break the pressure, near {}, or ",
                                  tanks,
                                  fmt::join(levels, ", "));
}

void raise_over_rating(const Judging& on,
                       std::size_t index,
                       const PipeStrength& strength,
                       double share,
                       double limit_Pa) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const StaticPressure& seen = *on.static_pressures[index];
  const double limit_m = on.chosen().state.surroundings.head_of_pressure_m(limit_Pa);
  on.flags.raise(
      made_flag("over-rating",
                FlagSeverity::Danger,
                pipe.name,
                fmt::format("with everything shut {} sees {} at {} ({}); {} is the most it may see "
                            "({:.0f} % of its {} rating{}): {}stronger pipe in the dip",
                            pipe.name,
                            on.pressure(seen.pressure_Pa),
                            on.length(seen.at_m),
                            on.level(seen.elevation_m),
                            on.pressure(limit_Pa),
                            100.0 * share,
                            on.pressure(*strength.rating_Pa),
                            *strength.derating < 1.0 ? ", less for warmth" : "",
                            tank_advice(on, pipe, seen, limit_m)),
                LoadCase::Static,
                {seen.pressure_Pa / 1000.0, limit_Pa / 1000.0, "kPa"}));
}

void judge_knock(const Judging& on,
                 std::size_t index,
                 const PipeStrength& strength,
                 const Knock& knock) {
  const std::string& name = on.farm.pipes[index].name;
  const std::optional<StaticPressure>& seen = on.static_pressures[index];
  const double still_Pa = seen ? std::max(0.0, seen->pressure_Pa) : 0.0;
  const double knock_Pa = on.chosen().state.surroundings.pressure_of_head_Pa(knock.head_m);
  const double limit_Pa = strength.surge_share * *strength.rating_Pa * *strength.derating;
  if (knock.head_m <= 0.0 || still_Pa + knock_Pa <= limit_Pa) {
    return;
  }
  on.flags.raise(made_flag(
      "surge",
      FlagSeverity::Danger,
      name,
      fmt::format("when {} shuts in {:g} s, {} knocks to {} ({} standing and {} more); {} "
                  "is the most it may see ({:.0f} % of its {} rating{}): shut it more "
                  "slowly, or lay wider or stronger pipe",
                  knock.closing,
                  knock.closing_s,
                  name,
                  on.pressure(still_Pa + knock_Pa),
                  on.pressure(still_Pa),
                  on.pressure(knock_Pa),
                  on.pressure(limit_Pa),
                  100.0 * strength.surge_share,
                  on.pressure(*strength.rating_Pa),
                  *strength.derating < 1.0 ? ", less for warmth" : ""),
      knock.load_case,
      {(still_Pa + knock_Pa) / 1000.0, limit_Pa / 1000.0, "kPa"}));
}

void note_assumed_rating(const Judging& on, const model::Pipe& pipe, double rating_Pa) {
  on.flags.raise(made_flag("rating-assumed",
                           FlagSeverity::Note,
                           pipe.name,
                           fmt::format("{} is sold in several ratings; the lowest, {}, is taken "
                                       "for {}: read the print on the pipe",
                                       pipe.size.text,
                                       on.pressure(rating_Pa),
                                       pipe.name),
                           LoadCase::Static,
                           {rating_Pa / 1000.0, std::nullopt, "kPa"}));
}

/// Fast water where no knock was worked out.
void judge_speed(const Judging& on, std::size_t index) {
  for (const SolvedCase& solved : on.cases) {
    const double velocity = std::abs(solved.pipes[index].velocity_m_s);
    if (velocity > fast_velocity_m_s) {
      const std::string& name = on.farm.pipes[index].name;
      on.flags.raise(made_flag("fast",
                               FlagSeverity::Note,
                               name,
                               fmt::format("water runs at {} in {}: fast for plastic pipe where "
                                           "nobody has worked out the knock of a closing valve",
                                           on.velocity(velocity),
                                           name),
                               solved.load_case,
                               {velocity, fast_velocity_m_s, "m/s"}));
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
    std::vector<std::string> unknown;
    if (is_under_pressure(seen) && (!strength.rating_Pa || !strength.derating)) {
      unknown.push_back(fmt::format("sees {} with everything shut and {}",
                                    on.pressure(seen->pressure_Pa),
                                    strength.rating_Pa
                                        ? "lies in the sun, where its rating does not hold"
                                        : "carries no rating"));
    }
    const bool no_knock = strength.rating_Pa && (!strength.wall_m || !strength.modulus_Pa) &&
                          something_shuts(on.farm, pipe);
    if (no_knock) {
      unknown.emplace_back("is shut by a float or valve whose knock cannot be worked out");
    }
    const double suction_Pa = unjudged_suction_Pa(on, i);
    if (suction_Pa > suction_limit_Pa) {
      unknown.push_back(
          fmt::format("stands {} under suction, and whether it sucks flat cannot be "
                      "worked out",
                      on.pressure(suction_Pa)));
    }
    if (unknown.empty()) {
      continue;
    }
    const bool wall_wanted = no_knock || suction_Pa > suction_limit_Pa;
    on.flags.raise(
        made_flag("no-rating",
                  FlagSeverity::Note,
                  pipe.name,
                  fmt::format("{} {}{}",
                              pipe.name,
                              fmt::join(unknown, ", it "),
                              wall_wanted ? ": give its size a wall and a modulus" : ""),
                  LoadCase::Static,
                  {seen ? std::optional<double>(seen->pressure_Pa / 1000.0) : std::nullopt,
                   std::nullopt,
                   "kPa"}));
  }
}

}  // namespace leat::solver
