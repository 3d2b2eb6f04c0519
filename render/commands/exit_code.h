// What the program's exit status means.
#pragma once

namespace leat::render {

enum class ExitCode {
  NothingAmiss = 0,  // solved, and nothing amiss that leat checks
  Amiss = 1,         // solved, and something starves or is flagged caution or danger
  Failed = 2,        // the file, the usage or the solution failed
  Fault = 70         // a fault of the program itself
};

[[nodiscard]] constexpr int status_of(ExitCode code) {
  return static_cast<int>(code);
}

}  // namespace leat::render
