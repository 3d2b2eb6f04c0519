#include "render/words/audit.h"

#include <fmt/format.h>

namespace leat::render {

namespace {

using solver::AuditedFigure;
using solver::AuditFault;
using solver::AuditGap;
using solver::AuditLaw;

const char* figure_words(AuditedFigure figure) {
  switch (figure) {
    case AuditedFigure::Itself:
      return "";
    case AuditedFigure::Loss:
      return " (its loss)";
    case AuditedFigure::Summit:
      return " (its summit)";
    case AuditedFigure::SummitMargin:
      return " (margin of its summit)";
    case AuditedFigure::LowestPressure:
      return " (its lowest pressure)";
    case AuditedFigure::HighestPressure:
      return " (its highest pressure)";
  }
  return "";
}

/// What does not hold, without its figures; none for a law that is told with them.
const char* law_words(AuditLaw law) {
  switch (law) {
    case AuditLaw::OtherFarm:
      return "the answer has not the farm's places, pipes, pumps and rams";
    case AuditLaw::VapourPressure:
      return "the vapour pressure does not belong to the water's temperature";
    case AuditLaw::Density:
      return "the density does not belong to the water's temperature";
    case AuditLaw::AirPressure:
      return "the air pressure does not belong to the altitude";
    case AuditLaw::StillWaterMoves:
      return "still water has a velocity";
    case AuditLaw::VelocityOfFlow:
      return "velocity and flow do not belong together";
    case AuditLaw::ReynoldsOfFlow:
      return "the Reynolds number does not belong to flow, bore and water";
    case AuditLaw::PumpBackwards:
      return "water runs back through a pump";
    case AuditLaw::PumpIdle:
      return "a pump lifts nothing although its head suffices";
    case AuditLaw::RamNegative:
      return "a ram lifts or wastes less than nothing";
    case AuditLaw::RamDrive:
      return "what it lifts and wastes is not what drives it";
    case AuditLaw::RamEfficiency:
      return "what it lifts does not belong to its fall, lift and efficiency";
    case AuditLaw::FillsBehindShutFloat:
      return "it fills a tank whose float has shut";
    case AuditLaw::DrawsFromAir:
      return "it draws water from the air";
    case AuditLaw::HeadBeforeLimit:
      return "the head before a limit does not suffice for its flow";
    case AuditLaw::VentTakesIn:
      return "a vent takes water in";
    case AuditLaw::NoHighPoint:
      return "no high point breaks the siphon";
    case AuditLaw::OneHeadUnknown:
      return "one end's head is known and the other's is not";
    case AuditLaw::TeeTakes:
      return "a tee takes no water";
    case AuditLaw::Elevation:
      return "its elevation is not the file's";
    case AuditLaw::Level:
      return "its level is not the file's";
    case AuditLaw::GivenLevelSpills:
      return "water whose level is given does not spill";
    case AuditLaw::SpringSpill:
      return "a spring spills nothing or something";
    case AuditLaw::MoreThanYield:
      return "more is taken than the spring yields";
    case AuditLaw::TakenAndSpilt:
      return "what is taken and what spills are not the yield";
    case AuditLaw::BoxOutside:
      return "its box stands below the intake or above the overflow";
    case AuditLaw::BoxLevelAndHead:
      return "level and head of its box do not belong together";
    case AuditLaw::SpillsBelowOverflow:
      return "it spills although it does not stand at its overflow";
    case AuditLaw::AboveOverflow:
      return "it stands above its overflow";
    case AuditLaw::TankSpill:
      return "a tank spills nothing or something";
    case AuditLaw::NotOverBrim:
      return "what stays there does not run over its brim";
    case AuditLaw::OutsideTank:
      return "it stands below its floor or above its brim";
    case AuditLaw::LevelAndHead:
      return "level and head do not belong together";
    case AuditLaw::OverBrimUnspilt:
      return "it stands over its brim unspilt";
    case AuditLaw::NothingRunsOut:
      return "nothing runs although water stands above it";
    case AuditLaw::Need:
      return "its need is not the file's";
    case AuditLaw::ShareMet:
      return "the share met is not what it gets over what it needs";
    case AuditLaw::RunsIn:
      return "water runs in";
    case AuditLaw::MoreThanNeed:
      return "it gets more than it needs";
    case AuditLaw::NeedWithoutHead:
      return "it gets its need although the head does not suffice";
    case AuditLaw::OtherSummits:
      return "it has other summits than its path";
    case AuditLaw::SummitElsewhere:
      return "a summit does not stand where the file says";
    case AuditLaw::SaidToPart:
      return "a summit is said to part that holds";
    case AuditLaw::SaidToHold:
      return "a summit parts that is said to hold";
    case AuditLaw::DeliveredWhileShut:
      return "water is delivered with everything shut";
    case AuditLaw::NotAtItsLevel:
      return "not at its level";
    case AuditLaw::AboveEveryWater:
      return "it stands above every water";
    case AuditLaw::RunsWhileShut:
      return "water runs with everything shut";
    case AuditLaw::StillNotAtEnd:
      return "still water does not reach its end";
    case AuditLaw::StillNotAtStart:
      return "still water does not reach its start";
    case AuditLaw::RunsWithoutPipeHead:
      return "water runs where the answer gives no head";
    case AuditLaw::RunsWithoutLoss:
      return "water runs without a head loss";
    case AuditLaw::RunsWithoutHead:
      return "water runs without a head";
    case AuditLaw::SummitWithoutHead:
      return "a summit in running water has no head";
    case AuditLaw::RunsWithoutPressure:
      return "running water without a pressure";
    case AuditLaw::PressureWithoutHead:
      return "pressure without a head";
    case AuditLaw::BackwardsThroughOneWay:
      return "water runs backwards through a one-way";
    case AuditLaw::BackwardsThroughRegulator:
      return "water runs backwards through a regulator";
    case AuditLaw::ThroughShutValve:
      return "water runs through a shut valve";
    default:
      return nullptr;
  }
}

std::string fault_words(const AuditFault& fault) {
  if (const char* const words = law_words(fault.law)) {
    return words;
  }
  switch (fault.law) {
    case AuditLaw::Unbalanced:
      return fmt::format("the pipes bring {:.4g} L/s more or less than it takes",
                         fault.found * 1e3);
    case AuditLaw::AboveVent:
      return fmt::format("water stands {:.4g} m above a vent's top without spilling", fault.found);
    case AuditLaw::ThroughRegulator:
      return fmt::format("a regulator lets through {:.4g} m more than it is set to", fault.found);
    case AuditLaw::OverHighPoint:
      return fmt::format("water runs over a high point that stands {:.4g} m too high", fault.found);
    case AuditLaw::StillThoughDriven:
      return fmt::format("water stands still although {:.4g} m drive it", fault.found);
    case AuditLaw::StillThoughDrivenBack:
      return fmt::format("water stands still although {:.4g} m drive it back", fault.found);
    case AuditLaw::HeadsMeet:
      return fmt::format("still water meets with {:.4g} m between its heads", fault.found);
    default:
      return fmt::format("the head is {:.6g} m, the answer says {:.6g} m", fault.found, fault.said);
  }
}

const char* gap_words(AuditGap gap) {
  switch (gap) {
    case AuditGap::BalanceBehindVent:
      return "balances behind a vent that may spill";
    case AuditGap::PipesAtHiddenHead:
      return "pipes at a tee or spring whose full head is not printed";
    case AuditGap::PipesFromStandingRam:
      return "pipes from a ram that stands in open water";
    case AuditGap::PipesRoundPump:
      return "pipes round which a pump drives the same water";
    case AuditGap::PipesOfSeveralVents:
      return "pipes with several vents that may spill";
    case AuditGap::PipesWithVentsAtOneTee:
      return "pipes with vents that may spill at one tee";
    case AuditGap::PressuresNotFull:
      return "pressures along a pipe that is not full or is held by a limit";
    case AuditGap::PressuresUnderSuction:
      return "pressures along still pipes under suction";
    case AuditGap::PumpsBetweenHiddenHeads:
      return "pumps between heads that are not printed";
    case AuditGap::RamsOfHiddenLift:
      return "rams whose lift is not printed";
    case AuditGap::StillPipesAtHiddenHead:
      return "still pipes at a tee or spring whose full head is not printed";
    case AuditGap::StillSidesOfVent:
      return "still sides of a vent that spills";
    case AuditGap::SummitsPartFull:
      return "summits in a reach that runs part full";
  }
  return "";
}

std::string counted(std::size_t count, const char* thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

}  // namespace

std::string audit_sentence(const solver::AuditReport& report) {
  if (report.broken) {
    const AuditFault& fault = *report.broken;
    const std::string where =
        fault.where.empty() ? "" : fault.where + figure_words(fault.figure) + ": ";
    return fmt::format("audit: the answer breaks a law: {}{}", where, fault_words(fault));
  }
  const std::string text = fmt::format(
      "audit: {}, {}, {} and {} hold; largest difference {:.2g} mm "
      "of head, {:.2g} mL/s",
      counted(report.balances, "balance"),
      counted(report.pipes, "pipe"),
      counted(report.limits, "limit"),
      counted(report.pressures, "pressure line"),
      report.largest_head_difference_m * 1e3,
      report.largest_imbalance_m3_s * 1e6);
  std::string open;
  for (const auto& [gap, count] : report.not_checked) {
    open += fmt::format("{}{} ({})", open.empty() ? "" : ", ", gap_words(gap), count);
  }
  return open.empty() ? text : text + "; not checked: " + open;
}

}  // namespace leat::render
