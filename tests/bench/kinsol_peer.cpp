#include "tests/bench/kinsol_peer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include "solver/nodal/residual.h"
#include "tests/support/nodal_pattern.h"

namespace leat::bench {

using nodal::EdgeResidual;
using nodal::no_unknown;
using nodal::Problem;

namespace {

void require(bool holds, const char* what) {
  if (!holds) {
    throw std::runtime_error(what);
  }
}

template <class T>
T* made(T* pointer, const char* what) {
  require(pointer != nullptr, what);
  return pointer;
}

}  // namespace

/// Unknown i is a head for i < heads, else the flow of active edge i - heads; equation i is that
/// node's balance or that edge's residual.
struct KinsolPeer::Workspace {
  const Problem& problem;
  tests::NodalPattern pattern;
  std::size_t size;
  PeerOptions options;

  SUNContext context = nullptr;
  void* kinsol = nullptr;
  N_Vector unknowns = nullptr;
  N_Vector unknown_scale = nullptr;
  N_Vector equation_scale = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;

  nodal::State state;                   // the unknowns, spread over nodes and edges
  std::vector<EdgeResidual> residuals;  // one an active edge, at `residuals_at`
  std::vector<double> residuals_at;
  // Where in the matrix's values an edge's derivatives lie: by flow, by head up, by head down.
  std::vector<std::array<std::size_t, 3>> slots;
  // The matrix's columns, rows and the balances' values, which never change.
  std::vector<sunindextype> starts;
  std::vector<sunindextype> rows;
  std::vector<double> constant_values;

  explicit Workspace(const Problem& of);
  ~Workspace();
  Workspace(const Workspace&) = delete;
  Workspace& operator=(const Workspace&) = delete;

  void make_pattern();
  void evaluate(const double* at);
  void start(bool from_last);

  static int equations(N_Vector at, N_Vector values, void* self);
  static int derivatives(N_Vector at, N_Vector, SUNMatrix into, void* self, N_Vector, N_Vector);
};

namespace {

struct Entry {
  std::size_t row = 0;
  std::size_t edge = no_unknown;  // active edge whose derivative this is, or none: a balance's +-1
  std::size_t part = 0;           // 0 by flow, 1 by head up, 2 by head down
  double value = 0.0;
};

/// The matrix by columns, and what each stored value is.
struct Columns {
  std::vector<std::vector<Entry>> of;

