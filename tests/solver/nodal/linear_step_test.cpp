// The linear system of a step against plain elimination on the same matrix.
#include "solver/nodal/linear_step.h"

#include <cmath>
#include <random>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::tests {

using nodal::Coupling;
using nodal::LinearStep;
using nodal::MatrixShape;
using nodal::no_unknown;

namespace {

/// A full matrix, solved by elimination with the largest pivot.
class DenseMatrix {
 public:
  explicit DenseMatrix(std::size_t size) : rows_(size, std::vector<double>(size, 0.0)) {}

  void add(std::size_t row, std::size_t column, double value) {
    if (row != no_unknown && column != no_unknown) {
      rows_[row][column] += value;
    }
  }

  [[nodiscard]] std::vector<double> solve(std::vector<double> right_side) const {
    std::vector<std::vector<double>> rows = rows_;
    const std::size_t size = rows.size();
    for (std::size_t i = 0; i < size; ++i) {
      std::size_t pivot = i;
      for (std::size_t k = i + 1; k < size; ++k) {
        pivot = std::abs(rows[k][i]) > std::abs(rows[pivot][i]) ? k : pivot;
      }
      std::swap(rows[i], rows[pivot]);
      std::swap(right_side[i], right_side[pivot]);
      for (std::size_t k = i + 1; k < size; ++k) {
        const double factor = rows[k][i] / rows[i][i];
        for (std::size_t j = i; j < size; ++j) {
          rows[k][j] -= factor * rows[i][j];
        }
        right_side[k] -= factor * right_side[i];
      }
    }
    for (std::size_t i = size; i-- > 0;) {
      for (std::size_t j = i + 1; j < size; ++j) {
        right_side[i] -= rows[i][j] * right_side[j];
      }
      right_side[i] /= rows[i][i];
    }
    return right_side;
  }

 private:
  std::vector<std::vector<double>> rows_;
};

/// A random network of unknowns: a chain to the outside, and chords. `up` or `down` may be fixed.
std::vector<Coupling> random_couplings(std::size_t unknowns, std::mt19937& random) {
  std::vector<Coupling> couplings{{no_unknown, 0}};
  std::uniform_int_distribution<std::size_t> any(0, unknowns - 1);
  for (std::size_t i = 1; i < unknowns; ++i) {
    couplings.push_back({i - 1, i});
  }
  for (std::size_t i = 0; i < unknowns; ++i) {
    const Coupling chord{any(random), any(random)};
    if (chord.up != chord.down) {
      couplings.push_back(chord);
    }
    couplings.push_back({any(random), no_unknown});
  }
  return couplings;
}

void check_against_dense(MatrixShape shape, std::uint32_t seed) {
  std::mt19937 random(seed);
  const std::size_t unknowns = 2 + seed % 23;
  const std::vector<Coupling> couplings = random_couplings(unknowns, random);
  LinearStep step(unknowns, couplings, shape);
  std::uniform_real_distribution<double> exponent(-6.0, 0.0);
  // Twice: the second factorisation uses the analysis of the first.
  for (int round = 0; round < 2; ++round) {
    DenseMatrix dense(unknowns);
    step.clear(1e-12);
    for (std::size_t i = 0; i < unknowns; ++i) {
      dense.add(i, i, 1e-12);
    }
    for (std::size_t edge = 0; edge < couplings.size(); ++edge) {
      const double by_up = std::pow(10.0, exponent(random));
      const double by_down =
          shape == MatrixShape::Symmetric ? -by_up : -std::pow(10.0, exponent(random));
      step.add(edge, by_up, by_down);
      const auto [up, down] = couplings[edge];
      dense.add(up, up, by_up);
      dense.add(up, down, by_down);
      dense.add(down, up, -by_up);
      dense.add(down, down, -by_down);
    }
    std::uniform_real_distribution<double> value(-1.0, 1.0);
    std::vector<double> right_side(unknowns);
    for (double& entry : right_side) {
      entry = value(random);
    }
    const std::vector<double> expected = dense.solve(right_side);
    REQUIRE(step.factorise());
    step.solve(right_side);
    double largest = 0.0;
    double error = 0.0;
    for (std::size_t i = 0; i < unknowns; ++i) {
      largest = std::max(largest, std::abs(expected[i]));
      error = std::max(error, std::abs(expected[i] - right_side[i]));
    }
    CAPTURE(seed, unknowns, round);
    REQUIRE(error <= 1e-8 * largest);
  }
}

}  // namespace

TEST_CASE("a symmetric step is that of plain elimination") {
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    check_against_dense(MatrixShape::Symmetric, seed);
  }
}

TEST_CASE("an unsymmetric step is that of plain elimination") {
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    check_against_dense(MatrixShape::Unsymmetric, seed);
  }
}

TEST_CASE("a matrix that nothing ties down is told as singular") {
  // Two unknowns that depend only on each other, and no diagonal besides.
  LinearStep step(2, {{0, 1}}, MatrixShape::Symmetric);
  step.clear(0.0);
  step.add(0, 1.0, -1.0);
  CHECK_FALSE(step.factorise());
}

}  // namespace leat::tests
