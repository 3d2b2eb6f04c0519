#include "render/words/why_short.h"

#include <fmt/format.h>

#include "model/quantity/quantity.h"
#include "model/quantity/spoken_amount.h"

namespace leat::render {

namespace {

const char* end_word(solver::WaterEnd end) {
  return end == solver::WaterEnd::Float ? "its float" : "its end";
}

/// What takes head, as the subject of "takes most of the fall".
class HeadTakerWords {
 public:
  explicit HeadTakerWords(model::UnitSystem units) : units_(units) {}

  std::string operator()(const solver::FloatSeat& seat) const {
    const Length bore = metres(seat.bore_m);
    const std::string size = units_ == model::UnitSystem::Us
                                 ? fmt::format("{:.2f} in", in_inches(bore))
                                 : fmt::format("{:.1f} mm", in_millimetres(bore));
    return fmt::format("the float's seat is too small: at {} it", size);
  }
  std::string operator()(const solver::FloatValve&) const { return "the float valve"; }
  std::string operator()(const solver::OpenEnd&) const { return "the opening at its end"; }
  std::string operator()(const solver::PartOpenValve& valve) const {
    return fmt::format("the valve on {}, only {:.3g} % open,", valve.pipe, 100.0 * valve.open);
  }
  std::string operator()(const solver::FittingsAndEnds& fittings) const {
    return fmt::format("what stands in {} (fittings and ends)", fittings.pipe);
  }
  std::string operator()(const solver::PipeFriction& friction) const {
    return fmt::format("too far for its pipe: {} of {} in {}",
                       solver::spoken_length(friction.length_m, units_),
                       friction.size,
                       friction.pipe);
  }
  std::string operator()(const solver::PressureRegulator& regulator) const {
    return fmt::format("the regulator on {}", regulator.pipe);
  }

 private:
  model::UnitSystem units_;
};

class ReasonWords {
 public:
  explicit ReasonWords(model::UnitSystem units) : units_(units) {}

  std::string operator()(const solver::NoPipe&) const { return "no pipe leads to it"; }
  std::string operator()(const solver::NoOpenWay&) const { return "no open way joins it to water"; }
  std::string operator()(const solver::NoHeadLeft&) const { return "no head is left for it"; }

  std::string operator()(const solver::SpringsShort& found) const {
    const bool is_one = found.springs.size() == 1;
    if (found.yield_m3_s <= 0.0) {
      return is_one ? fmt::format("spring short: {} yields nothing", found.springs.front())
                    : "springs short: none that feeds it yields anything";
    }
    const std::string yield = solver::spoken_flow(found.yield_m3_s, units_);
    return is_one ? fmt::format("spring short: {} yields {} and the line takes all of it",
                                found.springs.front(),
                                yield)
                  : fmt::format(
                        "springs short: the {} that feed it yield {} together and the lines take "
                        "all of it",
                        found.springs.size(),
                        yield);
  }

  std::string operator()(const solver::TooHigh& high) const {
    return fmt::format("too high: {} stands {} above the highest water that can reach it",
                       end_word(high.end),
                       length(high.above_m));
  }
  std::string operator()(const solver::DryMouth& mouth) const {
    return fmt::format("the mouth of {} stands {} above the water of {}",
                       mouth.pipe,
                       length(mouth.above_m),
                       mouth.water);
  }
  std::string operator()(const solver::ShutValve& valve) const {
    return fmt::format("the valve on {} is shut", valve.pipe);
  }
  std::string operator()(const solver::OneWayAgainst& one_way) const {
    return fmt::format("the one-way on {} lets no water come this way", one_way.pipe);
  }

  std::string operator()(const solver::BrokenSiphon& siphon) const {
    if (!siphon.cause) {
      return fmt::format("the siphon {} has broken", siphon.pipe);
    }
    return fmt::format(
        "the siphon {} has broken: {} drew down to its intake, {} below the "
        "high point of {}",
        siphon.pipe,
        siphon.cause->spring,
        length(siphon.cause->below_m),
        siphon.cause->high_pipe);
  }
  std::string operator()(const solver::SummitParted& parted) const {
    return fmt::format("the water parted at the summit of {}, which runs no more", parted.pipe);
  }
  std::string operator()(const solver::DrySummit& summit) const {
    return fmt::format(
        "no water comes over the summit of {}: it stands {} above the water "
        "before it, higher than {} can lift",
        summit.pipe,
        length(summit.above_m),
        summit.is_vented ? "a vented line" : "the air's pressure");
  }
  std::string operator()(const solver::CheckStaysShut& check) const {
    return fmt::format("what fall there is does not open the check on {}, which takes {}",
                       check.pipe,
                       length(check.opening_head_m));
  }

  std::string operator()(const solver::AboveRunningWater& above) const {
    return fmt::format("{} stands {} above {} {}{}",
                       end_word(above.end),
                       length(above.above_m),
                       above.at_tee ? "the running grade line at" : "the water of",
                       above.at,
                       above.springs ? "; " + (*this)(*above.springs) : "");
  }
  std::string operator()(const solver::LargestLoss& loss) const {
    return fmt::format("{} takes {} of the fall ({} of the {} there is)",
                       std::visit(HeadTakerWords(units_), loss.taker),
                       loss.head_m > 0.5 * loss.fall_m ? "most" : "the largest part",
                       length(loss.head_m),
                       length(loss.fall_m));
  }

 private:
  [[nodiscard]] std::string length(double length_m) const {
    return solver::spoken_length(length_m, units_);
  }

  model::UnitSystem units_;
};

std::string supply_text(const solver::SupplyShort& supply, model::UnitSystem units) {
  const std::string who = supply.springs.size() == 1 ? supply.springs.front() + " gives"
                                                     : std::string("the springs give");
  const std::string wanted = solver::spoken_volume(supply.wanted_m3_day, units);
  if (supply.given_m3_day <= 0.0) {
    return fmt::format("{} nothing, {} a day are wanted", who, wanted);
  }
  return fmt::format(
      "{} {} a day, {} are wanted", who, solver::spoken_volume(supply.given_m3_day, units), wanted);
}

}  // namespace

std::string why_short_text(const solver::Reason& reason, model::UnitSystem units) {
  return std::visit(ReasonWords(units), reason);
}

std::string why_short_text(const solver::SeasonReason& reason, model::UnitSystem units) {
  std::string moment = reason.empty_tank ? *reason.empty_tank + " is empty" : std::string();
  if (reason.moment) {
    moment += (moment.empty() ? "" : "; ") + why_short_text(*reason.moment, units);
  }
  if (!reason.supply) {
    return moment.empty() ? "water came to it more slowly than was drunk" : moment;
  }
  const std::string supply = supply_text(*reason.supply, units);
  return moment.empty() ? supply : supply + ", and " + moment;
}

}  // namespace leat::render
