#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/findings/judging.h"
#include "solver/findings/lower_summit.h"
#include "solver/findings/states.h"

namespace leat::solver {

namespace {

/// Whether the summit holds as it runs but a storm's low pressure would part it.
bool parts_in_a_storm(const Judging& on, const SummitAnswer& summit) {
  return !summit.parted && summit.margin_m && *summit.margin_m <= storm_share * on.air_head_m;
}

/// How far the summit must come down to hold [m].
std::optional<double> lowering_m(const Judging& on,
                                 const SolvedCase& solved,
                                 std::size_t pipe,
                                 const SummitAnswer& summit) {
  if (solved.is_static()) {
    // Still water: the margin grows by what the summit comes down.
    return std::max(near_vapour_margin_m, storm_share * on.air_head_m) - *summit.margin_m;
  }
  return lowering_needed_m(solved.state, pipe, summit.at_m);
}

std::string advice(const Judging& on, const SummitAnswer& summit, std::optional<double> lower_m) {
  return lower_m ? fmt::format(" lie {} or below",
                               spoken_lowering(summit.elevation_m, *lower_m, on.units))
                 : "";
}

void raise_parted(const Judging& on,
                  const SolvedCase& solved,
                  std::size_t pipe,
                  const SummitAnswer& summit,
                  bool in_storm,
                  const std::string& where) {
  const std::optional<double> lower_m = lowering_m(on, solved, pipe, summit);
  const char* const end = solved.is_static() ? "The line does not stay primed"
                                             : "The flow given is an upper bound for minutes; the "
                                               "siphon stops";
  on.flags.raise(
      made_flag("parted",
                FlagSeverity::Danger,
                on.farm.pipes[pipe].name,
                fmt::format("the water parts at {}{}: the pressure there falls to that of its "
                            "vapour. {}{}{}",
                            where,
                            in_storm ? " when a storm lowers the air's pressure" : "",
                            end,
                            lower_m ? ". The summit would have to" : "",
                            advice(on, summit, lower_m)),
                solved.load_case,
                {*summit.margin_m, 0.0, "m"}),
      Worse::Lower);
}

void raise_near_vapour(const Judging& on,
                       const SolvedCase& solved,
                       const std::string& pipe,
                       const SummitAnswer& summit,
                       const std::string& where) {
  on.flags.raise(
      made_flag("near-vapour",
                FlagSeverity::Danger,
                pipe,
                fmt::format("{} has {} left above the vapour limit: it will gas up and stop. It "
                            "should{}",
                            where,
                            on.length(*summit.margin_m),
                            advice(on, summit, near_vapour_margin_m - *summit.margin_m)),
                solved.load_case,
                {*summit.margin_m, near_vapour_margin_m, "m"}),
      Worse::Lower);
}

void raise_low_pressure(const Judging& on,
                        const SolvedCase& solved,
                        const std::string& pipe,
                        const SummitAnswer& summit,
                        const std::string& where) {
  on.flags.raise(
      made_flag("low-pressure",
                FlagSeverity::Caution,
                pipe,
                fmt::format("{} runs at {} of water absolute: air comes out of the water there and "
                            "gathers. At {} or below it would not",
                            where,
                            on.length(*summit.absolute_head_m),
                            spoken_level_at_most(
                                summit.elevation_m + *summit.absolute_head_m - low_absolute_head_m,
                                on.units)),
                solved.load_case,
                {*summit.absolute_head_m, low_absolute_head_m, "m"}),
      Worse::Lower);
}

/// A summit in the load case that leaves it the least.
struct WorstSummit {
  const SolvedCase* solved = nullptr;
  const SummitAnswer* summit = nullptr;
};

WorstSummit worst_of(const Judging& on, std::size_t pipe, std::size_t index) {
  WorstSummit worst;
  // Below vapour there is nothing: how far below a reckoning comes out says no more.
  const auto left_m = [](const SummitAnswer& summit) { return std::max(0.0, *summit.margin_m); };
  for (const SolvedCase& solved : on.cases) {
    const SummitAnswer& summit = solved.pipes[pipe].summits[index];
    if (summit.margin_m &&
        (worst.summit == nullptr || left_m(summit) < left_m(*worst.summit) - 1e-9)) {
      worst = {&solved, &summit};
    }
  }
  return worst;
}

/// A summit that a storm parts counts as parted in every case's figures.
void mark_storms(const Judging& on, PipeAnswer& water) {
  for (SummitAnswer& summit : water.summits) {
    summit.parted = summit.parted || parts_in_a_storm(on, summit);
    if (water.summit && water.summit->at_m == summit.at_m) {
      water.summit = summit;
    }
  }
}

void judge_summits_of(const Judging& on, std::size_t pipe) {
  const std::string& name = on.farm.pipes[pipe].name;
  WorstSummit parted;  // its lowering costs many solves: one a pipe
  for (std::size_t i = 0; i < on.chosen().pipes[pipe].summits.size(); ++i) {
    const auto [solved, summit] = worst_of(on, pipe, i);
    if (summit == nullptr) {
      continue;
    }
    const std::string where = fmt::format("the summit of {} at {} ({})",
                                          name,
                                          on.length(summit->at_m),
                                          on.level(summit->elevation_m));
    if (summit->parted || parts_in_a_storm(on, *summit)) {
      if (parted.summit == nullptr || *summit->margin_m < *parted.summit->margin_m - 1e-9) {
        parted = {solved, summit};
      }
    } else if (is_near_vapour(*summit)) {
      raise_near_vapour(on, *solved, name, *summit, where);
    } else if (*summit->absolute_head_m < low_absolute_head_m) {
      raise_low_pressure(on, *solved, name, *summit, where);
    }
  }
  if (parted.summit != nullptr) {
    raise_parted(on,
                 *parted.solved,
                 pipe,
                 *parted.summit,
                 parts_in_a_storm(on, *parted.summit) && *parted.summit->margin_m > 0.0,
                 fmt::format("the summit of {} at {} ({})",
                             name,
                             on.length(parted.summit->at_m),
                             on.level(parted.summit->elevation_m)));
  }
}

}  // namespace

void judge_summits(const Judging& on) {
  for (std::size_t pipe = 0; pipe < on.farm.pipes.size(); ++pipe) {
    judge_summits_of(on, pipe);
    for (SolvedCase& solved : on.cases) {
      mark_storms(on, solved.pipes[pipe]);
    }
  }
}

}  // namespace leat::solver
