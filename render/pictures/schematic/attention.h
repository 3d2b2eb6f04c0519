// What at a place or pipe calls for attention: from its state and from the answer's flags.
#pragma once

#include <string>
#include <vector>

#include "solver/answer/steady_answer.h"

namespace leat::render {

/// How strongly the outline speaks. Heavy is always joined by words.
enum class Outline { Plain, Heavy };

/// Words beside the state (empty: nothing) and the outline that both together ask for.
struct Attention {
  std::vector<std::string> words;
  Outline outline = Outline::Plain;
};

/// Looks up the dangers and cautions flagged at `name`. Flags that only repeat the state are left
/// out; one found in another load case than the drawn one says in which.
[[nodiscard]] Attention attention_at(const std::string& name,
                                     solver::PlaceState state,
                                     const solver::SteadyAnswer& answer);
[[nodiscard]] Attention attention_at(const std::string& name,
                                     solver::PipeState state,
                                     const solver::SteadyAnswer& answer);

}  // namespace leat::render
