#include "solver/nodal/linear_step.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <Eigen/SparseLU>

namespace leat::nodal {

namespace {

using Matrix = Eigen::SparseMatrix<double>;
using Ordering = Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int>;

constexpr std::ptrdiff_t no_slot = -1;

/// Lets the diagonal be looked at without the copy that the library's own accessor makes.
class SymmetricFactor
    : public Eigen::SimplicialLDLT<Matrix, Eigen::Upper, Eigen::NaturalOrdering<int>> {
 public:
  [[nodiscard]] bool is_positive() const { return m_diag.size() > 0 && m_diag.minCoeff() > 0.0; }
};

int to_int(std::size_t value) {
  return static_cast<int>(value);
}

}  // namespace

struct LinearStep::Workspace {
  MatrixShape shape = MatrixShape::Symmetric;
  Matrix matrix;              // permuted; upper triangle only when symmetric
  std::vector<int> position;  // unknown -> row of the permuted matrix
  std::vector<std::ptrdiff_t> diagonal;
  // Where in the value array each edge adds: (up, up), (up, down), (down, up), (down, down).
  std::vector<std::array<std::ptrdiff_t, 4>> slots;
  SymmetricFactor symmetric;
  Eigen::SparseLU<Matrix, Eigen::NaturalOrdering<int>> unsymmetric;
  Eigen::VectorXd permuted;
  Eigen::VectorXd solution;
  bool analysed = false;

