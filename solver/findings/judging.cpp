#include "solver/findings/judging.h"

#include "solver/findings/states.h"
#include "solver/findings/why_short.h"

namespace leat::solver {

bool PlaceSight::is_near_vapour() const {
  return margin_m >= 0.0 && margin_m < near_vapour_margin_m;
}

bool is_near_vapour(const SummitAnswer& summit) {
  return summit.margin_m && *summit.margin_m < near_vapour_margin_m;
}

bool is_drawn_down(const Judging& on, const SolvedCase& solved, std::size_t place) {
  return !solved.is_static() && std::holds_alternative<model::Spring>(on.farm.places[place].data) &&
         is_exhausted(solved.state, place);
}

PlaceSight sight_of(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = solved.places[index];
  const FlowState& state = solved.state;
  // A tee that the air drawn at a spring reaches is under no suction.
  // So is an outlet or float that stands open above the water.
  const bool open_end =
      state.network->places[index].discharge_edge != no_index && water.delivered_m3_s == 0.0;
  const bool airy = open_end || (!state.air_at.empty() && state.air_at[index]);
  PlaceSight sight;
  if (airy || !water.head_m || model::is_open_water(place)) {
    return sight;
  }
  sight.margin_m = *water.head_m - water.elevation_m + on.air_head_m - on.vapour_head_m;
  sight.is_in_suction = std::holds_alternative<model::Tee>(place.data) && water.pressure_Pa &&
                        *water.pressure_Pa < -suction_limit_Pa;
  return sight;
}

}  // namespace leat::solver
