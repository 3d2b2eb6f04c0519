#include "solver/nodal/newton.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <type_traits>
#include <utility>

#include "solver/nodal/workspace.h"

namespace leat::nodal {

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