  void put(std::size_t column, Entry entry) {
    if (column != no_unknown) {
      of[column].push_back(entry);
    }
  }
};

}  // namespace

KinsolPeer::Workspace::Workspace(const Problem& of)
    : problem(of), pattern(tests::pattern_of(of)), size(pattern.heads + pattern.active.size()) {
  require(size > 0, "nothing to solve");
  require(SUNContext_Create(nullptr, &context) == 0, "no SUNDIALS context");
  const auto length = static_cast<sunindextype>(size);
  unknowns = made(N_VNew_Serial(length, context), "no vector");
  unknown_scale = made(N_VClone(unknowns), "no vector");
  equation_scale = made(N_VClone(unknowns), "no vector");
  residuals.resize(pattern.active.size());
  make_pattern();
  linear = made(SUNLinSol_KLU(unknowns, matrix, context), "no KLU");
  // Approximate minimum degree: a few per cent faster here than KLU's column ordering.
  require(SUNLinSol_KLUSetOrdering(linear, 0) == 0, "KLU ordering");
  kinsol = made(KINCreate(context), "no KINSOL");
  require(KINInit(kinsol, &equations, unknowns) == KIN_SUCCESS, "KINInit");
  require(KINSetUserData(kinsol, this) == KIN_SUCCESS, "KINSetUserData");
  require(KINSetLinearSolver(kinsol, linear, matrix) == KIN_SUCCESS, "KINSetLinearSolver");
  require(KINSetJacFn(kinsol, &derivatives) == KIN_SUCCESS, "KINSetJacFn");
  require(KINSetMaxNewtonStep(kinsol, 1e8) == KIN_SUCCESS, "KINSetMaxNewtonStep");
  require(KINSetScaledStepTol(kinsol, 1e-15) == KIN_SUCCESS, "KINSetScaledStepTol");
  const auto be_silent = [](int, const char*, const char*, char*, void*) {};
  require(KINSetErrHandlerFn(kinsol, be_silent, nullptr) == KIN_SUCCESS, "KINSetErrHandlerFn");
}

KinsolPeer::Workspace::~Workspace() {
  KINFree(&kinsol);
  SUNLinSolFree(linear);
  SUNMatDestroy(matrix);
  N_VDestroy(equation_scale);
  N_VDestroy(unknown_scale);
  N_VDestroy(unknowns);
  SUNContext_Free(&context);
}

void KinsolPeer::Workspace::make_pattern() {
  Columns columns;
  columns.of.resize(size);
  for (std::size_t i = 0; i < pattern.active.size(); ++i) {
    const nodal::Coupling& ends = pattern.couplings[i];
    const std::size_t own = pattern.heads + i;
    if (ends.up != no_unknown) {
      columns.put(own, {ends.up, no_unknown, 0, -1.0});
    }
    if (ends.down != no_unknown) {
      columns.put(own, {ends.down, no_unknown, 0, 1.0});
    }
    columns.put(own, {own, i, 0, 0.0});
    columns.put(ends.up, {own, i, 1, 0.0});
    columns.put(ends.down, {own, i, 2, 0.0});
  }
  std::size_t count = 0;
  for (const std::vector<Entry>& column : columns.of) {
    count += column.size();
  }
  const auto length = static_cast<sunindextype>(size);
  matrix = made(SUNSparseMatrix(length, length, static_cast<sunindextype>(count), CSC_MAT, context),
                "no matrix");
  slots.assign(pattern.active.size(), {no_unknown, no_unknown, no_unknown});
  constant_values.assign(count, 0.0);
  starts.resize(size + 1);
  rows.resize(count);
  std::size_t slot = 0;
  for (std::size_t column = 0; column < size; ++column) {
    starts[column] = static_cast<sunindextype>(slot);
    std::sort(columns.of[column].begin(),
              columns.of[column].end(),
              [](const Entry& a, const Entry& b) { return a.row < b.row; });
    for (const Entry& entry : columns.of[column]) {
      rows[slot] = static_cast<sunindextype>(entry.row);
      constant_values[slot] = entry.value;
      if (entry.edge != no_unknown) {
        slots[entry.edge][entry.part] = slot;
      }
      ++slot;
    }
  }
  starts[size] = static_cast<sunindextype>(slot);
}

void KinsolPeer::Workspace::evaluate(const double* at) {
  for (std::size_t node = 0; node < pattern.unknown_of.size(); ++node) {
    if (pattern.unknown_of[node] != no_unknown) {
      state.head_m[node] = at[pattern.unknown_of[node]];
    }
  }
  const nodal::Smoothing smoothing{options.scale_s_m2, options.smoothing_m};
  for (std::size_t i = 0; i < pattern.active.size(); ++i) {
    const std::size_t index = pattern.active[i];
    const nodal::Edge& edge = problem.edges[index];
    const double flow = at[pattern.heads + i];
    state.flow_m3_s[index] = flow;
    residuals[i] = nodal::smoothed_residual(edge,
                                            flow,
                                            tests::head_at(problem, state, edge.up),
                                            tests::head_at(problem, state, edge.down),
                                            nodal::edge_loss(problem, index, flow),
                                            smoothing);
  }
  residuals_at.assign(at, at + size);
}

int KinsolPeer::Workspace::equations(N_Vector at, N_Vector values, void* self) {
  Workspace& work = *static_cast<Workspace*>(self);
  work.evaluate(N_VGetArrayPointer(at));
  double* value = N_VGetArrayPointer(values);
  for (std::size_t node = 0; node < work.pattern.unknown_of.size(); ++node) {
    if (work.pattern.unknown_of[node] != no_unknown) {
      value[work.pattern.unknown_of[node]] = work.problem.nodes[node].inflow_m3_s;
    }
  }
  for (std::size_t i = 0; i < work.pattern.active.size(); ++i) {
    const double flow = work.residuals_at[work.pattern.heads + i];
    if (work.pattern.couplings[i].up != no_unknown) {
      value[work.pattern.couplings[i].up] -= flow;
    }
    if (work.pattern.couplings[i].down != no_unknown) {
      value[work.pattern.couplings[i].down] += flow;
    }
    value[work.pattern.heads + i] = work.residuals[i].residual_m;
    if (!std::isfinite(work.residuals[i].residual_m)) {
      return 1;  // KINSOL may try a shorter step
    }
  }
  return 0;
}

int KinsolPeer::Workspace::derivatives(
    N_Vector at, N_Vector, SUNMatrix into, void* self, N_Vector, N_Vector) {
  Workspace& work = *static_cast<Workspace*>(self);
  const double* point = N_VGetArrayPointer(at);
  if (!std::equal(work.residuals_at.begin(), work.residuals_at.end(), point)) {
    work.evaluate(point);
  }
  // KINSOL has emptied the matrix, pattern and all.
  std::copy(work.starts.begin(), work.starts.end(), SUNSparseMatrix_IndexPointers(into));
  std::copy(work.rows.begin(), work.rows.end(), SUNSparseMatrix_IndexValues(into));
  double* values = SUNSparseMatrix_Data(into);
  std::copy(work.constant_values.begin(), work.constant_values.end(), values);
  for (std::size_t i = 0; i < work.slots.size(); ++i) {
    const EdgeResidual& residual = work.residuals[i];
    const std::array<double, 3> parts = {
        residual.by_flow_s_m2, residual.by_head_up, residual.by_head_down};
    for (std::size_t part = 0; part < parts.size(); ++part) {
      if (work.slots[i][part] != no_unknown) {
        values[work.slots[i][part]] = parts[part];
      }
    }
  }
  return 0;
}

void KinsolPeer::Workspace::start(bool from_last) {
  if (!from_last || state.head_m.empty()) {
    state = tests::cold_state(problem, pattern);
  }
  double* unknown = N_VGetArrayPointer(unknowns);
  double* of_unknown = N_VGetArrayPointer(unknown_scale);
  double* of_equation = N_VGetArrayPointer(equation_scale);
  for (std::size_t node = 0; node < pattern.unknown_of.size(); ++node) {
    if (pattern.unknown_of[node] != no_unknown) {
      unknown[pattern.unknown_of[node]] = state.head_m[node];
    }
  }
  for (std::size_t i = 0; i < pattern.active.size(); ++i) {
    unknown[pattern.heads + i] = state.flow_m3_s[pattern.active[i]];
  }
  // Heads are metres, flows some 1e-4 m3/s; an imbalance counts as our own merit counts it.
  std::fill(of_unknown, of_unknown + pattern.heads, 0.1);
  std::fill(of_unknown + pattern.heads, of_unknown + size, 1e4);
  std::fill(of_equation, of_equation + pattern.heads, options.scale_s_m2);
  std::fill(of_equation + pattern.heads, of_equation + size, 1.0);
}

KinsolPeer::KinsolPeer(const Problem& problem) : workspace_(std::make_unique<Workspace>(problem)) {}
KinsolPeer::~KinsolPeer() = default;
KinsolPeer::KinsolPeer(KinsolPeer&&) noexcept = default;
KinsolPeer& KinsolPeer::operator=(KinsolPeer&&) noexcept = default;

PeerAnswer KinsolPeer::solve(const PeerOptions& options, bool from_last) {
  Workspace& work = *workspace_;
  work.options = options;
  work.start(from_last);
  KINSetFuncNormTol(work.kinsol, options.head_tolerance_m);
  KINSetMaxSetupCalls(work.kinsol, options.steps_a_jacobian);
  KINSetNumMaxIters(work.kinsol, options.iteration_limit);
  const int ended =
      KINSol(work.kinsol, work.unknowns, KIN_LINESEARCH, work.unknown_scale, work.equation_scale);
  PeerAnswer answer;
  answer.converged = ended == KIN_SUCCESS || ended == KIN_INITIAL_GUESS_OK;
  KINGetNumNonlinSolvIters(work.kinsol, &answer.iterations);
  work.evaluate(N_VGetArrayPointer(work.unknowns));
  answer.state = work.state;
  return answer;
}

void judge(const Problem& problem, double scale_s_m2, PeerAnswer& answer) {
  const tests::NodalPattern pattern = tests::pattern_of(problem);
  std::vector<double> imbalance(pattern.heads, 0.0);
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (pattern.unknown_of[node] != no_unknown) {
      imbalance[pattern.unknown_of[node]] = problem.nodes[node].inflow_m3_s;
    }
  }
  answer.exact_m = 0.0;
  for (std::size_t i = 0; i < pattern.active.size(); ++i) {
    const std::size_t index = pattern.active[i];
    const nodal::Edge& edge = problem.edges[index];
    const double flow = answer.state.flow_m3_s[index];
    const double exact = nodal::exact_residual_m(edge,
                                                 flow,
                                                 tests::head_at(problem, answer.state, edge.up),
                                                 tests::head_at(problem, answer.state, edge.down),
                                                 nodal::edge_loss(problem, index, flow),
                                                 scale_s_m2);
    // NaN must not pass for small.
    answer.exact_m = std::isfinite(exact) ? std::max(answer.exact_m, std::abs(exact)) : 1e300;
    if (pattern.couplings[i].up != no_unknown) {
      imbalance[pattern.couplings[i].up] -= flow;
    }
    if (pattern.couplings[i].down != no_unknown) {
      imbalance[pattern.couplings[i].down] += flow;
    }
  }
  answer.imbalance_m3_s = 0.0;
  for (const double amount : imbalance) {
    answer.imbalance_m3_s = std::max(answer.imbalance_m3_s, std::abs(amount));
  }
}

}  // namespace leat::bench
