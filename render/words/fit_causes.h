// The causes a fit lists, in words: their names, where they sit, how likely they are.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "solver/fit/fit.h"

namespace leat::render {

/// "blocked screen", "trapped air" ...: stable words, as JSON gives them.
[[nodiscard]] std::string_view name_of(solver::CauseKind kind);
/// The causes of one entry by name: "blocked screen, kinked pipe or silted pipe".
[[nodiscard]] std::string names_of(const solver::FitEntry& entry);
/// The pipe or place a cause sits at; "water" for colder water.
[[nodiscard]] std::string where_of(const model::Farm& farm, const solver::FitSite& site);
/// Every pipe and place that an entry's causes sit at, each once, that of the likeliest first.
[[nodiscard]] std::vector<std::string> places_of(const model::Farm& farm,
                                                 const solver::FitEntry& entry);

/// "31 %", or "less than 1 %" and "more than 99 %".
[[nodiscard]] std::string spoken_chance(double chance);

/// What one entry says, without a full stop: what may be the cause, each alternative by itself, and
/// how likely they are.
struct EntrySentence {
  std::vector<std::string> alternatives;
  std::string likely;  // ": 31 % likely; this reading does not tell it from number 2"

  /// All of it: alternatives with ", or " between them.
  [[nodiscard]] std::string text() const;
};
[[nodiscard]] EntrySentence sentence_of_entry(const model::Farm& farm,
                                              const solver::FitAnswer& answer,
                                              std::size_t entry,
                                              model::UnitSystem units);

/// What to think of the readings as a whole, in sentences.
[[nodiscard]] std::string fit_verdict(const solver::FitAnswer& answer);

}  // namespace leat::render
