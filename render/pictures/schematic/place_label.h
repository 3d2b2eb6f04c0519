// What is written in a place's box.
#pragma once

#include <cstddef>

#include "model/farm/farm.h"
#include "render/pictures/schematic/box_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Name; kind and level; what it gets against its need, or gives, or lets through; what spills;
/// pressure; what is wrong.
[[nodiscard]] BoxText place_text(const model::Farm& farm,
                                 const solver::SteadyAnswer& answer,
                                 std::size_t place,
                                 model::UnitSystem units);

/// The same in a few words, for a page that says the rest beside it: what runs, and what is amiss.
[[nodiscard]] BoxText short_place_text(const model::Farm& farm,
                                       const solver::SteadyAnswer& answer,
                                       std::size_t place,
                                       model::UnitSystem units);

}  // namespace leat::render
