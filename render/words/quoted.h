// A name as it stands in a sentence.
#pragma once

#include <string>

namespace leat::render {

/// "'to top'": names may be words like any other.
[[nodiscard]] inline std::string quoted(const std::string& name) {
  return '\'' + name + '\'';
}

}  // namespace leat::render
