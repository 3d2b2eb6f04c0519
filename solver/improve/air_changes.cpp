#include <map>
#include <utility>

#include "solver/findings/trapped_air.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

namespace {

/// The highest falling leg of a pipe that the water does not surely sweep.
struct Pocket {
  FallingLeg leg;
  double height_m = 0.0;
};

std::map<std::size_t, Pocket> pockets_of(const ChangeAim& aim) {
  std::map<std::size_t, Pocket> worst;  // by pipe
  for (const FallingLeg& leg : falling_legs(*aim.farm, *aim.answer)) {
    if (leg.verdict == hydraulics::AirVerdict::Swept) {
      continue;
    }
    const double height_m = leg.from_elevation_m - leg.to_elevation_m;
    Pocket& pocket = worst[leg.pipe];
    if (height_m > pocket.height_m) {
      pocket = {leg, height_m};
    }
  }
  return worst;
}

/// Air that fills a falling leg holds back the height of that leg, whatever runs: a check with an
/// opening head of that height, in the direction of flow.
void put_air_in(model::Pipe& pipe, double height_m) {
  model::Fitting air;
  air.name = "k";
  air.one_way = true;
  air.opening_head = metres(height_m);
  air.place = {model::Placement::Where::End, {}};
  pipe.fittings.push_back(std::move(air));
}

}  // namespace

void add_air_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  const model::Farm& farm = *aim.farm;
  for (const auto& [pipe, pocket] : pockets_of(aim)) {
    // The check stands in for air only where the water runs from start to end.
    if (aim.answer->pipes[pipe].flow_m3_s <= 0.0 || pocket.height_m <= 0.0) {
      continue;
    }
    const HighPoint& high = pocket.leg.high;
    Change change;
    change.kind = ChangeKind::Bleeding;
    change.where = high.tee ? farm.places[*high.tee].name : farm.pipes[pipe].name;
    change.pipe = pipe;
    const BleedAir bleed = high.tee ? BleedAir{farm.places[*high.tee].name, std::nullopt}
                                    : BleedAir{farm.pipes[high.pipe].name, high.at_m};
    change.settings.push_back(setting_of(bleed, nothing_bought(farm), {}));
    change.with_air = [pipe = pipe, height_m = pocket.height_m](model::Farm& changed) {
      put_air_in(changed.pipes[pipe], height_m);
    };
    changes.push_back(std::move(change));
  }
}

}  // namespace leat::solver
