#include "solver/nodal/newton.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>
#include <utility>

#include "solver/nodal/linear_step.h"
#include "solver/nodal/reach.h"
#include "solver/nodal/residual.h"

namespace leat::nodal {

namespace {

constexpr double not_a_head = std::numeric_limits<double>::quiet_NaN();

/// A node that no equation touches (all its edges closed by their limits) keeps its head instead of
/// making the matrix singular.
constexpr double idle_diagonal = 1e-12;
/// A store's water is known to a few units in the last place, however short the step.
constexpr double store_rounding = 8.0 * std::numeric_limits<double>::epsilon();

/// How far from the answer a state is.
struct Distance {
  double merit = 0.0;           // half the sum of squares of the smoothed system, heads [m2]
  double exact_m = 0.0;         // largest edge residual with true min and max
  double imbalance_m3_s = 0.0;  // largest node imbalance
  double largest_flow_m3_s = 0.0;
  double store_rounding_m3_s = 0.0;  // what a store's volume and level cannot tell apart in a step
};

/// Fixed heads stand in the state as well; what lies outside has none and is not read.
double head_of(const State& state, std::size_t node) {
  return node == outside ? 0.0 : state.head_m[node];
}

}  // namespace

struct NodalSolver::Workspace {
  std::size_t unknowns = 0;
  std::vector<bool> reached;
  std::vector<std::size_t> unknown_of;  // node -> unknown, or no_unknown
  std::vector<std::size_t> active;      // edges whose flow is sought
  std::vector<std::size_t> limited;     // those of them that have a limit
  std::vector<std::size_t> stores;      // nodes that hold water
  /// A ram among the active edges: its place in `active` and its driver's, and where the pairs of
  /// unknowns (drive, delivery) and (supply, delivery) stand among the linear step's.
  struct ActiveRam {
    std::size_t at = 0;
    std::size_t driver_at = 0;
    std::size_t by_drive = 0;
    std::size_t by_supply = 0;
    std::size_t supply = no_unknown;
    RamResidual residual;  // of the state measured last
  };
  std::vector<ActiveRam> rams;
  MatrixShape shape = MatrixShape::Symmetric;
  std::vector<Coupling> couplings;  // of the active edges
  std::optional<LinearStep> linear;

  // All below: one entry an edge of the problem or a node, kept between steps and solves.
  State state;
  State trial;
  std::vector<Loss> losses;  // of the flows measured last
  std::vector<EdgeResidual> residuals;
  std::vector<double> imbalance_m3_s;
  std::vector<double> store_by_head_m2_s;  // of each of `stores`: area over step
  std::vector<double> flow_step_m3_s;
  std::vector<double> right_side;
  Distance without_limits;  // of the state measured last: what smoothing does not change
  double largest_head_m = 0.0;
  double judged_scale_s_m2 = 0.0;  // S of the stopping test, whatever S an attempt uses

