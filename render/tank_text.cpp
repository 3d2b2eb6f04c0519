#include "render/tank_text.h"

#include <optional>

#include <fmt/format.h>

#include "render/text_table.h"
#include "solver/spoken_amount.h"

namespace leat::render {
namespace {

/// A tank that gives less more than this than it is fed stands where it is [m3/s]: 0.06 L/min.
constexpr double worth_a_word_m3_s = 1e-6;

/// What stands above the tank's intake, or its floor [m3]; none where its plan area is not known.
std::optional<double> stands_m3(const model::Tank& tank) {
  if (!tank.area) {
    return std::nullopt;
  }
  const Elevation lowest = tank.intake.value_or(tank.floor);
  const double depth_m = in_metres(tank.floor + tank.depth - lowest);
  return depth_m > 0.0 ? std::optional(in_square_metres(*tank.area) * depth_m) : std::nullopt;
}

std::string time_text(double time_s) {
  constexpr double seconds_a_day = 86400.0;
  return time_s < 2.0 * seconds_a_day ? solver::spoken_time(time_s)
                                      : fmt::format("{:.1f} days", time_s / seconds_a_day);
}

}  // namespace

std::string falling_tanks_text(const model::Farm& farm,
                               const solver::SteadyAnswer& answer,
                               model::UnitSystem units,
                               int width) {
  if (answer.load_case == solver::LoadCase::Static) {
    return "";
  }
  std::string text;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const auto* const tank = std::get_if<model::Tank>(&farm.places[i].data);
    const double falls_m3_s = -answer.places.at(i).delivered_m3_s;
    if (tank == nullptr || tank->settles || falls_m3_s < worth_a_word_m3_s) {
      continue;
    }
    std::string sentence = fmt::format("{} gives {} more than comes in",
                                       farm.places[i].name,
                                       solver::spoken_flow(falls_m3_s, units));
    const std::optional<double> stands = stands_m3(*tank);
    sentence += stands ? fmt::format(": what stands in it, {}, lasts {}.",
                                     solver::spoken_volume(*stands, units),
                                     time_text(*stands / falls_m3_s))
                       : ": it cannot last.";
    text += wrapped(sentence + " leat season tells from which day on who goes short.", width, 0);
  }
  return text.empty() ? text : '\n' + text;
}

}  // namespace leat::render