  [[nodiscard]] std::ptrdiff_t slot(std::size_t row, std::size_t column) const {
    if (row == no_unknown || column == no_unknown) {
      return no_slot;
    }
    const int i = position[row];
    const int j = position[column];
    if (shape == MatrixShape::Symmetric && i > j) {
      return no_slot;
    }
    const int* begin = matrix.innerIndexPtr() + matrix.outerIndexPtr()[j];
    const int* end = matrix.innerIndexPtr() + matrix.outerIndexPtr()[j + 1];
    return std::lower_bound(begin, end, i) - matrix.innerIndexPtr();
  }
};

LinearStep::LinearStep(std::size_t unknowns,
                       const std::vector<Coupling>& couplings,
                       MatrixShape shape)
    : workspace_(std::make_unique<Workspace>()) {
  Workspace& work = *workspace_;
  work.shape = shape;
  const int n = to_int(unknowns);
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(unknowns + 2 * couplings.size());
  for (int i = 0; i < n; ++i) {
    entries.emplace_back(i, i, 1.0);
  }
  for (const Coupling& coupling : couplings) {
    if (coupling.up != no_unknown && coupling.down != no_unknown) {
      entries.emplace_back(to_int(coupling.up), to_int(coupling.down), 1.0);
      entries.emplace_back(to_int(coupling.down), to_int(coupling.up), 1.0);
    }
  }
  Matrix pattern(n, n);
  pattern.setFromTriplets(entries.begin(), entries.end());
  Ordering inverse;
  Eigen::AMDOrdering<int>()(pattern, inverse);
  // AMDOrdering gives new -> old; each unknown's new place is the inverse of it.
  work.position.assign(unknowns, 0);
  for (int place = 0; place < n; ++place) {
    work.position[static_cast<std::size_t>(inverse.indices()[place])] = place;
  }
  for (Eigen::Triplet<double>& entry : entries) {
    entry = {work.position[static_cast<std::size_t>(entry.row())],
             work.position[static_cast<std::size_t>(entry.col())],
             1.0};
  }
  if (shape == MatrixShape::Symmetric) {
    const auto lower = [](const Eigen::Triplet<double>& entry) {
      return entry.row() > entry.col();
    };
    entries.erase(std::remove_if(entries.begin(), entries.end(), lower), entries.end());
  }
  work.matrix.resize(n, n);
  work.matrix.setFromTriplets(entries.begin(), entries.end());
  work.matrix.makeCompressed();
  work.diagonal.resize(unknowns);
  for (std::size_t i = 0; i < unknowns; ++i) {
    work.diagonal[i] = work.slot(i, i);
  }
  work.slots.reserve(couplings.size());
  for (const Coupling& coupling : couplings) {
    work.slots.push_back({work.slot(coupling.up, coupling.up),
                          work.slot(coupling.up, coupling.down),
                          work.slot(coupling.down, coupling.up),
                          work.slot(coupling.down, coupling.down)});
  }
  work.permuted.resize(n);
  work.solution.resize(n);
}

LinearStep::~LinearStep() = default;
LinearStep::LinearStep(LinearStep&&) noexcept = default;
LinearStep& LinearStep::operator=(LinearStep&&) noexcept = default;

void LinearStep::clear(double diagonal) {
  Workspace& work = *workspace_;
  double* values = work.matrix.valuePtr();
  std::fill(values, values + work.matrix.nonZeros(), 0.0);
  for (const std::ptrdiff_t slot : work.diagonal) {
    values[slot] = diagonal;
  }
}

void LinearStep::add(std::size_t edge, double by_up, double by_down) {
  double* values = workspace_->matrix.valuePtr();
  const std::array<std::ptrdiff_t, 4>& slots = workspace_->slots[edge];
  // The flow leaves the upper node's balance and enters the lower one's; the matrix is that of
  // "outflow less inflow", so that the diagonal is positive.
  if (slots[0] != no_slot) {
    values[slots[0]] += by_up;
  }
  if (slots[1] != no_slot) {
    values[slots[1]] += by_down;
  }
  if (slots[2] != no_slot) {
    values[slots[2]] -= by_up;
  }
  if (slots[3] != no_slot) {
    values[slots[3]] -= by_down;
  }
}

void LinearStep::add_inflow(std::size_t edge, double by_up) {
  const std::ptrdiff_t slot = workspace_->slots[edge][2];
  if (slot != no_slot) {
    workspace_->matrix.valuePtr()[slot] -= by_up;
  }
}

void LinearStep::add_to_diagonal(std::size_t unknown, double value) {
  workspace_->matrix.valuePtr()[workspace_->diagonal[unknown]] += value;
}

bool LinearStep::factorise() {
  Workspace& work = *workspace_;
  if (work.shape == MatrixShape::Symmetric) {
    if (!work.analysed) {
      work.symmetric.analyzePattern(work.matrix);
      work.analysed = true;
    }
    work.symmetric.factorize(work.matrix);
    return work.symmetric.info() == Eigen::Success && work.symmetric.is_positive();
  }
  if (!work.analysed) {
    work.unsymmetric.analyzePattern(work.matrix);
    work.analysed = true;
  }
  work.unsymmetric.factorize(work.matrix);
  return work.unsymmetric.info() == Eigen::Success;
}

void LinearStep::solve(std::span<double> right_side) {
  Workspace& work = *workspace_;
  for (std::size_t i = 0; i < right_side.size(); ++i) {
    work.permuted[work.position[i]] = right_side[i];
  }
  if (work.shape == MatrixShape::Symmetric) {
    work.solution = work.symmetric.solve(work.permuted);
  } else {
    work.solution = work.unsymmetric.solve(work.permuted);
  }
  for (std::size_t i = 0; i < right_side.size(); ++i) {
    right_side[i] = work.solution[work.position[i]];
  }
}

void LinearStep::solve_transposed(std::span<double> right_side) {
  Workspace& work = *workspace_;
  if (work.shape == MatrixShape::Symmetric) {
    solve(right_side);
    return;
  }
  for (std::size_t i = 0; i < right_side.size(); ++i) {
    work.permuted[work.position[i]] = right_side[i];
  }
  work.solution = work.unsymmetric.transpose().solve(work.permuted);
  for (std::size_t i = 0; i < right_side.size(); ++i) {
    right_side[i] = work.solution[work.position[i]];
  }
}

}  // namespace leat::nodal