  explicit Workspace(const Problem& problem);
  /// Asks every edge for its loss: the dearest part of a measurement.
  void find_losses(const Problem& problem, const State& at);
  /// Finds the rams among the active edges and the pairs of unknowns they couple.
  void find_rams(const Problem& problem, std::vector<Coupling>& pairs);
  /// The rams' part of a measurement.
  void measure_rams(const Problem& problem, const State& at, double scale, Distance& distance);
  /// How far `at` is from the answer of the smoothed system, with the losses found last (`exact_m`
  /// only as far as edges without limits go).
  Distance measure(const Problem& problem, const State& at, const Smoothing& smoothing);
  /// The same state with its limits smoothed otherwise.
  Distance measure_limits(const Problem& problem, const State& at, const Smoothing& smoothing);
  /// The largest residual of an edge with a limit, with true min and max.
  [[nodiscard]] double exact_residual(const Problem& problem, const State& at) const;
  [[nodiscard]] bool take_newton_step();
  void move(double share);
  void cold_start(const Problem& problem, double flow_factor);
  void warm_start(const Problem& problem, const State& warm);
  [[nodiscard]] static double highest_supply(const Problem& problem);
};

NodalSolver::Workspace::Workspace(const Problem& problem) : reached(nodes_reached(problem)) {
  unknown_of.assign(problem.nodes.size(), no_unknown);
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (reached[node] && !problem.nodes[node].fixed_head_m) {
      unknown_of[node] = unknowns++;
      if (problem.nodes[node].has_store) {
        stores.push_back(node);
      }
    }
  }
  store_by_head_m2_s.assign(stores.size(), 0.0);
  const auto unknown = [&](std::size_t node) {
    return node == outside ? no_unknown : unknown_of[node];
  };
  for (std::size_t index = 0; index < problem.edges.size(); ++index) {
    const Edge& edge = problem.edges[index];
    const auto is_dry = [&](std::size_t node) { return node != outside && !reached[node]; };
    bool dry = is_dry(edge.up) || is_dry(edge.down);
    if (edge.kind == EdgeKind::Ram) {
      const Edge& driver = problem.edges[edge.driver];
      dry = dry || driver.closed || is_dry(driver.up) || is_dry(edge.supply);
    }
    if (edge.closed || dry) {
      continue;
    }
    active.push_back(index);
    if (edge.kind != EdgeKind::Link && edge.kind != EdgeKind::Ram) {
      limited.push_back(index);
    }
    couplings.push_back({unknown(edge.up), unknown(edge.down)});
    if (makes_unsymmetric(edge)) {
      shape = MatrixShape::Unsymmetric;
    }
  }
  std::vector<Coupling> pairs = couplings;
  find_rams(problem, pairs);
  if (unknowns > 0) {
    linear.emplace(unknowns, pairs, shape);
  }
  state.head_m.assign(problem.nodes.size(), not_a_head);
  state.flow_m3_s.assign(problem.edges.size(), 0.0);
  trial = state;
  losses.resize(problem.edges.size());
  residuals.resize(problem.edges.size());
  flow_step_m3_s.assign(problem.edges.size(), 0.0);
  imbalance_m3_s.assign(unknowns, 0.0);
  right_side.assign(unknowns, 0.0);
}

void NodalSolver::Workspace::find_rams(const Problem& problem, std::vector<Coupling>& pairs) {
  for (std::size_t i = 0; i < active.size(); ++i) {
    const Edge& edge = problem.edges[active[i]];
    if (edge.kind != EdgeKind::Ram) {
      continue;
    }
    ActiveRam ram;
    ram.at = i;
    ram.driver_at = static_cast<std::size_t>(std::find(active.begin(), active.end(), edge.driver) -
                                             active.begin());
    ram.by_drive = pairs.size();
    pairs.push_back({couplings[ram.driver_at].up, couplings[i].down});
    ram.by_supply = pairs.size();
    ram.supply = edge.supply == outside ? no_unknown : unknown_of[edge.supply];
    pairs.push_back({ram.supply, couplings[i].down});
    rams.push_back(ram);
  }
}

void NodalSolver::Workspace::measure_rams(const Problem& problem,
                                          const State& at,
                                          double scale,
                                          Distance& distance) {
  for (ActiveRam& ram : rams) {
    const std::size_t index = active[ram.at];
    const Edge& edge = problem.edges[index];
    const double supply_m = edge.supply == outside ? edge.supply_level_m : head_of(at, edge.supply);
    ram.residual = ram_residual(problem,
                                index,
                                at.flow_m3_s[index],
                                at.flow_m3_s[edge.driver],
                                head_of(at, edge.down),
                                supply_m,
                                scale);
    residuals[index] = ram.residual.residual;
    const double residual_m = residuals[index].residual_m;
    distance.merit += 0.5 * residual_m * residual_m;
    distance.exact_m = std::max(distance.exact_m, std::abs(residual_m) * judged_scale_s_m2 / scale);
  }
}

void NodalSolver::Workspace::find_losses(const Problem& problem, const State& at) {
  for (const std::size_t index : active) {
    losses[index] = edge_loss(problem, index, at.flow_m3_s[index]);
  }
}

double NodalSolver::Workspace::exact_residual(const Problem& problem, const State& at) const {
  double largest = 0.0;
  for (const std::size_t index : limited) {
    const Edge& edge = problem.edges[index];
    const double exact = exact_residual_m(edge,
                                          at.flow_m3_s[index],
                                          head_of(at, edge.up),
                                          head_of(at, edge.down),
                                          losses[index],
                                          judged_scale_s_m2);
    largest = std::max(largest, std::abs(exact));
  }
  return largest;
}

