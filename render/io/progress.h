// How far a long run is: one plain line, rewritten in place, taken away when the run is over.
#pragma once

#include <functional>
#include <iosfwd>
#include <string>

namespace leat::render {

/// Seconds since any fixed moment; never falls.
using SecondsClock = std::function<double()>;

/// The process's own steady clock.
[[nodiscard]] SecondsClock steady_clock_seconds();

/// Tells the share done on a stream that is a terminal. Without a stream it stays quiet, and so it
/// does while the run is younger than a second. The line goes when the object does.
class ProgressLine {
 public:
  /// `what` stands before the figure: "season". Null `stream`: quiet. Borrows the stream.
  ProgressLine(std::ostream* stream, std::string what, SecondsClock clock = steady_clock_seconds());
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  /// `share` is 0 to 1; what lies outside is taken for the nearer end.
  void tell(double share);

 private:
  std::ostream* stream_;
  std::string what_;
  SecondsClock clock_;
  double began_s_;
  int shown_percent_ = -1;  // -1: nothing stands on the line
};

}  // namespace leat::render
