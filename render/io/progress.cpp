#include "render/io/progress.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ostream>
#include <utility>

#include <fmt/format.h>

namespace leat::render {

namespace {

constexpr double quiet_s = 1.0;
/// Back to the line's start and the rest of it wiped: ECMA-48, erase in line.
constexpr const char* fresh_line = "\r\x1b[K";

}  // namespace

SecondsClock steady_clock_seconds() {
  return [] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
  };
}

ProgressLine::ProgressLine(std::ostream* stream, std::string what, SecondsClock clock)
    : stream_(stream), what_(std::move(what)), clock_(std::move(clock)), began_s_(clock_()) {}

ProgressLine::~ProgressLine() {
  if (stream_ != nullptr && shown_percent_ >= 0) {
    *stream_ << fresh_line << std::flush;
  }
}

void ProgressLine::tell(double share) {
  if (stream_ == nullptr || !(clock_() - began_s_ > quiet_s)) {
    return;
  }
  const double sane = std::isfinite(share) ? std::clamp(share, 0.0, 1.0) : 0.0;
  const int percent = static_cast<int>(std::floor(sane * 100.0));
  if (percent == shown_percent_) {
    return;  // a terminal over a slow line is not written to for nothing
  }
  shown_percent_ = percent;
  *stream_ << fresh_line << fmt::format("leat: {}, {} % done", what_, percent) << std::flush;
}

}  // namespace leat::render
