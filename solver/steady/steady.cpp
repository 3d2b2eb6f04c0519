#include "solver/steady/steady.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/keys/size_choice.h"
#include "model/text/nearest_word.h"
#include "solver/findings/states.h"
#include "solver/flow/driest_month.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/place_supply.h"
#include "solver/flow/pumps_and_rams.h"
#include "solver/flow/solved_case.h"

namespace leat::solver {

namespace {

using model::Diagnostic;

class SteadyStudy {
 public:
  SteadyStudy(const model::Farm& farm, const SteadyOptions& options, WarmCases* warm = nullptr)
      : farm_(farm), options_(options), warm_(warm) {}

  SteadyState study() {
    answer_.load_case = options_.load_case;
    answer_.broken = options_.broken;
    choose_month();
    const Surroundings surroundings = surroundings_of(farm_, answer_.month);
    answer_.air_pressure_Pa = surroundings.air_pressure_Pa;
    answer_.vapour_pressure_Pa = surroundings.water.vapour_pressure_Pa;
    answer_.density_kg_m3 = surroundings.water.density_kg_m3;
    NetworkOptions network;
    network.load_case = options_.load_case;
    network.month = answer_.month;
    answer_.problems = model::problems_of_sizes_to_choose(farm_);
    find_broken_trough(network);
    if (answer_.problems.empty()) {
      study_cases(surroundings, network);
    }
    return {std::move(answer_), std::move(state_)};
  }

 private:
  void choose_month() {
    if (!depends_on_month(farm_)) {
      return;
    }
    answer_.month = options_.month;
    if (!answer_.month) {
      answer_.month = driest_month(farm_);
      answer_.month_chosen = true;
    }
  }

  void find_broken_trough(NetworkOptions& network) {
    if (!options_.broken) {
      return;
    }
    std::vector<std::string> troughs;
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      if (!std::holds_alternative<model::Trough>(farm_.places[i].data)) {
        continue;
      }
      troughs.push_back(farm_.places[i].name);
      if (farm_.places[i].name == *options_.broken) {
        network.broken_trough = i;
      }
    }
    if (network.broken_trough != no_index) {
      return;
    }
    Diagnostic problem;
    problem.code = "unknown-place";
    problem.file = farm_.file;
    problem.text = fmt::format("no trough is named '{}'", *options_.broken);
    if (const auto near = model::nearest_word(*options_.broken, troughs)) {
      problem.hint = fmt::format("did you mean '{}'?", *near);
    }
    answer_.problems.push_back(problem);
  }

  /// Solves the case asked for, and the others for their dangers.
  void study_cases(const Surroundings& surroundings, const NetworkOptions& network) {
    std::vector<SolvedCase> cases;
    cases.push_back(solve_case(surroundings, network));
    const FlowState& state = cases.front().state;
    if (options_.load_case != LoadCase::Static) {
      answer_.iterations = cases.front().iterations;
      answer_.report = state.solution.report;
      if (!state.solution.report.is_usable()) {
        report_failure(state);
        return;
      }
    }
    answer_.converged = true;
    for (const LoadCase other : {LoadCase::Needs, LoadCase::Wide, LoadCase::Static}) {
      if (other != options_.load_case) {
        NetworkOptions beside;
        beside.load_case = other;
        beside.month = network.month;
        add_case(solve_case(surroundings, beside), cases);
      }
    }
    note_rounds(cases.front().happenings);
    for (const DrawingTee& drawing : cases.front().happenings.drawing_tees) {
      answer_.opened_tees.push_back(drawing.tee);
    }
    for (const BrokenLine& line : cases.front().happenings.broken_lines) {
      answer_.broken_springs.push_back(line.spring);
    }
    judge(farm_, cases, answer_);
    tell_supply(farm_, answer_);
    note_broken_float(cases.front().state);
    answer_.lifters = lifter_answers(cases.front().state);
    state_ = std::move(cases.front().state);
  }