Distance NodalSolver::Workspace::measure(const Problem& problem,
                                         const State& at,
                                         const Smoothing& smoothing) {
  Distance distance;
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (unknown_of[node] != no_unknown) {
      imbalance_m3_s[unknown_of[node]] = problem.nodes[node].inflow_m3_s;
    }
  }
  double sum = 0.0;
  for (std::size_t i = 0; i < active.size(); ++i) {
    const std::size_t index = active[i];
    const Edge& edge = problem.edges[index];
    const double flow = at.flow_m3_s[index];
    if (edge.kind == EdgeKind::Link) {
      EdgeResidual& residual = residuals[index];
      residual = link_residual(head_of(at, edge.up), head_of(at, edge.down), losses[index]);
      sum += residual.residual_m * residual.residual_m;
      distance.exact_m = std::max(distance.exact_m, std::abs(residual.residual_m));
    }
    distance.largest_flow_m3_s = std::max(distance.largest_flow_m3_s, std::abs(flow));
    if (couplings[i].up != no_unknown) {
      imbalance_m3_s[couplings[i].up] -= flow;
    }
    if (couplings[i].down != no_unknown) {
      imbalance_m3_s[couplings[i].down] += flow;
    }
  }
  for (std::size_t i = 0; i < stores.size(); ++i) {
    const std::size_t node = stores[i];
    const Stored stored = problem.stored(node, at.head_m[node]);
    const double taken_up = stored.volume_m3 - problem.nodes[node].volume_before_m3;
    imbalance_m3_s[unknown_of[node]] -= taken_up / problem.step_s;
    store_by_head_m2_s[i] = stored.area_m2 / problem.step_s;
    const double digits_m3 = std::abs(stored.volume_m3) +
                             std::abs(problem.nodes[node].volume_before_m3) +
                             stored.area_m2 * std::abs(at.head_m[node]);
    distance.store_rounding_m3_s =
        std::max(distance.store_rounding_m3_s, store_rounding * digits_m3 / problem.step_s);
  }
  for (const double imbalance : imbalance_m3_s) {
    const double as_head = smoothing.scale_s_m2 * imbalance;
    sum += as_head * as_head;
    distance.imbalance_m3_s = std::max(distance.imbalance_m3_s, std::abs(imbalance));
  }
  distance.merit = 0.5 * sum;
  measure_rams(problem, at, smoothing.scale_s_m2, distance);
  without_limits = distance;
  return measure_limits(problem, at, smoothing);
}

Distance NodalSolver::Workspace::measure_limits(const Problem& problem,
                                                const State& at,
                                                const Smoothing& smoothing) {
  Distance distance = without_limits;
  for (const std::size_t index : limited) {
    const Edge& edge = problem.edges[index];
    EdgeResidual& residual = residuals[index];
    residual = smoothed_residual(edge,
                                 at.flow_m3_s[index],
                                 head_of(at, edge.up),
                                 head_of(at, edge.down),
                                 losses[index],
                                 smoothing);
    distance.merit += 0.5 * residual.residual_m * residual.residual_m;
  }
  return distance;
}

