#include <algorithm>
#include <optional>
#include <utility>

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

/// What is found of the summits of a pipe: the less is left, the worse.
void raise_of(const Judging& on,
              const SolvedCase& solved,
              std::size_t pipe,
              Code code,
              Severity severity,
              const Measured& measured,
              Detail detail) {
  on.findings.raise(
      made_finding(
          code, severity, on.farm.pipes[pipe].name, solved.load_case, measured, std::move(detail)),
      Worse::Lower);
}

void raise_parted(const Judging& on,
                  const SolvedCase& solved,
                  std::size_t pipe,
                  const SummitAnswer& summit) {
  SummitParts parts;
  parts.summit = {summit.at_m, summit.elevation_m};
  parts.in_storm = parts_in_a_storm(on, summit) && *summit.margin_m > 0.0;
  parts.lowering_m = lowering_m(on, solved, pipe, summit);
  raise_of(on,
           solved,
           pipe,
           Code::Parted,
           Severity::Danger,
           {*summit.margin_m, 0.0, Measure::Length},
           parts);
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
  WorstSummit parted;  // its lowering costs many solves: one a pipe
  for (std::size_t i = 0; i < on.chosen().pipes[pipe].summits.size(); ++i) {
    const auto [solved, summit] = worst_of(on, pipe, i);
    if (summit == nullptr) {
      continue;
    }
    const PipeSpot spot{summit->at_m, summit->elevation_m};
    if (summit->parted || parts_in_a_storm(on, *summit)) {
      if (parted.summit == nullptr || *summit->margin_m < *parted.summit->margin_m - 1e-9) {
        parted = {solved, summit};
      }
    } else if (is_near_vapour(*summit)) {
      raise_of(on,
               *solved,
               pipe,
               Code::NearVapour,
               Severity::Danger,
               {*summit->margin_m, near_vapour_margin_m, Measure::Length},
               SummitNearVapour{spot});
    } else if (*summit->absolute_head_m < low_absolute_head_m) {
      raise_of(on,
               *solved,
               pipe,
               Code::LowPressure,
               Severity::Caution,
               {*summit->absolute_head_m, low_absolute_head_m, Measure::Length},
               SummitLowPressure{spot});
    }
  }
  if (parted.summit != nullptr) {
    raise_parted(on, *parted.solved, pipe, *parted.summit);
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
