// Names of catalogue rows compared as people type them.
#pragma once

#include <string>
#include <string_view>

namespace leat::model {

/// The name in lower case with single blanks and none at its ends: two names that give the same
/// text are the same row.
[[nodiscard]] std::string plain_name(std::string_view name);

}  // namespace leat::model