bool NodalSolver::Workspace::take_newton_step() {
  if (unknowns > 0) {
    linear->clear(idle_diagonal);
    right_side = imbalance_m3_s;
    for (std::size_t i = 0; i < active.size(); ++i) {
      const EdgeResidual& residual = residuals[active[i]];
      const double gain = -1.0 / residual.by_flow_s_m2;
      linear->add(i, gain * residual.by_head_up, gain * residual.by_head_down);
      if (couplings[i].up != no_unknown) {
        right_side[couplings[i].up] -= gain * residual.residual_m;
      }
      if (couplings[i].down != no_unknown) {
        right_side[couplings[i].down] += gain * residual.residual_m;
      }
    }
    for (std::size_t i = 0; i < stores.size(); ++i) {
      linear->add_to_diagonal(unknown_of[stores[i]], store_by_head_m2_s[i]);
    }
    // A ram's flow follows its driver's, whose own step is put in here as well.
    for (const ActiveRam& ram : rams) {
      const EdgeResidual& driver = residuals[active[ram.driver_at]];
      const double gain = -1.0 / ram.residual.residual.by_flow_s_m2;
      const double by_drive = gain * ram.residual.by_driving_flow_s_m2 / -driver.by_flow_s_m2;
      linear->add_inflow(ram.by_drive, by_drive * driver.by_head_up);
      linear->add_inflow(ram.by_supply, gain * ram.residual.by_supply_head);
      if (couplings[ram.at].down != no_unknown) {
        right_side[couplings[ram.at].down] += by_drive * driver.residual_m;
      }
    }
    if (!linear->factorise()) {
      return false;
    }
    linear->solve(right_side);
  }
  const auto head_step = [&](std::size_t unknown) {
    return unknown == no_unknown ? 0.0 : right_side[unknown];
  };
  for (std::size_t i = 0; i < active.size(); ++i) {
    const EdgeResidual& residual = residuals[active[i]];
    const double change = residual.residual_m + residual.by_head_up * head_step(couplings[i].up) +
                          residual.by_head_down * head_step(couplings[i].down);
    flow_step_m3_s[active[i]] = -change / residual.by_flow_s_m2;
  }
  for (const ActiveRam& ram : rams) {
    const double more = ram.residual.by_driving_flow_s_m2 * flow_step_m3_s[active[ram.driver_at]] +
                        ram.residual.by_supply_head * head_step(ram.supply);
    flow_step_m3_s[active[ram.at]] -= more / ram.residual.residual.by_flow_s_m2;
  }
  return true;
}

void NodalSolver::Workspace::move(double share) {
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    if (unknown_of[node] != no_unknown) {
      trial.head_m[node] = state.head_m[node] + share * right_side[unknown_of[node]];
    }
  }
  for (const std::size_t index : active) {
    trial.flow_m3_s[index] = state.flow_m3_s[index] + share * flow_step_m3_s[index];
  }
}

double NodalSolver::Workspace::highest_supply(const Problem& problem) {
  double highest = -std::numeric_limits<double>::infinity();
  const auto see = [&](double level) { highest = std::max(highest, level); };
  for (const Node& node : problem.nodes) {
    if (node.fixed_head_m) {
      see(*node.fixed_head_m);
    }
  }
  for (const Edge& edge : problem.edges) {
    if (edge.kind == EdgeKind::LimitedSupply) {
      see(edge.level_m);
    }
  }
  return std::isfinite(highest) ? highest : 0.0;
}

void NodalSolver::Workspace::cold_start(const Problem& problem, double flow_factor) {
  const double highest = highest_supply(problem);
  largest_head_m = std::abs(highest);
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    const std::optional<double>& fixed = problem.nodes[node].fixed_head_m;
    state.head_m[node] = fixed ? *fixed : unknown_of[node] == no_unknown ? not_a_head : highest;
  }
  trial.head_m = state.head_m;
  std::fill(state.flow_m3_s.begin(), state.flow_m3_s.end(), 0.0);
  for (const std::size_t index : active) {
    state.flow_m3_s[index] = flow_factor * problem.edges[index].start_flow_m3_s;
  }
}

void NodalSolver::Workspace::warm_start(const Problem& problem, const State& warm) {
  cold_start(problem, 0.0);
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    if (unknown_of[node] != no_unknown && std::isfinite(warm.head_m[node])) {
      state.head_m[node] = warm.head_m[node];
    }
  }
  // An edge that has been closed since carries nothing now.
  for (const std::size_t index : active) {
    state.flow_m3_s[index] = warm.flow_m3_s[index];
  }
}

NodalSolver::NodalSolver(const Problem& problem)
    : workspace_(std::make_unique<Workspace>(problem)) {}
NodalSolver::~NodalSolver() = default;
NodalSolver::NodalSolver(NodalSolver&&) noexcept = default;
NodalSolver& NodalSolver::operator=(NodalSolver&&) noexcept = default;

