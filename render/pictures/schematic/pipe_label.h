// What is written on a pipe.
#pragma once

#include <cstddef>

#include "model/farm/farm.h"
#include "render/pictures/schematic/box_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Name; size and length; flow; fittings and valves with their places; the summit that is nearest
/// to parting, where it stands in suction; what is wrong.
[[nodiscard]] BoxText pipe_text(const model::Farm& farm,
                                const solver::SteadyAnswer& answer,
                                std::size_t pipe,
                                model::UnitSystem units);

/// The same in a few words, for a page that says the rest beside it: what runs, and what is amiss.
[[nodiscard]] BoxText short_pipe_text(const model::Farm& farm,
                                      const solver::SteadyAnswer& answer,
                                      std::size_t pipe,
                                      model::UnitSystem units);

/// Whether no water moves in the pipe (below 1e-9 m3/s).
[[nodiscard]] bool is_still(const solver::PipeAnswer& seen);

}  // namespace leat::render
