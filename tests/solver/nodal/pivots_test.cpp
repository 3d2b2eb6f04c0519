// A matrix no network of pipes can have is refused, not solved.
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/linear_step.h"

namespace leat::tests {

using nodal::LinearStep;
using nodal::MatrixShape;
using nodal::no_unknown;

TEST_CASE("a symmetric matrix with a negative pivot is refused") {
  LinearStep step(2, {{0, 1}}, MatrixShape::Symmetric);
  step.clear(-1.0);
  CHECK_FALSE(step.factorise());
}

TEST_CASE("an unsymmetric matrix that nothing ties down is told as singular") {
  // Rows 1 -1 and -1 1.
  LinearStep step(2, {{0, 1}}, MatrixShape::Unsymmetric);
  step.clear(0.0);
  step.add(0, 1.0, -1.0);
  CHECK_FALSE(step.factorise());
}

TEST_CASE("an edge between fixed heads adds nothing to the matrix") {
  for (const MatrixShape shape : {MatrixShape::Symmetric, MatrixShape::Unsymmetric}) {
    LinearStep step(1, {{no_unknown, no_unknown}, {no_unknown, 0}, {0, no_unknown}}, shape);
    step.clear(1.0);
    step.add(0, 7.0, -7.0);
    step.add(1, 5.0, -2.0);  // enters unknown 0: 2 to its diagonal
    step.add(2, 1.0, -9.0);  // leaves it: 1
    REQUIRE(step.factorise());
    std::vector<double> right_side = {8.0};
    step.solve(right_side);
    CHECK(right_side[0] == Approx(2.0).epsilon(1e-15));  // 8 / (1 + 2 + 1)
  }
}

}  // namespace leat::tests