namespace {

/// How one attempt goes about it. After a full or nearly full step the smoothing falls by
/// `smoothing_cut`, else by half; one that follows the path cuts only when the smoothed system is
/// nearly solved. The first attempt is quick; the others differ in scale S, smoothing and start.
/// What stops one attempt rarely stops the next, so there are many, of all sorts: of a million
/// random farms 2 000 need the second and five more than the sixth.
struct Pace {
  double scale_factor = 1.0;
  double start_factor = 1.0;
  double smoothing_cut = 0.03;
  bool follows_path = false;
  double start_flow_factor = 1.0;
};
constexpr std::array<Pace, 18> paces = {Pace{1.0, 1.0, 0.03, false, 1.0},
                                        {1.0, 10.0, 0.1, true, 1.0},
                                        {0.1, 10.0, 0.2, true, 1.0},
                                        {10.0, 10.0, 0.2, true, 1.0},
                                        {0.01, 30.0, 0.3, true, 1.0},
                                        {1.0, 100.0, 0.5, true, 1.0},
                                        {3.0, 3.0, 0.3, false, 0.1},
                                        {0.3, 30.0, 0.3, true, 3.0},
                                        {30.0, 1.0, 0.1, false, 1.0},
                                        {0.03, 3.0, 0.5, true, 0.1},
                                        {3.0, 300.0, 0.7, true, 3.0},
                                        {0.3, 0.1, 0.1, false, 1.0},
                                        {1.0, 0.1, 0.1, false, 0.1},
                                        {2.0, 0.3, 0.2, false, 3.0},
                                        {5.0, 30.0, 0.5, true, 0.1},
                                        {0.2, 1.0, 0.5, false, 0.3},
                                        {0.5, 300.0, 0.7, true, 0.3},
                                        {20.0, 0.1, 0.3, false, 0.1}};

constexpr double smoothing_half = 0.5;
constexpr double least_smoothing_m = 1e-12;
constexpr double sufficient_decrease = 1e-4;  // Armijo's constant
constexpr int halvings_limit = 25;
constexpr int attempt_iterations = 100;
/// So many steps in a row shorter than this: the attempt has stalled.
constexpr double stalled_step = 1e-3;
constexpr int stalled_steps = 6;
/// A stalled attempt this near is finished with the limits as they stand.
constexpr double finish_within_m = 1.0;
constexpr int finishing_steps = 12;
/// A warm start that has not arrived after so many full steps is no small change.
constexpr int following_steps = 6;

void append(std::string& text, const char* words) {
  text += words;
}

/// Numbers by to_chars: a decimal comma of the user's country changes nothing.
template <class Number>
void append(std::string& text, Number number) {
  std::array<char, 32> digits{};
  std::to_chars_result end{};
  if constexpr (std::is_floating_point_v<Number>) {
    end = std::to_chars(
        digits.data(), digits.data() + digits.size(), number, std::chars_format::general, 6);
  } else {
    end = std::to_chars(digits.data(), digits.data() + digits.size(), number);
  }
  text.append(digits.data(), end.ptr);
}

template <class... Parts>
std::string sentence(const Parts&... parts) {
  std::string text;
  text.reserve(160);
  (append(text, parts), ...);
  return text;
}

double next_smoothing(const Pace& pace, double smoothing_m, double step_length, double merit) {
  const double residual = std::sqrt(2.0 * merit);
  if (pace.follows_path) {
    const bool arrived = residual < 3.0 * smoothing_m;
    return arrived ? std::max(least_smoothing_m, smoothing_m * pace.smoothing_cut) : smoothing_m;
  }
  const double factor = step_length > 0.5 ? pace.smoothing_cut : smoothing_half;
  // Near the answer the residual itself says how little smoothing is left to do.
  return std::max(least_smoothing_m, std::min(smoothing_m * factor, 0.1 * residual));
}

}  // namespace

/// One run of the iteration at one scale. Reads and writes the solver's workspace and the report.
class NodalSolver::Attempt {
 public:
  Attempt(Workspace& work,
          const Problem& problem,
          const SolveOptions& options,
          const Pace& pace,
          SolveReport& report)
      : work_(work), problem_(problem), options_(options), pace_(pace), report_(report) {}

