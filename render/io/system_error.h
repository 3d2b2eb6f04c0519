// What the system says of a call that failed.
#pragma once

#include <string>
#include <system_error>

namespace leat::render {

/// The system's words for `error`, a value of errno.
[[nodiscard]] inline std::string reason_of(int error) {
  return std::generic_category().message(error);
}

}  // namespace leat::render
