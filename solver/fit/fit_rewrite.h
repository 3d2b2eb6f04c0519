// A copy of the farm file with a cause put in: the text is spliced, so that remarks stay.
#pragma once

#include <string>

#include "model/keys/farm_file.h"
#include "solver/fit/fit.h"

namespace leat::solver {

/// The new text, or why there is none (a sentence and a hint).
struct RewrittenFarm {
  std::string text;
  std::string what;  // the cause that was put in: "blocked screen at main"
  std::string problem;
  std::string hint;
};

/// Puts the first entry's likeliest cause that a farm file can hold into a copy of the text: an
/// extra `k` of a pipe, how far a valve is open, a level, the yield of a spring, the water's
/// temperature. The copy is read again and must give the readings the cause gave, to 0.1 %.
[[nodiscard]] RewrittenFarm farm_with_cause(const model::LoadedFarm& loaded,
                                            const FitAnswer& answer);

}  // namespace leat::solver
