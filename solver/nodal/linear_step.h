// The linear system of one Newton step: pattern and analysis once, refactor and solve each step.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace leat::nodal {

/// A node that no equation touches (all its edges closed by their limits) keeps its head instead of
/// making the matrix singular.
inline constexpr double idle_diagonal = 1e-12;

/// Which pairs of unknowns an edge couples: rows and columns of the unknowns at its two sides, or
/// `no_unknown` where a side is fixed or outside.
struct Coupling {
  std::size_t up = 0;
  std::size_t down = 0;
};
inline constexpr std::size_t no_unknown = static_cast<std::size_t>(-1);

enum class MatrixShape { Symmetric, Unsymmetric };

/// A sparse M-matrix of fixed pattern. Symmetric matrices are factorised as L D L^T, the others as
/// L U; both in an ordering found once (approximate minimum degree). The columns are diagonally
/// dominant, so the diagonal is always a safe pivot and the same ordering serves both.
class LinearStep {
 public:
  LinearStep(std::size_t unknowns, const std::vector<Coupling>& couplings, MatrixShape shape);
  ~LinearStep();
  LinearStep(LinearStep&&) noexcept;
  LinearStep& operator=(LinearStep&&) noexcept;
  LinearStep(const LinearStep&) = delete;
  LinearStep& operator=(const LinearStep&) = delete;

  /// Sets the matrix to `diagonal` on its diagonal, 0 elsewhere.
  void clear(double diagonal);
  /// Adds edge `edge`'s part: its flow changes by `by_up` dHu + `by_down` dHd (by_up >= 0 >=
  /// by_down), leaves the upper node and enters the lower one.
  void add(std::size_t edge, double by_up, double by_down);
  /// Adds to pair `edge`'s entry in the lower node's row and the upper one's column: water that
  /// enters at `down` changes by `by_up` dHu, but does not come from `up`.
  void add_inflow(std::size_t edge, double by_up);
  /// Adds to the diagonal of one unknown: a store that rises with its head.
  void add_to_diagonal(std::size_t unknown, double value);
  /// Factorises the matrix; false where it is singular to rounding.
  [[nodiscard]] bool factorise();
  /// Solves for `right_side` (one entry an unknown) in place. Call only after a good `factorise`.
  void solve(std::span<double> right_side);
  /// As `solve`, with the transposed matrix: what every unknown is worth to a given sum of them.
  void solve_transposed(std::span<double> right_side);

 private:
  struct Workspace;
  std::unique_ptr<Workspace> workspace_;
};

}  // namespace leat::nodal
