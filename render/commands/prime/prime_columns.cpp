#include "render/commands/prime/prime_columns.h"

#include <numbers>

#include "render/words/prime_steps.h"

namespace leat::render {

namespace {

const char* word_of(hydraulics::AirVerdict verdict) {
  switch (verdict) {
    case hydraulics::AirVerdict::Swept:
      return "swept";
    case hydraulics::AirVerdict::Doubtful:
      return "doubtful";
    case hydraulics::AirVerdict::Stays:
      return "stays";
  }
  return "";
}

}  // namespace

std::vector<PrimeLegRow> prime_leg_rows(const model::Farm& farm, const solver::PrimePlan& plan) {
  std::vector<PrimeLegRow> rows;
  for (const solver::PrimeLeg& leg : plan.course.legs) {
    rows.push_back({farm, leg});
  }
  return rows;
}

std::vector<PrimeStepRow> prime_step_rows(const solver::PrimePlan& plan, model::UnitSystem units) {
  std::vector<PrimeStepRow> rows;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    rows.push_back({plan, i, units});
  }
  return rows;
}

std::vector<FallingLegRow> falling_leg_rows(const model::Farm& farm,
                                            const solver::PrimePlan& plan) {
  std::vector<FallingLegRow> rows;
  for (const solver::FallingLeg& leg : plan.air) {
    rows.push_back({farm, leg});
  }
  return rows;
}

const Columns<PrimeLegRow>& prime_leg_columns() {
  using Leg = Column<PrimeLegRow>;
  static const Columns<PrimeLegRow> columns = {
      Leg::value("pipe", [](const PrimeLegRow& row) { return row.farm.pipes[row.leg.pipe].name; }),
      Leg::number("from_m", scale::length, [](const PrimeLegRow& row) { return row.leg.from_m; }),
      Leg::number(
          "to_m",
          scale::length,
          [](const PrimeLegRow& row) { return row.leg.to_m; },
          "as the file writes distances"),
      Leg::number(
          "volume_L",
          scale::litres,
          [](const PrimeLegRow& row) { return row.leg.volume_m3; },
          "of the leg"),
      Leg::number("from_elevation_m",
                  scale::level,
                  [](const PrimeLegRow& row) { return row.leg.from_elevation_m; }),
      Leg::number(
          "to_elevation_m",
          scale::level,
          [](const PrimeLegRow& row) { return row.leg.to_elevation_m; },
          "of the pipe there"),
  };
  return columns;
}

const Columns<PrimeStepRow>& prime_step_columns() {
  using Step = Column<PrimeStepRow>;
  static const Columns<PrimeStepRow> columns = {
      Step::value(
          "number", [](const PrimeStepRow& row) { return row.index + 1; }, "from 1"),
      Step::value(
          "where",
          [](const PrimeStepRow& row) { return row.step().where; },
          "a place or pipe of the file"),
      Step::value(
          "text",
          [](const PrimeStepRow& row) { return step_sentence(row.plan, row.step(), row.units); },
          "in the units the farm shows"),
      Step::number(
          "volume_L",
          scale::litres,
          [](const PrimeStepRow& row) { return row.step().volume_m3; },
          "poured in during it or null"),
      Step::number(
          "seconds",
          scale::ratio,
          [](const PrimeStepRow& row) { return row.step().time_s; },
          "it takes at least or null"),
  };
  return columns;
}

const Columns<FallingLegRow>& falling_leg_columns() {
  using Leg = Column<FallingLegRow>;
  static const Columns<FallingLegRow> columns = {
      Leg::value("pipe",
                 [](const FallingLegRow& row) { return row.farm.pipes[row.leg.pipe].name; }),
      Leg::number("from_m", scale::length, [](const FallingLegRow& row) { return row.leg.from_m; }),
      Leg::number(
          "to_m",
          scale::length,
          [](const FallingLegRow& row) { return row.leg.to_m; },
          "as the file writes distances"),
      Leg::number(
          "fall_deg",
          scale::ratio,
          [](const FallingLegRow& row) { return row.leg.angle_rad * 180.0 / std::numbers::pi; },
          "degrees it falls"),
      Leg::number(
          "velocity_m_s",
          scale::velocity,
          [](const FallingLegRow& row) { return row.leg.velocity_m_s; },
          "at which the line runs"),
      Leg::number("stays_below_m_s",
                  scale::velocity,
                  [](const FallingLegRow& row) { return row.leg.sweep.stays_below_m_s; }),
      Leg::number(
          "swept_above_m_s",
          scale::velocity,
          [](const FallingLegRow& row) { return row.leg.sweep.swept_above_m_s; },
          "what air needs to be carried down"),
      Leg::number("wisner_m_s",
                  scale::velocity,
                  [](const FallingLegRow& row) { return row.leg.sweep.wisner_m_s; }),
      Leg::number("kent_m_s",
                  scale::velocity,
                  [](const FallingLegRow& row) { return row.leg.sweep.kent_m_s; }),
      Leg::number(
          "kalinske_bliss_m_s",
          scale::velocity,
          [](const FallingLegRow& row) { return row.leg.sweep.kalinske_bliss_m_s; },
          "how far the authors differ"),
      Leg::value(
          "verdict",
          [](const FallingLegRow& row) { return word_of(row.leg.verdict); },
          "swept, doubtful or stays"),
  };
  return columns;
}

}  // namespace leat::render
