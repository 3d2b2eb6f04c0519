// What frost does, in sentences.
#pragma once

#include <string>
#include <vector>

#include "solver/season/freezing_season.h"

namespace leat::solver {

/// "-12 C" or "10 F".
[[nodiscard]] std::string spoken_temperature(double temperature_C, model::UnitSystem units);

/// How many nights freeze in which months, and the coldest to reckon with.
[[nodiscard]] std::string frost_nights_text(const FrostAnswer& answer, model::UnitSystem units);

/// What one pipe, and what every trough (at least one) asks for in the coldest night.
[[nodiscard]] std::string frost_pipe_text(const model::Farm& farm,
                                          const FrostPipe& pipe,
                                          const FrostNight& night,
                                          model::UnitSystem units);
[[nodiscard]] std::string frost_troughs_text(const model::Farm& farm,
                                             const std::vector<FrostTrough>& troughs,
                                             const FrostNight& night,
                                             model::UnitSystem units);

/// Which tees hold water when the pipes are opened.
[[nodiscard]] std::string low_tees_text(const model::Farm& farm,
                                        const std::vector<DrainPoint>& tees);

}  // namespace leat::solver
