// Pipes whose size is left to choose: what keeps a farm from being solved, and who chooses it.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"

namespace leat::model {

/// "size: choose on pipe 'north run'", for each pipe whose size is left to choose.
[[nodiscard]] std::vector<std::string> sizes_to_choose(const Farm& farm);

/// The error (code not-solved-yet) of one of them, where the file says so; its file is left empty.
[[nodiscard]] Diagnostic problem_of_size_to_choose(const std::string& pipe,
                                                   SourcePosition position);
/// The errors of all of them; none for a farm that can be solved.
[[nodiscard]] std::vector<Diagnostic> problems_of_sizes_to_choose(const Farm& farm);

}  // namespace leat::model
