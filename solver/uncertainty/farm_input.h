// Room: how wrong the figures of a farm may be, and what that does to an answer.
// The numbers of a farm file that were measured, guessed or looked up: each can be changed on a
// copy of the farm, so that a study may ask what it is worth or how much its error matters.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

enum class InputKind {
  PlaceLevel,    // overflow, surface, floor, float, outlet, tee, with every pipe end that stands
                 // there
  EndLevel,      // a free pipe end above the water of a pond or creek (`ends`)
  PathLevel,     // one inner point of a path
  Length,        // of a pipe
  Bore,          // of a pipe
  Roughness,     // of a pipe; its C or friction factor where it has one instead
  Fittings,      // K of all fittings and of the valve of a pipe together
  ValveOpening,  // share of a valve's travel
  Seat,          // what a float valve's seat costs, as a K
  Yield,         // of a spring
  Need,          // of a trough; of the stock at a pond, which only a season asks for
  AirPressure    // of the site
};

/// One such number. `index` is the place's for PlaceLevel, Seat, Yield and Need, else the pipe's.
struct FarmInput {
  InputKind kind = InputKind::PlaceLevel;
  std::size_t index = 0;
  std::size_t point = 0;            // of a path, for PathLevel
  std::vector<std::size_t> starts;  // pipes whose path's first point moves with the place
  std::vector<std::size_t> ends;    // pipes whose path's last point, and `ends`, move with it
};

/// Whether the input is a level [m]; all others are positive and change by a factor.
[[nodiscard]] bool is_level(InputKind kind);

/// Every such number of the farm, in the order of the file. Bores and valve openings are among
/// them.
[[nodiscard]] std::vector<FarmInput> inputs_of(const model::Farm& farm,
                                               std::optional<model::Month> month);

/// Its name for people: "level of north", "levels along main" (all inner points of a path share
/// it), "length of main", "bore of main", "roughness of main", "fittings of main", "valve of main",
/// "seat of north", "yield of upper", "need of north", "end of to pond", "air pressure".
[[nodiscard]] std::string name_of(const model::Farm& farm, const FarmInput& input);

/// Its value in the month: m for levels, lengths, bores and roughness, m3/s, Pa; C or the friction
/// factor; the summed K of fittings and valve; the share a valve is open; 1 for a seat.
[[nodiscard]] double value_of(const model::Farm& farm,
                              const FarmInput& input,
                              std::optional<model::Month> month);

/// Sets the input on `farm`, a copy of `base`: a level to that of `base` plus `amount` metres, any
/// other to that of `base` times exp(`amount`) (held within what the laws admit: roughness to a
/// twentieth of the bore, an opening to 1). All months of a series change alike. Inputs are set
/// independently of one another, in any order and any number of times.
void set_input(model::Farm& farm, const model::Farm& base, const FarmInput& input, double amount);

}  // namespace leat::solver