  SolvedCase solve_case(const Surroundings& surroundings, const NetworkOptions& network) const {
    if (network.load_case == LoadCase::Static) {
      return solve_static_case(farm_, surroundings, network);
    }
    WarmSolver* const warm = warm_ == nullptr ? nullptr : warm_->of(network.load_case);
    return solve_running_case(farm_, surroundings, network, warm);
  }

  void add_case(SolvedCase solved, std::vector<SolvedCase>& cases) {
    if (!solved.is_static() && !solved.state.solution.report.is_usable()) {
      answer_.notes.emplace_back(CaseNotJudged{solved.load_case});
      return;
    }
    cases.push_back(std::move(solved));
  }

  void note_rounds(const Happenings& happenings) {
    const auto broken = static_cast<int>(happenings.broken_lines.size());
    const auto opened = static_cast<int>(happenings.drawing_tees.size());
    if (broken + opened > 0) {
      answer_.notes.emplace_back(SolvedAgain{broken, opened});
    }
  }

  /// With a float hanging open: what runs to waste and how far the water that feeds it falls.
  void note_broken_float(const FlowState& state) {
    const std::size_t trough = state.options.broken_trough;
    if (trough == no_index) {
      return;
    }
    const PlaceAnswer& water = answer_.places[trough];
    const double lost = std::max(0.0, water.delivered_m3_s - water.need_m3_s.value_or(0.0));
    answer_.notes.emplace_back(FloatHangsOpen{*options_.broken, water.delivered_m3_s, lost});
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const bool store = std::holds_alternative<model::Pond>(farm_.places[i].data) ||
                         std::holds_alternative<model::Tank>(farm_.places[i].data);
      if (!store || answer_.places[i].delivered_m3_s >= -still_flow_m3_s) {
        continue;
      }
      note_store_falls(i, trough);
    }
  }

  void note_store_falls(std::size_t place, std::size_t trough) {
    double lowest_m = 1e9;
    for (const model::Pipe& pipe : farm_.pipes) {
      if (pipe.from == place) {
        lowest_m = std::min(lowest_m, in_metres(from_end_level(farm_, pipe, answer_.month)));
      }
    }
    if (lowest_m > 1e8) {
      return;
    }
    const double end_m = std::max(lowest_m, answer_.places[trough].elevation_m);
    answer_.notes.emplace_back(StoreCanFall{farm_.places[place].name, end_m});
  }

  void report_failure(const FlowState& state) {
    Diagnostic problem;
    problem.code = "not-solved";
    problem.file = farm_.file;
    const nodal::SolveReport& report = state.solution.report;
    problem.text = fmt::format("no balance of heads and flows was found: {}", report.sentence);
    if (report.index && *report.index < state.network->laws.size()) {
      const std::size_t pipe = state.network->laws[*report.index].pipe;
      if (pipe != no_index) {
        problem.position = farm_.pipes[pipe].position;
        problem.text += fmt::format(" (at pipe {})", farm_.pipes[pipe].name);
      }
    }
    problem.hint = "look for a length, bore or level that is far from the others";
    answer_.problems.push_back(problem);
  }

  const model::Farm& farm_;
  const SteadyOptions& options_;
  WarmCases* warm_;
  SteadyAnswer answer_;
  FlowState state_;  // the last round's
};

}  // namespace

SteadyAnswer solve_steady(const model::Farm& farm, const SteadyOptions& options) {
  return solve_steady_state(farm, options).answer;
}

SteadyAnswer solve_steady_from(WarmCases& warm,
                               const model::Farm& farm,
                               const SteadyOptions& options) {
  return SteadyStudy(farm, options, &warm).study().answer;
}

SteadyState solve_steady_state(const model::Farm& farm, const SteadyOptions& options) {
  return SteadyStudy(farm, options).study();
}

}  // namespace leat::solver
