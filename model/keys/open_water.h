// What creeks and ponds have in common: a surface, and a mouth of pipes below it.
#pragma once

#include <algorithm>

#include <fmt/format.h>

#include "model/keys/kinds.h"

namespace leat::model {

/// The level of the water; a month takes the lowest measured in it.
template <class Water>
[[nodiscard]] Key<Water> surface_key(KeyWords words) {
  words.sentence = "Level of the water: one value, by month, or a CSV file of dates.";
  words.required = "104 ft";
  return key<Water>("surface",
                    by_month_or_record(&Water::surface,
                                       &Water::surface_record,
                                       level_record,
                                       MonthTakes::Lowest,
                                       GapRule::Lower),
                    std::move(words));
}

template <class Water>
[[nodiscard]] Key<Water> intake_key(KeyWords words) {
  words.sentence = "Level of the mouth of pipes that start here; at the surface unless given.";
  return key<Water>("intake", level(&Water::intake), std::move(words));
}

/// A mouth stands under its water's highest surface (code intake-above-water).
template <class Water>
void check_intake(const MapReader& map,
                  const Water& water,
                  const SoundKeys& sound,
                  ProblemList& problems) {
  if (!sound.has("surface") || !sound.has("intake")) {
    return;
  }
  const auto& surface = water.surface.by_month;
  if (*std::max_element(surface.begin(), surface.end()) < *water.intake) {
    problems.add("intake-above-water",
                 map.find("intake")->position,
                 fmt::format("{} stands above its surface", map.part("intake")),
                 "the pipe's mouth is under water");
  }
}

}  // namespace leat::model
