#include "render/commands/solve/pump_ram_columns.h"

#include "model/quantity/conversion.h"

namespace leat::render {

namespace {

using solver::LifterAnswer;

constexpr double joules_per_kWh = 3.6e6;

std::vector<LifterAnswer> lifters_of(const solver::SteadyAnswer& answer, bool rams) {
  std::vector<LifterAnswer> found;
  if (answer.load_case == solver::LoadCase::Static) {
    return found;
  }
  for (const LifterAnswer& lifter : answer.lifters) {
    if (lifter.is_ram == rams) {
      found.push_back(lifter);
    }
  }
  return found;
}

const char* state_word(const LifterAnswer& pump) {
  if (pump.flow_m3_s == 0.0) {
    return pump.shut_off_short ? "too high" : "no water";
  }
  if (pump.beyond_curve) {
    return "beyond its curve";
  }
  return pump.before_curve ? "below its curve" : "ok";
}

Columns<LifterAnswer> made_pump_columns() {
  using Pump = Column<LifterAnswer>;
  return {
      Pump::value("name", &LifterAnswer::name, "as in the file"),
      Pump::number(
          "delivered_L_s", scale::flow, &LifterAnswer::flow_m3_s, "what it lifts while it runs"),
      Pump::number("head_m",
                   scale::level,
                   &LifterAnswer::head_m,
                   "the head it gives, null where it lifts nothing"),
      Pump::number("power_W",
                   scale::ratio,
                   &LifterAnswer::power_W,
                   "what it draws, null where its efficiency is not given or it lifts nothing"),
      Pump::number("running_h", scale::seconds_as_hours, &LifterAnswer::running_s, "a day"),
      Pump::number("per_day_L",
                   scale::litres,
                   [](const LifterAnswer& pump) { return pump.flow_m3_s * pump.running_s; }),
      Pump::number(
          "per_day_kWh",
          scale::ratio,
          [](const LifterAnswer& pump) {
            return pump.power_W ? std::optional(*pump.power_W * pump.running_s / joules_per_kWh)
                                : std::nullopt;
          },
          "in those hours"),
      Pump::value(
          "state",
          [](const LifterAnswer& pump) { return state_word(pump); },
          "ok, no water (none reaches it), too high (its head does not reach), beyond its "
          "curve or below its curve"),
  };
}

Columns<LifterAnswer> made_ram_columns() {
  using Ram = Column<LifterAnswer>;
  return {
      Ram::value("name", &LifterAnswer::name, "as in the file"),
      Ram::number(
          "taken_L_s",
          scale::flow,
          [](const LifterAnswer& ram) { return ram.flow_m3_s + ram.wasted_m3_s; },
          "by its drive pipe"),
      Ram::number(
          "fall_m", scale::length, &LifterAnswer::fall_m, "from its source's level down to it"),
      Ram::number("delivered_L_s", scale::flow, &LifterAnswer::flow_m3_s, "what it lifts"),
      Ram::number("lift_m",
                  scale::length,
                  &LifterAnswer::head_m,
                  "the head above itself, null where it stands still"),
      Ram::number("wasted_L_s", scale::flow, &LifterAnswer::wasted_m3_s),
      Ram::number(
          "wasted_per_day_L",
          scale::litres,
          [](const LifterAnswer& ram) { return ram.wasted_m3_s * seconds_per_day; },
          "what runs off below it"),
      Ram::value("set_by_hand",
                 &LifterAnswer::set_by_hand,
                 "whether it takes what its valve is set to, not what the pipe brings"),
  };
}

}  // namespace

std::vector<LifterAnswer> pumps_of(const solver::SteadyAnswer& answer) {
  return lifters_of(answer, false);
}

std::vector<LifterAnswer> rams_of(const solver::SteadyAnswer& answer) {
  return lifters_of(answer, true);
}

const Columns<LifterAnswer>& pump_columns() {
  static const Columns<LifterAnswer> columns = made_pump_columns();
  return columns;
}

const Columns<LifterAnswer>& ram_columns() {
  static const Columns<LifterAnswer> columns = made_ram_columns();
  return columns;
}

}  // namespace leat::render
