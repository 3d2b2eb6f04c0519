// What happened during a nodal solve, in numbers and one sentence.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace leat::nodal {

/// Why the iteration stopped.
enum class Termination {
  NotRun,          // the solver was not called; heads and flows mean nothing
  Converged,       // balance and every edge's equation hold within the tolerances
  IterationLimit,  // stopped at the allowed number of iterations
  StepTooSmall,    // no step along the Newton direction made the residual smaller
  Singular,        // the nodal matrix could not be factorised (`index` is a node where known)
  NotFinite        // a law gave a value that is not a number (`index` is the edge)
};

/// One line of the iteration table.
struct IterationRecord {
  int iteration = 0;
  double residual_m = 0.0;      // largest edge residual, as a head
  double imbalance_m3_s = 0.0;  // largest node imbalance
  double smoothing_m = 0.0;
  double step_length = 0.0;  // share of the full Newton step taken
};

struct SolveReport {
  Termination termination = Termination::NotRun;
  std::string sentence = "the solver was not called";
  std::optional<std::size_t> index;
  int iterations = -1;
  int restarts = 0;
  int analyses = 0;  // symbolic analyses of the matrix pattern
  int factorisations = 0;
  bool symmetric = true;  // which factorisation was used
  std::vector<IterationRecord> table;

  [[nodiscard]] bool is_usable() const { return termination == Termination::Converged; }
};

}  // namespace leat::nodal
