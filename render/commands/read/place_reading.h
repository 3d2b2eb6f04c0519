// What the file's words about one place come to, as `leat read` shows it.
#pragma once

#include <array>
#include <optional>

#include "model/farm/farm.h"

namespace leat::render {

/// A flow of a place that may change with the month, and its word.
struct PlaceFlow {
  const char* word = "";  // "needs", "yields", "may give", "wished"
  bool varies = false;
  bool is_given = false;
  std::array<std::optional<Flow>, 12> by_month;
};

/// A trough's need, a spring's yield, what may be taken from a creek, an outlet's wish.
[[nodiscard]] PlaceFlow flow_of(const model::Farm& farm, const model::Place& place);

/// The flow for a month, or for any month where it does not vary; none where months are many.
[[nodiscard]] std::optional<Flow> single_flow(const PlaceFlow& flow,
                                              std::optional<model::Month> month);

/// What a day's drinking comes to: the need over the trough's hours. None for what is no trough and
/// for a need given as a rate.
[[nodiscard]] std::optional<Volume> daily_volume(const model::Place& place,
                                                 std::optional<Flow> rate);

/// Absolute air pressure: the one given, else the standard atmosphere's at the altitude.
[[nodiscard]] Pressure air_pressure_of(const model::Site& site);

}  // namespace leat::render
