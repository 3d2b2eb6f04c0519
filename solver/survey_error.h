// How wrong the numbers of a farm file may be: one error model a kind of input and instrument, each
// with its source. A "+/-" of a source is read as holding 95 times in 100 (1.96 standard
// deviations), as the one source that says (K3, phones) means it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm.h"
#include "solver/farm_input.h"

namespace leat::solver {

/// How levels come out with an instrument: each sight (or set-up of a hose) has an error of its
/// own, so that the error of a level grows with the square root of the distance from the last one.
struct LevelError {
  double half_width_m = 0.0;  // +/-, 95 in 100, of one sight
  double sight_m = 0.0;       // length of one sight; 0: the distance does not matter
  std::string_view source;
};

/// Of a hand level, a builder's level, a water level or a phone. Anything else (nothing said, or an
/// instrument that reads no levels) is taken as a hand level.
[[nodiscard]] LevelError level_error_of(model::Instrument instrument);

/// Standard deviation [m] of a level taken over a distance [m] from the point before it.
[[nodiscard]] double level_deviation_m(const LevelError& error, double distance_m);

/// How a positive number is off: the factor it may be out by, 95 in 100, either way (1.25 for
/// "+/-25 %"), drawn on a logarithmic scale so that it stays positive.
struct FactorError {
  double factor = 1.0;  // 1: taken as exact
  std::string_view source;
};

/// Of every kind that is no level. `size` is asked for a roughness only (C and friction factors
/// have errors of their own).
[[nodiscard]] FactorError factor_error_of(InputKind kind, const model::PipeSize* size = nullptr);

/// An input with its error: the standard deviation of `amount` in set_input, m for a level, else of
/// the logarithm.
struct UncertainInput {
  FarmInput input;
  std::string name;
  double deviation = 0.0;
};

/// Every input of the farm that is drawn, in the order of the file. The levels of one survey are
/// taken as independent of one another.
[[nodiscard]] std::vector<UncertainInput> uncertain_inputs(const model::Farm& farm,
                                                           std::optional<model::Month> month);

}  // namespace leat::solver
