// Starts gnuplot, hands it a script and takes back the picture. The only file that does.
#pragma once

#include <string>
#include <string_view>

namespace leat::render {

/// The picture's bytes, or why there are none.
struct GnuplotResult {
  std::string bytes;
  std::string problem;  // one sentence without a full stop; empty when all is well
  std::string hint;
};

/// Runs gnuplot on a script, which must let its output go to stdout. The user's own settings of
/// gnuplot are not read. Never raises SIGPIPE, and waits at most half a minute.
[[nodiscard]] GnuplotResult run_gnuplot(std::string_view script);

}  // namespace leat::render
