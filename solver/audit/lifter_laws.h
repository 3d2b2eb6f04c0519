// What pumps and rams must obey in a printed answer: a pump its maker's curve, a ram its
// efficiency.
#pragma once

#include "solver/audit/checker.h"

namespace leat::solver::audit {

/// Water [m3/s] that pumps and rams bring to a place beyond what its pipes do, negative where they
/// take it. Needs an answer with the farm's pumps and rams.
[[nodiscard]] double lifted_to(const model::Farm& farm,
                               const SteadyAnswer& answer,
                               std::size_t place);

/// The ram a pipe drives, as an index into the farm's rams, none where it drives none.
[[nodiscard]] std::optional<std::size_t> ram_behind(const model::Farm& farm,
                                                    const model::Pipe& pipe);

/// Checks every pump and ram whose heads are printed.
void check_lifters(Case& audited);

}  // namespace leat::solver::audit
