// What a printed answer can do wrong before the audit, and what the audit leaves unchecked, as
// values. Sentences: render/words/audit.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

namespace leat::solver {

/// The laws an answer may break.
enum class AuditLaw {
  Head,  // a head worked out again is not the printed one: `found` and `said`
  OtherFarm,
  VapourPressure,
  Density,
  AirPressure,
  StillWaterMoves,
  VelocityOfFlow,
  ReynoldsOfFlow,
  PumpBackwards,
  PumpIdle,
  RamNegative,
  RamDrive,
  RamEfficiency,
  FillsBehindShutFloat,
  DrawsFromAir,
  HeadBeforeLimit,
  VentTakesIn,
  NoHighPoint,
  OneHeadUnknown,
  TeeTakes,
  Elevation,
  Level,
  GivenLevelSpills,
  SpringSpill,
  MoreThanYield,
  TakenAndSpilt,
  BoxOutside,
  BoxLevelAndHead,
  SpillsBelowOverflow,
  AboveOverflow,
  TankSpill,
  NotOverBrim,
  OutsideTank,
  LevelAndHead,
  OverBrimUnspilt,
  NothingRunsOut,
  Need,
  ShareMet,
  RunsIn,
  MoreThanNeed,
  NeedWithoutHead,
  OtherSummits,
  SummitElsewhere,
  SaidToPart,
  SaidToHold,
  DeliveredWhileShut,
  NotAtItsLevel,
  AboveEveryWater,
  RunsWhileShut,
  StillNotAtEnd,
  StillNotAtStart,
  RunsWithoutPipeHead,
  RunsWithoutLoss,
  RunsWithoutHead,
  SummitWithoutHead,
  RunsWithoutPressure,
  PressureWithoutHead,
  BackwardsThroughOneWay,
  BackwardsThroughRegulator,
  ThroughShutValve,
  // Those with a figure, in `found` [m; Unbalanced: m3/s].
  Unbalanced,
  AboveVent,
  ThroughRegulator,
  OverHighPoint,
  StillThoughDriven,
  StillThoughDrivenBack,
  HeadsMeet,
};

/// Which figure of a place or pipe does not hold, where it is not the place's or pipe's head.
enum class AuditedFigure { Itself, Loss, Summit, SummitMargin, LowestPressure, HighestPressure };

/// A law that does not hold.
struct AuditFault {
  AuditLaw law = AuditLaw::Head;
  std::string where = {};  // place, pipe, pump or ram; empty for the whole answer
  AuditedFigure figure = AuditedFigure::Itself;
  double found = 0.0;
  double said = 0.0;
};

/// What cannot be checked (told in this order), as the answer does not print what it takes.
enum class AuditGap {
  BalanceBehindVent,
  PipesAtHiddenHead,
  PipesFromStandingRam,
  PipesRoundPump,
  PipesOfSeveralVents,
  PipesWithVentsAtOneTee,
  PressuresNotFull,
  PressuresUnderSuction,
  PumpsBetweenHiddenHeads,
  RamsOfHiddenLift,
  StillPipesAtHiddenHead,
  StillSidesOfVent,
  SummitsPartFull,
};

}  // namespace leat::solver
