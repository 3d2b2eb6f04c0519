#include "render/io/gnuplot.h"

#include <cerrno>
#include <cstddef>
#include <utility>

#include <fmt/format.h>

#include "render/io/child_process.h"
#include "render/io/system_error.h"

namespace leat::render {

namespace {

/// The last line of what it complained of, where the reason stands.
std::string complaint_in(const std::string& words) {
  const std::size_t last = words.find_last_not_of(" \n");
  if (last == std::string::npos) {
    return "";
  }
  const std::size_t line_end = words.rfind('\n', last);
  const std::size_t start = line_end == std::string::npos ? 0 : line_end + 1;
  return ": " + words.substr(start, last - start + 1);
}

}  // namespace

GnuplotResult run_gnuplot(std::string_view script) {
  ChildCommand gnuplot;
  gnuplot.programs = {"gnuplot"};
  gnuplot.arguments = {"-d"};  // without the user's own settings
  gnuplot.longest_s = 30;
  ChildResult ran = run_child(gnuplot, script);
  if (ran.start_error == ENOENT) {
    return {"",
            "gnuplot, which draws the picture, is not installed",
            "on Debian: apt-get install gnuplot-nox"};
  }
  if (ran.start_error != 0) {
    return {"", fmt::format("cannot start gnuplot: {}", reason_of(ran.start_error)), ""};
  }
  if (ran.is_late) {
    return {"", "gnuplot did not finish in half a minute", ""};
  }
  if (!ran.ended_well || ran.out.empty()) {
    return {"", fmt::format("gnuplot could not draw it{}", complaint_in(ran.err)), ""};
  }
  return {std::move(ran.out), "", ""};
}

}  // namespace leat::render