  /// Iterates from the workspace's state until a stopping test is met.
  void iterate(const Smoothing& start) {
    report_.table.reserve(report_.table.size() + attempt_iterations + finishing_steps + 2);
    smoothing_ = start;
    measure_anew(start.smoothing_m);
    const int first = report_.iterations;
    while (true) {
      record(0.0);
      if (not_finite() || converged() || limit_reached(first)) {
        return;
      }
      if (stalled() || !newton_step() || !step_accepted()) {
        finish();
        return;
      }
    }
  }

  /// From an answer that is nearly right full Newton steps on the limits as they stand arrive in
  /// two or three; where a limit lets go on the way they may not, and this says false.
  bool follow_small_change() {
    report_.table.reserve(report_.table.size() + following_steps + 2);
    return exact_steps(following_steps);
  }

 private:
  bool not_finite() {
    if (std::isfinite(distance_.merit)) {
      return false;
    }
    for (const std::size_t index : work_.active) {
      if (!std::isfinite(work_.residuals[index].residual_m)) {
        report_.index = index;
        break;
      }
    }
    return stop(Termination::NotFinite, "a law gave a value that is not a number");
  }

  bool converged() {
    const double head_limit = options_.head_tolerance_m + 1e-13 * work_.largest_head_m;
    const double balance_limit = options_.balance_tolerance * distance_.largest_flow_m3_s +
                                 least_imbalance_m3_s + distance_.store_rounding_m3_s;
    if (distance_.exact_m > head_limit || distance_.imbalance_m3_s > balance_limit) {
      return false;
    }
    return stop(Termination::Converged,
                sentence("largest edge residual ",
                         distance_.exact_m,
                         " m <= ",
                         head_limit,
                         " m, largest imbalance ",
                         distance_.imbalance_m3_s,
                         " m3/s <= ",
                         balance_limit,
                         " m3/s"));
  }

  bool limit_reached(int first) {
    const bool attempt_over = report_.iterations - first >= attempt_iterations;
    if (report_.iterations < options_.iteration_limit && !attempt_over) {
      return false;
    }
    return stop(Termination::IterationLimit,
                sentence("stopped after ",
                         report_.iterations,
                         " iterations with an edge residual of ",
                         distance_.exact_m,
                         " m > ",
                         options_.head_tolerance_m,
                         " m"));
  }

  bool stalled() {
    if (short_steps_ < stalled_steps) {
      return false;
    }
    return stop(Termination::StepTooSmall,
                sentence(stalled_steps,
                         " steps in a row were shorter than ",
                         stalled_step,
                         " of Newton's, with an edge residual of ",
                         distance_.exact_m,
                         " m"));
  }

  /// Where several limits meet in one point, smoothing bends what is straight and steps grow short
  /// a hair from the answer. Full Newton steps on the limits as they stand (each edge on the piece
  /// that holds now) then arrive at once or not at all.
  void finish() {
    if (!std::isfinite(distance_.merit) || distance_.exact_m > finish_within_m ||
        report_.termination == Termination::Converged) {
      return;
    }
    const SolveReport before = report_;
    if (!exact_steps(finishing_steps)) {
      report_.termination = before.termination;
      report_.sentence = before.sentence;
      report_.index = before.index;
    }
  }

  /// Full steps with true min and max. True when they arrived.
  bool exact_steps(int steps) {
    measure_anew(0.0);
    record(0.0);
    for (int step = 0; std::isfinite(distance_.merit) && !converged(); ++step) {
      if (step == steps || !newton_step()) {
        return false;
      }
      work_.move(1.0);
      std::swap(work_.state, work_.trial);
      report_.table.back().step_length = 1.0;
      measure_anew(0.0);
      record(0.0);
    }
    return report_.termination == Termination::Converged;
  }

  bool newton_step() {
    ++report_.factorisations;
    if (!work_.take_newton_step()) {
      stop(Termination::Singular, "the nodal matrix could not be factorised");
      return false;
    }
    ++report_.iterations;
    return true;
  }

