// What the JSON of every answer about a solved farm has in common.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "render/document/json_text.h"
#include "solver/answer/steady_answer.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

/// The keys every answer about a solved farm begins with: format to converged.
[[nodiscard]] Json head_of_answer(const char* command,
                                  const model::Farm& farm,
                                  const solver::SteadyAnswer& answer);

/// What `solve` says of one place and of one pipe: the objects of its `places` and `pipes`.
[[nodiscard]] Json place_json(const model::Place& place, const solver::PlaceAnswer& answer);
[[nodiscard]] Json pipe_json(const model::Farm& farm,
                             const model::Pipe& pipe,
                             const solver::PipeAnswer& answer);

/// One finding as it stands in every command's object.
[[nodiscard]] Json flag_json(const solver::Finding& finding, model::UnitSystem units);

/// Findings as they stand in every command's object.
[[nodiscard]] Json flag_list(const std::vector<solver::Finding>& findings, model::UnitSystem units);

/// Problems as they stand in every command's object.
[[nodiscard]] Json problem_list(const std::vector<model::Diagnostic>& problems);

/// Of a spread: how often the water parts at each summit, and what makes most of it.
[[nodiscard]] Json summits_json(const model::Farm& farm,
                                const std::vector<solver::SummitSpread>& summits);
[[nodiscard]] Json causes_json(const std::vector<solver::Cause>& causes);

}  // namespace leat::render
