// How a pipe resists pressure, suction and a knock: what its wall, stuff and bed make of it.
#pragma once

#include <optional>

#include "model/farm/farm.h"

namespace leat::solver {

struct PipeStrength {
  std::optional<double> wall_m;
  std::optional<double> modulus_Pa;  // of short load
  std::optional<double> rating_Pa;   // at 20 C
  std::optional<double> derating;    // share of the rating left where the pipe lies
  double surge_share = 1.0;          // of the rating, for static and surge together
};
[[nodiscard]] PipeStrength strength_of(const model::Pipe& pipe);

/// Speed of a pressure wave in the pipe [m/s]; empty where wall or modulus is not known.
[[nodiscard]] std::optional<double> wave_speed_in(const model::Pipe& pipe, double density_kg_m3);

/// Suction that flattens the pipe when it lasts a season [Pa], its out-of-roundness and warmth
/// counted, no safety factor. Empty where wall or modulus is not known, and for hose with a spiral.
[[nodiscard]] std::optional<double> collapse_suction_Pa(const model::Pipe& pipe, bool is_still);

}  // namespace leat::solver
