// The sentences of findings by theme, a file a theme (findings_*.cpp): one for each kind of detail.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/finding.h"

namespace leat::render {

/// A finding in the units it is told in.
class FindingTold {
 public:
  FindingTold(const solver::Finding& finding, model::UnitSystem units)
      : finding_(finding), units_(units) {}

  [[nodiscard]] const solver::Finding& finding() const { return finding_; }
  [[nodiscard]] const std::string& where() const { return finding_.where; }
  /// The figure and its limit in SI. They must be there.
  [[nodiscard]] double value() const { return *finding_.value; }
  [[nodiscard]] double limit() const { return *finding_.limit; }
  [[nodiscard]] bool is_static() const { return finding_.load_case == solver::LoadCase::Static; }
  [[nodiscard]] model::UnitSystem units() const { return units_; }
  [[nodiscard]] std::string length(double value_m) const;
  [[nodiscard]] std::string level(double value_m) const;
  [[nodiscard]] std::string flow(double value_m3_s) const;
  [[nodiscard]] std::string pressure(double value_Pa) const;
  [[nodiscard]] std::string velocity(double value_m_s) const;

 private:
  const solver::Finding& finding_;
  model::UnitSystem units_;
};

// findings_status.cpp: siphons that break, tees that draw air
std::string sentence(const FindingTold& told, const solver::SiphonBreaks& detail);
std::string sentence(const FindingTold& told, const solver::TeeDrawsAir& detail);
// findings_summits.cpp
std::string sentence(const FindingTold& told, const solver::SummitParts& detail);
std::string sentence(const FindingTold& told, const solver::SummitNearVapour& detail);
std::string sentence(const FindingTold& told, const solver::SummitLowPressure& detail);
// findings_suction.cpp
std::string sentence(const FindingTold& told, const solver::PlaceNearVapour& detail);
std::string sentence(const FindingTold& told, const solver::TeeInSuction& detail);
std::string sentence(const FindingTold& told, const solver::JointInSuction& detail);
std::string sentence(const FindingTold& told, const solver::JointsUnplaced& detail);
// findings_strength.cpp: pressure, knock and suction against the pipe
std::string sentence(const FindingTold& told, const solver::OverRating& detail);
std::string sentence(const FindingTold& told, const solver::Surge& detail);
std::string sentence(const FindingTold& told, const solver::RatingAssumed& detail);
std::string sentence(const FindingTold& told, const solver::FastWater& detail);
std::string sentence(const FindingTold& told, const solver::StrengthUnknown& detail);
std::string sentence(const FindingTold& told, const solver::SuckedFlat& detail);
std::string sentence(const FindingTold& told, const solver::FilledOverRating& detail);
std::string sentence(const FindingTold& told, const solver::PumpTooStrong& detail);
// findings_intakes.cpp
std::string sentence(const FindingTold& told, const solver::ShallowMouth& detail);
std::string sentence(const FindingTold& told, const solver::SiltInDip& detail);
// findings_back_flow.cpp: water that runs backwards, and foul water drawn in
std::string sentence(const FindingTold& told, const solver::RunsBackwards& detail);
std::string sentence(const FindingTold& told, const solver::DrainsBack& detail);
std::string sentence(const FindingTold& told, const solver::FloatUnderWater& detail);
std::string sentence(const FindingTold& told, const solver::PondDrawnBack& detail);
std::string sentence(const FindingTold& told, const solver::HouseholdInSuction& detail);
// findings_shares.cpp: what each place gets and gives, and what was assumed
std::string sentence(const FindingTold& told, const solver::GoesShort& detail);
std::string sentence(const FindingTold& told, const solver::GoesShortOverItsHours& detail);
std::string sentence(const FindingTold& told, const solver::SpringDrawnDown& detail);
std::string sentence(const FindingTold& told, const solver::Spills& detail);
std::string sentence(const FindingTold& told, const solver::TakenFromCreek& detail);
std::string sentence(const FindingTold& told, const solver::RunsPartFull& detail);
std::string sentence(const FindingTold& told, const solver::CutOffFromWater& detail);
std::string sentence(const FindingTold& told, const solver::NoNeedGiven& detail);
std::string sentence(const FindingTold& told, const solver::MonthNotMeasured& detail);
// findings_trapped_air.cpp
std::string sentence(const FindingTold& told, const solver::TrappedAir& detail);
// findings_season.cpp
std::string sentence(const FindingTold& told, const solver::LineParts& detail);
std::string sentence(const FindingTold& told, const solver::LineBreaks& detail);
std::string sentence(const FindingTold& told, const solver::LineDrawsAir& detail);
std::string sentence(const FindingTold& told, const solver::ShortInMonth& detail);
std::string sentence(const FindingTold& told, const solver::TakesMoreThanSpare& detail);
std::string sentence(const FindingTold& told, const solver::RunsOver& detail);
std::string sentence(const FindingTold& told, const solver::RunsEmpty& detail);
std::string sentence(const FindingTold& told, const solver::PipeFreezes& detail);

}  // namespace leat::render
