// What a fit has to say: names of causes, and plain sentences with their doubt.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "solver/fit/fit.h"

namespace leat::solver {

/// "blocked screen", "trapped air" ...: stable words, as JSON gives them.
[[nodiscard]] std::string_view name_of(CauseKind kind);
/// The causes of one entry by name: "blocked screen or foot valve, kinked pipe or silted pipe".
[[nodiscard]] std::string names_of(const FitEntry& entry);
/// The pipe or place a cause sits at; "water" for colder water.
[[nodiscard]] std::string where_of(const model::Farm& farm, const FitSite& site);
/// Every pipe and place that an entry's causes sit at, each once, that of the likeliest first.
[[nodiscard]] std::vector<std::string> places_of(const model::Farm& farm, const FitEntry& entry);
/// Unit of a size in JSON: "m", "C", "L/s"; empty for K and shares. `size_in_json` is in it.
[[nodiscard]] std::string_view unit_of(CauseKind kind);
[[nodiscard]] double size_in_json(const model::Farm& farm,
                                  const FitAnswer& answer,
                                  const FittedCause& cause,
                                  double size);

/// "31 of 100", or "fewer than 1 of 100" and "more than 99 of 100".
[[nodiscard]] std::string spoken_chance(double chance);
/// A flow, pressure or level as it is read.
[[nodiscard]] std::string spoken_reading(model::Measurement::Kind kind,
                                         double value,
                                         model::UnitSystem units);

/// Writes `verdict`, `sentences` and `next` of an answer.
void write_fit_sentences(const model::Farm& farm, model::UnitSystem units, FitAnswer& answer);

}  // namespace leat::solver
