// Least cost under straight-line limits: a plain table, solved by GLPK where leat is built with it.
// Numbers only; knows no farm word. One thread at a time.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace leat::solver {

/// minimise sum cost x, with every x >= 0, each row's sum of terms at most its limit (or equal to
/// it), and the columns marked so either 0 or 1.
struct LinearProgram {
  struct Column {
    double cost = 0.0;
    bool is_choice = false;  // 0 or 1
  };
  struct Term {
    std::size_t column = 0;
    double factor = 0.0;
  };
  struct Row {
    std::vector<Term> terms;
    double limit = 0.0;
    bool is_equal = false;
  };
  std::vector<Column> columns;
  std::vector<Row> rows;
};

enum class ProgramEnding { Solved, Infeasible, NotBuiltIn, Failed };

struct ProgramAnswer {
  ProgramEnding ending = ProgramEnding::Failed;
  double cost = 0.0;
  std::vector<double> values;  // by column; empty unless solved
};

/// Whether leat was built with GLPK.
[[nodiscard]] bool has_linear_programming();

/// The least cost: by the simplex method, and where columns are choices by branch and bound to a
/// gap of nothing. Every factor and limit must be finite.
[[nodiscard]] ProgramAnswer solve_program(const LinearProgram& program);

}  // namespace leat::solver
