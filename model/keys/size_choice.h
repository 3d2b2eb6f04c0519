// Pipes whose size is left to choose: what keeps a farm from being solved, and who chooses it.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"

namespace leat::model {

/// "size: choose on pipe 'north run'", for each pipe whose size is left to choose.
[[nodiscard]] std::vector<std::string> sizes_to_choose(const Farm& farm);

/// An error (code not-solved-yet) for each of them, where the file says so; none for a farm that
/// can be solved.
[[nodiscard]] std::vector<Diagnostic> problems_of_sizes_to_choose(const Farm& farm);

}  // namespace leat::model
