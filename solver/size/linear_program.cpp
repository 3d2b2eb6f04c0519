#include "solver/size/linear_program.h"

#ifdef LEAT_HAS_GLPK
#include <algorithm>
#include <memory>

#include <glpk.h>
#endif

namespace leat::solver {

#ifdef LEAT_HAS_GLPK

namespace {

/// Branch and bound stops after so long [ms]: a farm's runs are done in a few.
constexpr int longest_search_ms = 20000;

/// GLPK keeps its memory in an environment of the thread; it goes with the last problem.
struct DeleteProblem {
  void operator()(glp_prob* problem) const {
    glp_delete_prob(problem);
    glp_free_env();
  }
};
using Problem = std::unique_ptr<glp_prob, DeleteProblem>;

/// GLPK counts columns, rows and terms from 1.
int number_of(std::size_t index) {
  return static_cast<int>(index) + 1;
}

void add_columns(glp_prob* problem, const LinearProgram& program) {
  glp_add_cols(problem, static_cast<int>(program.columns.size()));
  for (std::size_t i = 0; i < program.columns.size(); ++i) {
    const int column = number_of(i);
    glp_set_obj_coef(problem, column, program.columns[i].cost);
    if (program.columns[i].is_choice) {
      glp_set_col_kind(problem, column, GLP_BV);
    } else {
      glp_set_col_bnds(problem, column, GLP_LO, 0.0, 0.0);
    }
  }
}

void add_rows(glp_prob* problem, const LinearProgram& program) {
  if (program.rows.empty()) {
    return;
  }
  glp_add_rows(problem, static_cast<int>(program.rows.size()));
  for (std::size_t i = 0; i < program.rows.size(); ++i) {
    const LinearProgram::Row& row = program.rows[i];
    glp_set_row_bnds(problem, number_of(i), row.is_equal ? GLP_FX : GLP_UP, row.limit, row.limit);
    std::vector<int> columns{0};
    std::vector<double> factors{0.0};
    for (const LinearProgram::Term& term : row.terms) {
      columns.push_back(number_of(term.column));
      factors.push_back(term.factor);
    }
    glp_set_mat_row(
        problem, number_of(i), static_cast<int>(row.terms.size()), columns.data(), factors.data());
  }
}

ProgramAnswer continuous(glp_prob* problem, std::size_t columns) {
  glp_smcp settings;
  glp_init_smcp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.presolve = GLP_ON;
  ProgramAnswer answer;
  const int fault = glp_simplex(problem, &settings);
  if (fault == GLP_ENOPFS || (fault == 0 && glp_get_status(problem) == GLP_NOFEAS)) {
    answer.ending = ProgramEnding::Infeasible;
  } else if (fault == 0 && glp_get_status(problem) == GLP_OPT) {
    answer.ending = ProgramEnding::Solved;
    answer.cost = glp_get_obj_val(problem);
    for (std::size_t i = 0; i < columns; ++i) {
      answer.values.push_back(glp_get_col_prim(problem, number_of(i)));
    }
  }
  return answer;
}

ProgramAnswer with_choices(glp_prob* problem, std::size_t columns) {
  glp_iocp settings;
  glp_init_iocp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.presolve = GLP_ON;
  settings.tm_lim = longest_search_ms;
  ProgramAnswer answer;
  const int fault = glp_intopt(problem, &settings);
  if (fault == GLP_ENOPFS || (fault == 0 && glp_mip_status(problem) == GLP_NOFEAS)) {
    answer.ending = ProgramEnding::Infeasible;
  } else if (fault == 0 && glp_mip_status(problem) == GLP_OPT) {
    answer.ending = ProgramEnding::Solved;
    answer.cost = glp_mip_obj_val(problem);
    for (std::size_t i = 0; i < columns; ++i) {
      answer.values.push_back(glp_mip_col_val(problem, number_of(i)));
    }
  }
  return answer;
}

}  // namespace

bool has_linear_programming() {
  return true;
}

ProgramAnswer solve_program(const LinearProgram& program) {
  if (program.columns.empty()) {
    return {ProgramEnding::Solved, 0.0, {}};
  }
  const Problem problem(glp_create_prob());
  glp_term_out(GLP_OFF);
  glp_set_obj_dir(problem.get(), GLP_MIN);
  add_columns(problem.get(), program);
  add_rows(problem.get(), program);
  const bool choices = std::any_of(program.columns.begin(),
                                   program.columns.end(),
                                   [](const auto& column) { return column.is_choice; });
  return choices ? with_choices(problem.get(), program.columns.size())
                 : continuous(problem.get(), program.columns.size());
}

#else

bool has_linear_programming() {
  return false;
}

ProgramAnswer solve_program(const LinearProgram&) {
  return {ProgramEnding::NotBuiltIn, 0.0, {}};
}

#endif

}  // namespace leat::solver
