// Reads places and pipes out of a solved network: the figures, before anything is judged.
#pragma once

#include <vector>

#include "solver/answer/steady_answer.h"
#include "solver/flow/flow_state.h"

namespace leat::solver {

/// Figures of every place; states are left at `Ok`.
[[nodiscard]] std::vector<PlaceAnswer> place_answers(const FlowState& state);

/// Figures of one pipe; its state is left at `Ok`.
[[nodiscard]] PipeAnswer pipe_answer(const FlowState& state, std::size_t pipe);

/// Figures of every pipe; states are left at `Ok`.
[[nodiscard]] std::vector<PipeAnswer> pipe_answers(const FlowState& state);

/// Whether what a place needs or wishes changes with the month.
[[nodiscard]] bool need_varies(const model::Farm& farm, const model::Place& place);

/// What a place needs or wishes in the month [m3/s], none where nothing was said.
[[nodiscard]] std::optional<double> need_of(const model::Farm& farm,
                                            const model::Place& place,
                                            std::optional<model::Month> month);

/// The level JSON calls `elevation_m`: overflow, surface, tank floor, float, outlet or tee.
[[nodiscard]] double elevation_of(const model::Place& place, std::optional<model::Month> month);

}  // namespace leat::solver
