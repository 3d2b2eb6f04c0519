// The pipes of a farm gathered into lines that no other pipe joins or leaves on the way.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// Pipes one behind the other, joined by tees where nothing else meets. A ring that hangs on one
/// place begins and ends there.
struct UnbranchedLine {
  std::vector<std::size_t> pipes;  // in the order they are walked
  std::size_t from = 0;            // places at its two ends; the first pipe in the file is walked
  std::size_t to = 0;              // the way the file writes it
};

/// Every pipe of a farm is in one line. A place is on each line that it ends, or on the one that
/// runs through it.
class UnbranchedLines {
 public:
  explicit UnbranchedLines(const model::Farm& farm);

  [[nodiscard]] const UnbranchedLine& operator[](std::size_t line) const { return lines_[line]; }
  [[nodiscard]] std::size_t line_of_pipe(std::size_t pipe) const { return line_of_pipe_[pipe]; }
  /// Lines that a place is on, each once.
  [[nodiscard]] std::span<const std::size_t> lines_at(std::size_t place) const {
    return lines_at_[place];
  }

 private:
  std::vector<UnbranchedLine> lines_;
  std::vector<std::size_t> line_of_pipe_;
  std::vector<std::vector<std::size_t>> lines_at_;
};

}  // namespace leat::solver
