// A problem of a farm file as people read it: where, what, the line, a caret, and a hint.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/keys/farm_file.h"
#include "model/text/diagnostic.h"

namespace leat::render {

/// "file:line:col: error: sentence", the source line, a caret under the column, and "hint: ...".
/// Each part ends with a newline; the line and caret are left out where the place is unknown, the
/// hint where there is none. Long lines are cut around the caret. `source` is the text of the file
/// the problem is in.
[[nodiscard]] std::string diagnostic_text(const model::Diagnostic& problem,
                                          std::string_view source);

/// Problems one after the other, each with the line of the file it is in (a CSV file's problem
/// shows that file's line); the first hundred of very many. One without a place is a sentence of
/// leat's.
[[nodiscard]] std::string problems_text(const std::vector<model::Diagnostic>& problems,
                                        const model::LoadedFarm& loaded);

/// The problems of a loaded farm, one after the other; the first hundred of very many.
[[nodiscard]] std::string problems_text(const model::LoadedFarm& loaded);

}  // namespace leat::render
