// Room: farms beside each other, and how they differ, as values; no words.
// Farms beside each other: variants of one, or a siphon, a ram and a pump for the same job.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/season_answer.h"
#include "solver/answer/steady_answer.h"
#include "solver/prime/prime.h"

namespace leat::solver {

struct CompareOptions {
  std::optional<model::Month> month;  // of the steady case; when absent the driest month of the
                                      // first farm in which anything depends on the month
  SeasonOptions season;               // the same dates and step for all
  std::optional<model::UnitSystem> units;  // of the sentences; each farm's own when absent
};

/// What it takes to start the line of a farm that is hardest to start (prime.h).
struct StartingEffort {
  PrimeNeed need = PrimeNeed::FillsItself;
  double water_m3 = 0.0;  // to have ready, with what spills; 0 where it fills itself
};

/// What wears and wants looking after: things with moving parts, counted.
struct MovingParts {
  int floats = 0;  // of troughs and tanks
  int foot_valves = 0;
  int checks = 0;  // one-way fittings other than foot valves
  int regulators = 0;
  int rams = 0;
  int pumps = 0;

  friend bool operator==(const MovingParts&, const MovingParts&) = default;
};

/// One of the farms. What could not be found out is absent.
struct ComparedFarm {
  SteadyAnswer answer;                     // case needs, in the common month
  double flow_m3_s = 0.0;                  // what troughs, outlets and ponds get from their pipes
  std::optional<double> met;               // all that is got of all that is needed, at most 1
  std::optional<SeasonAnswer> season;      // none where there is none
  std::optional<double> dry_h;             // hours dry, summed over troughs and outlets with a need
  std::optional<double> energy_kWh;        // of pumps; 0 without one, absent where not known
  std::optional<double> wasted_m3;         // by rams; 0 without one
  std::optional<StartingEffort> starting;  // absent where no line can be planned
  MovingParts parts;
  std::vector<Finding> flags;  // of the steady answer, and the season's of other codes and places
  std::vector<model::Diagnostic> problems;     // why there is no answer ...
  std::vector<SeasonProblem> season_problems;  // ... and why there is no season
};

struct Comparison {
  std::optional<model::Month> month;
  std::vector<ComparedFarm> farms;  // in the order given
};

/// Solves every farm for the same month and the same dates. Farms without an answer carry their
/// problems; the others are there all the same.
[[nodiscard]] Comparison compare_farms(const std::vector<const model::Farm*>& farms,
                                       const CompareOptions& options);

/// What a place gets from its pipes [m3/s]: troughs, outlets and ponds; 0 for all others and where
/// the place feeds the pipes.
[[nodiscard]] double water_got_m3_s(const model::Place& place, const PlaceAnswer& answer);

/// The first day on which a trough of that name goes short; none where it never does.
[[nodiscard]] std::optional<model::Date> first_dry_of(const ComparedFarm& compared,
                                                      std::size_t place);

}  // namespace leat::solver
