// What a season's weather and ground leave open, in sentences.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/season_note.h"

namespace leat::render {

/// How evaporation was reckoned.
[[nodiscard]] std::string note_text(const solver::EvaporationLeftOut& note,
                                    model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::EvaporationReckoned& note,
                                    model::UnitSystem units);
/// On which days nothing tells of the sky, and what is taken then.
[[nodiscard]] std::string note_text(const solver::RainUntold& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::WeatherBridged& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::StormsByMonth& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::RunoffUncounted& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::WarmthUntold& note, model::UnitSystem units);
/// What a pond loses through its bed.
[[nodiscard]] std::string note_text(const solver::PondWithoutShape& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::SeepageLeftOut& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::SeepageOfSoil& note, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::BedLoses& note, model::UnitSystem units);

}  // namespace leat::render