  /// Halves the step until the merit falls enough; where no step helps, lets go of the smoothing
  /// (its rounding is what is left near the answer) and, when that is gone too, gives up.
  bool step_accepted() {
    double share = 1.0;
    for (int halving = 0; halving < halvings_limit; ++halving, share *= 0.5) {
      work_.move(share);
      work_.find_losses(problem_, work_.trial);
      const Distance next = work_.measure(problem_, work_.trial, smoothing_);
      if (std::isfinite(next.merit) &&
          next.merit <= (1.0 - 2.0 * sufficient_decrease * share) * distance_.merit) {
        report_.table.back().step_length = share;
        std::swap(work_.state, work_.trial);
        short_steps_ = share < stalled_step ? short_steps_ + 1 : 0;
        change_smoothing(next_smoothing(pace_, smoothing_.smoothing_m, share, next.merit));
        return true;
      }
    }
    if (smoothing_.smoothing_m > 1e-9) {
      measure_anew(0.01 * smoothing_.smoothing_m);
      return true;
    }
    stop(Termination::StepTooSmall,
         sentence("no step longer than ",
                  share,
                  " of Newton's made the residual of ",
                  distance_.exact_m,
                  " m smaller"));
    return false;
  }

  void measure_anew(double smoothing_m) {
    smoothing_.smoothing_m = smoothing_m;
    work_.find_losses(problem_, work_.state);
    distance_ = work_.measure(problem_, work_.state, smoothing_);
    see_limits();
  }

  /// For the state measured last: only its limits look different.
  void change_smoothing(double smoothing_m) {
    smoothing_.smoothing_m = smoothing_m;
    distance_ = work_.measure_limits(problem_, work_.state, smoothing_);
    see_limits();
  }

  void see_limits() {
    distance_.exact_m = std::max(distance_.exact_m, work_.exact_residual(problem_, work_.state));
  }

  void record(double step_length) {
    report_.table.push_back({report_.iterations,
                             distance_.exact_m,
                             distance_.imbalance_m3_s,
                             smoothing_.smoothing_m,
                             step_length});
  }

  bool stop(Termination termination, std::string text) {
    report_.termination = termination;
    report_.sentence = std::move(text);
    return true;
  }

  /// Flows below this are nothing: a drop a century.
  static constexpr double least_imbalance_m3_s = 1e-15;

  Workspace& work_;
  const Problem& problem_;
  const SolveOptions& options_;
  const Pace& pace_;
  SolveReport& report_;
  int short_steps_ = 0;
  Smoothing smoothing_;
  Distance distance_;
};

Solution NodalSolver::solve(const Problem& problem,
                            const SolveOptions& options,
                            const State* warm,
                            const State* second) {
  Workspace& work = *workspace_;
  work.judged_scale_s_m2 = options.scale_s_m2;
  Solution solution;
  solution.reached = work.reached;
  solution.report.iterations = 0;
  solution.report.analyses = work.unknowns > 0 ? 1 : 0;
  solution.report.symmetric = work.shape == MatrixShape::Symmetric;
  for (std::size_t attempt = 0; attempt < paces.size(); ++attempt) {
    const Pace& pace = paces[attempt];
    Smoothing smoothing{options.scale_s_m2 * pace.scale_factor,
                        options.start_smoothing_m * pace.start_factor};
    if (attempt == 0 && warm != nullptr) {
      work.warm_start(problem, *warm);
      if (options.small_change) {
        if (Attempt(work, problem, options, pace, solution.report).follow_small_change()) {
          break;
        }
        if (second != nullptr) {
          work.warm_start(problem, *second);
          if (Attempt(work, problem, options, pace, solution.report).follow_small_change()) {
            break;
          }
        }
        work.warm_start(problem, *(second != nullptr ? second : warm));
      }
      smoothing.smoothing_m = options.warm_smoothing_m;
    } else {
      work.cold_start(problem, pace.start_flow_factor);
    }
    Attempt(work, problem, options, pace, solution.report).iterate(smoothing);
    const Termination ended = solution.report.termination;
    if (ended == Termination::Converged || ended == Termination::NotFinite ||
        solution.report.iterations >= options.iteration_limit) {
      break;
    }
    if (attempt + 1 < paces.size()) {
      ++solution.report.restarts;
    }
  }
  solution.state = work.state;
  return solution;
}

Solution solve(const Problem& problem, const SolveOptions& options) {
  return NodalSolver(problem).solve(problem, options);
}

}  // namespace leat::nodal
