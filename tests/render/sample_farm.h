// A small farm and an answer to it, set by hand: reports are tested on values, not on the solver.
#pragma once

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Two springs' worth of nothing special: spring -> tee -> trough and pond.
inline model::Farm sample_farm() {
  model::Farm farm;
  farm.file = "sample.yaml";
  farm.name = "Alder Hollow";
  farm.show = model::UnitSystem::Us;
  farm.datum = "barn slab corner = 100 ft";
  model::Spring spring;
  spring.overflow = elevation_metres(40.0);
  spring.intake = elevation_metres(39.5);
  spring.yield = model::MonthSeries<Flow>::constant(litres_per_second(0.5));
  spring.yield.varies = true;
  farm.places.push_back({"upper", spring, {3, 3}});
  farm.places.push_back({"gate tee", model::Tee{elevation_metres(34.0), false}, {5, 3}});
  model::Trough trough;
  trough.float_level = elevation_metres(32.9);
  trough.need = model::RateNeed{model::MonthSeries<Flow>::constant(litres_per_second(0.15))};
  farm.places.push_back({"north", trough, {7, 3}});
  model::Pond pond;
  pond.surface = model::MonthSeries<Elevation>::constant(elevation_metres(30.0));
  farm.places.push_back({"house pond", pond, {9, 3}});
  model::Pipe main;
  main.name = "main";
  main.from = 0;
  main.to = 1;
  main.size.text = "1 in SIDR 15";
  main.size.bore = millimetres(26.6);
  main.size.rating = kilopascals(689.0);
  main.length = metres(100.0);
  main.path = {{metres(0.0), elevation_metres(39.5)},
               {metres(36.6), elevation_metres(40.8)},
               {metres(99.0), elevation_metres(34.0)}};
  farm.pipes.push_back(main);
  model::Pipe branch;
  branch.name = "to north";
  branch.from = 1;
  branch.to = 2;
  branch.size.bore = millimetres(20.9);
  branch.length = metres(60.0);
  farm.pipes.push_back(branch);
  model::Pipe line = branch;
  line.name = "to pond";
  line.to = 3;
  farm.pipes.push_back(line);
  return farm;
}

/// An answer as the solver would give it; the figures are chosen to be easy to read back.
inline solver::SteadyAnswer sample_answer() {
  solver::SteadyAnswer answer;
  answer.month = model::Month::Aug;
  answer.month_chosen = true;
  answer.converged = true;
  answer.iterations = 8;
  answer.air_pressure_Pa = 96400.0;
  answer.vapour_pressure_Pa = 1500.0;
  answer.density_kg_m3 = 999.0;
  solver::PlaceAnswer spring;
  spring.elevation_m = 40.0;
  spring.head_m = 40.0;
  spring.level_m = 40.0;
  spring.delivered_m3_s = -0.00021;
  spring.spill_m3_s = 0.00029;
  spring.has_to_give_m3_s = 0.0005;
  solver::PlaceAnswer tee;
  tee.elevation_m = 34.0;
  tee.head_m = 33.5;
  tee.pressure_Pa = -4900.0;
  tee.state = solver::PlaceState::Suction;
  solver::PlaceAnswer trough;
  trough.elevation_m = 32.9;
  trough.head_m = 33.4;
  trough.pressure_Pa = 4900.0;
  trough.delivered_m3_s = 5e-5;
  trough.need_m3_s = 0.00015;
  trough.met = 0.33;
  trough.state = solver::PlaceState::Starved;
  solver::PlaceAnswer pond;
  pond.elevation_m = 30.0;
  pond.head_m = 30.0;
  pond.level_m = 30.0;
  pond.delivered_m3_s = 0.00016;
  answer.places = {spring, tee, trough, pond};
  solver::PipeAnswer main;
  main.flow_m3_s = 0.00021;
  main.velocity_m_s = 0.38;
  main.reynolds = 8900.0;
  main.head_loss_m = 6.5;
  main.lowest_pressure_Pa = -12100.0;
  main.lowest_at_m = 36.6;
  main.highest_pressure_Pa = 4900.0;
  main.summit = solver::SummitAnswer{36.6, 40.8, 8.6, 8.4, false};
  main.summits = {*main.summit};
  main.state = solver::PipeState::Suction;
  solver::PipeAnswer still;
  still.head_loss_m = -0.0;
  still.state = solver::PipeState::Still;
  answer.pipes = {main, still, still};
  solver::Finding flag;
  flag.code = solver::Code::Starved;
  flag.severity = solver::Severity::Caution;
  flag.where = "north";
  flag.detail = solver::GoesShort{
      true,
      0.8 * cubic_metres_per_us_gallon / 60.0,
      2.4 * cubic_metres_per_us_gallon / 60.0,
      solver::AboveRunningWater{
          solver::WaterEnd::Float, 6.0 * metres_per_foot, "gate tee", true, std::nullopt}};
  flag.value = 0.33;
  flag.limit = 1.0;
  answer.flags = {flag};
  return answer;
}

}  // namespace leat::render
