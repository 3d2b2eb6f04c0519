#include "solver/steady.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/nearest_word.h"
#include "solver/driest_month.h"
#include "solver/flow_state.h"
#include "solver/judgements.h"
#include "solver/place_answers.h"
#include "solver/siphon_rounds.h"
#include "solver/spoken_amount.h"
#include "solver/static_heads.h"

namespace leat::solver {

namespace {

using model::Diagnostic;

class SteadyStudy {
 public:
  SteadyStudy(const model::Farm& farm, const SteadyOptions& options)
      : farm_(farm), options_(options), units_(options.units.value_or(farm.show)) {}

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
    refuse_unsolved();
    find_broken_trough(network);
    if (answer_.problems.empty()) {
      if (options_.load_case == LoadCase::Static) {
        study_static(surroundings, network);
      } else {
        study_flow(surroundings, network);
      }
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

  void refuse_unsolved() {
    for (const model::UnsolvedKey& key : farm_.unsolved) {
      Diagnostic problem;
      problem.code = "not-solved-yet";
      problem.file = farm_.file;
      problem.position = key.position;
      problem.text = fmt::format("{} belongs to a capability this version does not have", key.what);
      problem.hint = "take it out of a copy of the file to solve the rest";
      answer_.problems.push_back(problem);
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

  std::vector<std::optional<StaticPressure>> static_pressures(const FlowState& state) const {
    return highest_static_pressures(farm_,
                                    *state.network,
                                    state.surroundings,
                                    static_heads_m(farm_, *state.network, answer_.month));
  }

  void study_flow(const Surroundings& surroundings, NetworkOptions network) {
    Happenings happenings;
    FlowState state = solve_flow(farm_, surroundings, network);
    int iterations = state.solution.report.iterations;
    // Every round shuts a line or opens a tee that the next ones keep, so there are at most as many
    // rounds as pipes and tees.
    while (state.solution.report.is_usable()) {
      const std::vector<BrokenLine> broken = lines_that_break(state);
      const std::vector<DrawingTee> drawing =
          broken.empty() ? tees_that_draw_air(state) : std::vector<DrawingTee>{};
      if (broken.empty() && drawing.empty()) {
        break;
      }
      for (const BrokenLine& line : broken) {
        network.broken_pipes.insert(line.pipe);
        happenings.broken_lines.push_back(line);
      }
      for (const DrawingTee& tee : drawing) {
        network.opened_tees.insert(tee.tee);
        happenings.drawing_tees.push_back(tee);
      }
      state = solve_flow(farm_, surroundings, network);
      iterations += state.solution.report.iterations;
    }
    answer_.iterations = iterations;
    answer_.report = state.solution.report;
    if (!state.solution.report.is_usable()) {
      report_failure(state);
      return;
    }
    answer_.converged = true;
    note_rounds(happenings);
    answer_.places = place_answers(state);
    answer_.pipes = pipe_answers(state);
    judge(state, happenings, static_pressures(state), units_, answer_);
    note_broken_float(state);
    state_ = std::move(state);
  }

  void note_rounds(const Happenings& happenings) {
    const std::size_t rounds = happenings.broken_lines.size() + happenings.drawing_tees.size();
    if (rounds == 0) {
      return;
    }
    answer_.notes.push_back(
        fmt::format("solved again with {} line{} broken and {} tee{} open to "
                    "the air",
                    happenings.broken_lines.size(),
                    happenings.broken_lines.size() == 1 ? "" : "s",
                    happenings.drawing_tees.size(),
                    happenings.drawing_tees.size() == 1 ? "" : "s"));
  }

  /// With a float hanging open: what runs to waste and how far the water that feeds it falls.
  void note_broken_float(const FlowState& state) {
    const std::size_t trough = state.options.broken_trough;
    if (trough == no_index) {
      return;
    }
    const PlaceAnswer& water = answer_.places[trough];
    const double lost = std::max(0.0, water.delivered_m3_s - water.need_m3_s.value_or(0.0));
    answer_.notes.push_back(
        fmt::format("the float of {} hangs open: {} runs there, {} of it to "
                    "waste ({} a day)",
                    *options_.broken,
                    spoken_flow(water.delivered_m3_s, units_),
                    spoken_flow(lost, units_),
                    spoken_volume(lost * 86400.0, units_)));
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
    answer_.notes.push_back(fmt::format(
        "left alone, {} can fall to {}", farm_.places[place].name, spoken_level(end_m, units_)));
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

  void study_static(const Surroundings& surroundings, const NetworkOptions& network) {
    FlowState state;
    state.farm = &farm_;
    state.surroundings = surroundings;
    state.options = network;
    state.network = network_of(farm_, surroundings, network);
    const auto heads = static_heads_m(farm_, *state.network, answer_.month);
    state.head_known.assign(heads.size(), false);
    state.solution.state.head_m.assign(heads.size(), 0.0);
    state.solution.state.flow_m3_s.assign(state.network->problem.edges.size(), 0.0);
    for (std::size_t i = 0; i < heads.size(); ++i) {
      if (heads[i]) {
        state.head_known[i] = true;
        state.solution.state.head_m[i] = *heads[i];
        state.network->problem.nodes[i].fixed_head_m = *heads[i];
      }
    }
    answer_.converged = true;
    answer_.iterations = 0;
    answer_.places = place_answers(state);
    answer_.pipes = pipe_answers(state);
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      PlaceAnswer& place = answer_.places[i];
      place.met.reset();
      place.delivered_m3_s = 0.0;
      place.spill_m3_s = place.spill_m3_s ? std::optional<double>(0.0) : std::nullopt;
    }
    judge(state, {}, static_pressures(state), units_, answer_);
    state_ = std::move(state);
  }

  const model::Farm& farm_;
  const SteadyOptions& options_;
  model::UnitSystem units_;
  SteadyAnswer answer_;
  FlowState state_;  // the last round's
};

}  // namespace

SteadyAnswer solve_steady(const model::Farm& farm, const SteadyOptions& options) {
  return solve_steady_state(farm, options).answer;
}

SteadyState solve_steady_state(const model::Farm& farm, const SteadyOptions& options) {
  return SteadyStudy(farm, options).study();
}

}  // namespace leat::solver
