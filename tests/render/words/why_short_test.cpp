// Why a trough goes short, in words.
#include "render/words/why_short.h"

#include <catch2/catch.hpp>

namespace leat::render {

namespace {

constexpr auto metric = model::UnitSystem::Metric;
constexpr double litre_a_minute = 1e-3 / 60.0;

std::string text(const solver::Reason& reason, model::UnitSystem units = metric) {
  return why_short_text(reason, units);
}

}  // namespace

TEST_CASE("springs that give too little are named alone and counted together") {
  CHECK(text(solver::SpringsShort{{"upper"}, 2.0 * litre_a_minute}) ==
        "spring short: upper yields 2 L/min and the line takes all of it");
  CHECK(text(solver::SpringsShort{{"upper"}, 0.9 * 3.785411784e-3 / 60.0}, model::UnitSystem::Us) ==
        "spring short: upper yields 0.9 gal/min and the line takes all of it");
  CHECK(text(solver::SpringsShort{{"one", "two"}, 9.0 * litre_a_minute}) ==
        "springs short: the 2 that feed it yield 9 L/min together and the lines take all of it");
  CHECK(text(solver::SpringsShort{{"upper"}, 0.0}) == "spring short: upper yields nothing");
  CHECK(text(solver::SpringsShort{{"one", "two"}, 0.0}) ==
        "springs short: none that feeds it yields anything");
}

TEST_CASE("what stands too high is told by how much and above what") {
  CHECK(text(solver::TooHigh{solver::WaterEnd::Float, 3.2}) ==
        "too high: its float stands 3.2 m above the highest water that can reach it");
  CHECK(text(solver::DryMouth{"main", "creek", 0.5}) ==
        "the mouth of main stands 0.5 m above the water of creek");
  CHECK(text(solver::AboveRunningWater{.end = solver::WaterEnd::OpenEnd,
                                       .above_m = 1.5,
                                       .at = "gate tee",
                                       .at_tee = true,
                                       .springs = {}}) ==
        "its end stands 1.5 m above the running grade line at gate tee");
  CHECK(text(solver::AboveRunningWater{
            .end = solver::WaterEnd::Float,
            .above_m = 1.5,
            .at = "box",
            .at_tee = false,
            .springs = solver::SpringsShort{{"box"}, 2.0 * litre_a_minute}}) ==
        "its float stands 1.5 m above the water of box; spring short: box yields 2 L/min and the "
        "line takes all of it");
}

TEST_CASE("what bars the way is named with its pipe") {
  CHECK(text(solver::ShutValve{"a"}) == "the valve on a is shut");
  CHECK(text(solver::OneWayAgainst{"a"}) == "the one-way on a lets no water come this way");
  CHECK(text(solver::BrokenSiphon{"a", solver::BrokenSiphon::Cause{"up", "a", 1.3}}) ==
        "the siphon a has broken: up drew down to its intake, 1.3 m below the high point of a");
  CHECK(text(solver::BrokenSiphon{"a", {}}) == "the siphon a has broken");
  CHECK(text(solver::SummitParted{"a"}) ==
        "the water parted at the summit of a, which runs no more");
  CHECK(text(solver::DrySummit{"a", 11.0, false}) ==
        "no water comes over the summit of a: it stands 11 m above the water before it, higher "
        "than the air's pressure can lift");
  CHECK(text(solver::DrySummit{"a", 2.0, true}) ==
        "no water comes over the summit of a: it stands 2 m above the water before it, higher "
        "than a vented line can lift");
  CHECK(text(solver::CheckStaysShut{"a", 0.3}) ==
        "what fall there is does not open the check on a, which takes 0.3 m");
  CHECK(text(solver::NoPipe{}) == "no pipe leads to it");
  CHECK(text(solver::NoOpenWay{}) == "no open way joins it to water");
  CHECK(text(solver::NoHeadLeft{}) == "no head is left for it");
}

TEST_CASE("what takes the fall is told with its share of it") {
  const auto loss = [](solver::HeadTaker taker, double head_m) {
    return text(solver::LargestLoss{std::move(taker), head_m, 10.0});
  };
  CHECK(loss(solver::PipeFriction{"a", 800.0, "3/4 in SIDR 15"}, 6.0) ==
        "too far for its pipe: 800 m of 3/4 in SIDR 15 in a takes most of the fall (6 m of the "
        "10 m there is)");
  CHECK(loss(solver::PartOpenValve{"a", 0.4}, 4.0) ==
        "the valve on a, only 40 % open, takes the largest part of the fall (4 m of the 10 m "
        "there is)");
  CHECK(loss(solver::FittingsAndEnds{"a"}, 6.0) ==
        "what stands in a (fittings and ends) takes most of the fall (6 m of the 10 m there is)");
  CHECK(loss(solver::PressureRegulator{"a"}, 6.0) ==
        "the regulator on a takes most of the fall (6 m of the 10 m there is)");
  CHECK(loss(solver::FloatSeat{0.006}, 6.0) ==
        "the float's seat is too small: at 6.0 mm it takes most of the fall (6 m of the 10 m "
        "there is)");
  CHECK(loss(solver::FloatValve{}, 6.0) ==
        "the float valve takes most of the fall (6 m of the 10 m there is)");
  CHECK(loss(solver::OpenEnd{}, 6.0) ==
        "the opening at its end takes most of the fall (6 m of the 10 m there is)");
}

TEST_CASE("a month tells its springs first, then its driest moment") {
  solver::SeasonReason reason;
  CHECK(why_short_text(reason, metric) == "water came to it more slowly than was drunk");
  reason.supply = solver::SupplyShort{{"box"}, 0.0, 1.44};
  CHECK(why_short_text(reason, metric) == "box gives nothing, 1.44 m3 a day are wanted");
  reason.supply = solver::SupplyShort{{"one", "two"}, 2.88, 9.0};
  CHECK(why_short_text(reason, metric) == "the springs give 2.88 m3 a day, 9 m3 are wanted");
  reason.moment = solver::ShutValve{"a"};
  CHECK(why_short_text(reason, metric) ==
        "the springs give 2.88 m3 a day, 9 m3 are wanted, and the valve on a is shut");
  reason.empty_tank = "ridge tank";
  CHECK(why_short_text(reason, metric) ==
        "the springs give 2.88 m3 a day, 9 m3 are wanted, and ridge tank is empty; the valve on a "
        "is shut");
  reason.supply.reset();
  reason.moment.reset();
  CHECK(why_short_text(reason, metric) == "ridge tank is empty");
}

}  // namespace leat::render
