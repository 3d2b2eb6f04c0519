// What warmth takes from a pipe's rating, by where the pipe lies.
#pragma once

#include <optional>

#include "model/farm.h"

namespace leat::solver {

/// Share of its 20 C rating that a pipe keeps where it lies: buried or unsaid 20 C, grass 30 C, sun
/// 50 C while still (design; the shares are ISO 4427-1 Annex A's, pipe_rating.h). 1 for steel.
/// Empty where no rating holds.
[[nodiscard]] std::optional<double> rating_share_of(const model::Pipe& pipe);

}  // namespace leat::solver
