#include "solver/starved_reason.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/fitting_catalogue.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/spoken_amount.h"
#include "solver/static_heads.h"

namespace leat::solver {

namespace {

constexpr double drawn_down_m = 1e-3;

/// One thing on the way that takes head from the water.
struct Toll {
  double head_m = 0.0;
  std::string text;  // "{taken} of the {fall}" is put in by the caller
};

class ReasonFinder {
 public:
  ReasonFinder(const FlowState& state,
               std::size_t place,
               const std::vector<BrokenLine>& broken,
               model::UnitSystem units)
      : state_(state), farm_(*state.farm), place_(place), broken_(broken), units_(units) {}

  std::string find() {
    const std::size_t pipe = feeding_pipe();
    if (pipe == no_index) {
      return "no pipe leads to it";
    }
    const std::optional<double> head = state_.head_m(state_.network->places[place_].node);
    const std::string obstacle = obstacle_upstream();
    if (!head) {
      return obstacle.empty() ? "nothing that holds water is joined to it" : obstacle;
    }
    if (!state_.is_running(pipe)) {
      return too_high(pipe, *head, obstacle);
    }
    const std::string spring = exhausted_spring();
    if (!spring.empty()) {
      return spring;
    }
    return largest_toll(*head);
  }

 private:
  const model::Place& place_at(std::size_t index) const { return farm_.places[index]; }
  const std::string& name(std::size_t index) const { return farm_.places[index].name; }

  std::size_t feeding_pipe() const {
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (farm_.pipes[i].to == place_) {
        return i;
      }
    }
    return no_index;
  }

  double level_m() const {
    const model::PlaceData& data = place_at(place_).data;
    if (const auto* trough = std::get_if<model::Trough>(&data)) {
      return in_metres(trough->float_level);
    }
    return in_metres(std::get<model::Outlet>(data).level);
  }

  std::string end_word() const {
    return std::holds_alternative<model::Trough>(place_at(place_).data) ? "its float" : "its end";
  }

  bool is_broken(std::size_t pipe) const { return state_.options.broken_pipes.contains(pipe); }

  static bool has_shut_valve(const PipeEdges& edges) {
    const auto shut = [](const Break& found) { return found.kind == Break::Kind::ShutValve; };
    return std::any_of(edges.cut.breaks.begin(), edges.cut.breaks.end(), shut);
  }

  static bool is_one_way(const PipeEdges& edges) {
    const auto holds = [](const Stretch& stretch) { return stretch.one_way; };
    return std::any_of(edges.cut.stretches.begin(), edges.cut.stretches.end(), holds);
  }

  /// What bars the way to water, looking outward from the place through still and running pipes:
  /// a broken siphon first, then a shut valve, then a one-way that points the other way.
  std::string obstacle_upstream() const {
    std::string by_valve;
    std::string by_one_way;
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{place_};
    seen[place_] = true;
    while (!open.empty()) {
      const std::size_t here = open.back();
      open.pop_back();
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        const model::Pipe& pipe = farm_.pipes[i];
        const PipeEdges& edges = state_.network->pipes[i];
        if (pipe.to != here && pipe.from != here) {
          continue;
        }
        if (is_broken(i)) {
          return broken_text(i);
        }
        if (has_shut_valve(edges)) {
          by_valve = fmt::format("the valve on {} is shut", pipe.name);
          continue;
        }
        if (pipe.from == here && is_one_way(edges)) {
          by_one_way = fmt::format("the one-way on {} lets no water come this way", pipe.name);
          continue;
        }
        const std::size_t far = pipe.to == here ? pipe.from : pipe.to;
        if (!seen[far] && std::holds_alternative<model::Tee>(place_at(far).data)) {
          seen[far] = true;
          open.push_back(far);
        }
      }
    }
    return by_valve.empty() ? by_one_way : by_valve;
  }

  std::string broken_text(std::size_t pipe) const {
    for (const BrokenLine& line : broken_) {
      if (line.pipe == pipe) {
        return fmt::format(
            "the siphon {} has broken: {} drew down to its intake, {} below the "
            "high point of {}",
            farm_.pipes[pipe].name,
            name(line.spring),
            spoken_length(line.high_elevation_m - line.intake_m, units_),
            farm_.pipes[line.high_pipe].name);
      }
    }
    return fmt::format("the siphon {} has broken", farm_.pipes[pipe].name);
  }

  std::string too_high(std::size_t pipe, double head_m, const std::string& obstacle) const {
    const std::size_t from = farm_.pipes[pipe].from;
    const std::optional<double> there = state_.head_m(state_.network->places[from].node);
    const double grade_m = there.value_or(head_m);
    const double above_m = level_m() - grade_m;
    if (above_m <= 0.0) {
      const double opening = opening_head_m(pipe);
      if (opening > 0.0) {
        return fmt::format(
            "the {} that stands over {} does not open the check on {}, which "
            "takes {}",
            spoken_length(-above_m, units_),
            end_word(),
            farm_.pipes[pipe].name,
            spoken_length(opening, units_));
      }
      return obstacle.empty() ? "no head is left for it" : obstacle;
    }
    if (!obstacle.empty() && would_reach_without(obstacle)) {
      return obstacle;
    }
    const auto statics = static_heads_m(farm_, *state_.network, state_.options.month);
    const std::optional<double>& highest = statics[state_.network->places[place_].node];
    if (highest && *highest < level_m()) {
      return fmt::format("too high: {} stands {} above the highest water that can reach it",
                         end_word(),
                         spoken_length(level_m() - *highest, units_));
    }
    const std::string where = std::holds_alternative<model::Tee>(place_at(from).data)
                                  ? fmt::format("the running grade line at {}", name(from))
                                  : fmt::format("the water of {}", name(from));
    const std::string spring = exhausted_spring();
    return fmt::format("{} stands {} above {}{}",
                       end_word(),
                       spoken_length(above_m, units_),
                       where,
                       spring.empty() ? "" : "; " + spring);
  }

  /// Whether a broken siphon or a one-way is the reason although the place's own stretch still
  /// holds water: only then does naming it explain anything.
  bool would_reach_without(const std::string& obstacle) const {
    return obstacle.find("broken") != std::string::npos ||
           obstacle.find("is shut") != std::string::npos;
  }

  double opening_head_m(std::size_t pipe) const {
    double sum = 0.0;
    for (const Stretch& stretch : state_.network->pipes[pipe].cut.stretches) {
      sum += stretch.opening_head_m;
    }
    return sum;
  }

  /// Follows the flow upstream from the place. Stops at open water.
  std::vector<std::size_t> route_upstream() const {
    std::vector<std::size_t> route;
    std::size_t here = place_;
    for (std::size_t guard = 0; guard < farm_.pipes.size(); ++guard) {
      std::size_t best = no_index;
      double most = still_flow_m3_s;
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        const double flow = state_.pipe_flow_m3_s(i);
        const bool enters = (farm_.pipes[i].to == here && flow > most) ||
                            (farm_.pipes[i].from == here && -flow > most);
        if (enters) {
          best = i;
          most = std::abs(flow);
        }
      }
      if (best == no_index) {
        break;
      }
      route.push_back(best);
      here = farm_.pipes[best].to == here ? farm_.pipes[best].from : farm_.pipes[best].to;
      if (model::is_open_water(place_at(here))) {
        break;
      }
    }
    return route;
  }

  /// "spring upper yields only 0.9 gal/min, all of which runs", when every source on the running
  /// way to the place is a spring that gives all it has.
  std::string exhausted_spring() const {
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{place_};
    seen[place_] = true;
    std::size_t spring = no_index;
    double yield = 0.0;
    int springs = 0;
    while (!open.empty()) {
      const std::size_t here = open.back();
      open.pop_back();
      if (model::is_open_water(place_at(here))) {
        if (!is_exhausted(state_, here)) {
          return "";
        }
        const auto& data = std::get<model::Spring>(place_at(here).data);
        yield += in_cubic_metres_per_second(data.yield.at(state_.options.month));
        spring = here;
        ++springs;
        continue;
      }
      for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
        const model::Pipe& pipe = farm_.pipes[i];
        const bool comes =
            pipe.to == here && (state_.pipe_flow_m3_s(i) > still_flow_m3_s || here == place_);
        const bool comes_back = pipe.from == here && state_.pipe_flow_m3_s(i) < -still_flow_m3_s;
        const std::size_t far = comes ? pipe.from : pipe.to;
        if ((comes || comes_back) && !seen[far]) {
          seen[far] = true;
          open.push_back(far);
        }
      }
    }
    if (springs == 0) {
      return "";
    }
    if (springs == 1) {
      return fmt::format("spring short: {} yields {} and the line takes all of it",
                         name(spring),
                         yield > 0.0 ? spoken_flow(yield, units_) : "nothing");
    }
    return fmt::format(
        "springs short: the {} that feed it yield {} together and the lines take "
        "all of it",
        springs,
        spoken_flow(yield, units_));
  }

  std::string largest_toll(double head_m) const {
    std::vector<Toll> tolls;
    const double seat_m = head_m - level_m();
    tolls.push_back({seat_m, seat_text()});
    double fall_m = seat_m;
    for (const std::size_t index : route_upstream()) {
      fall_m += std::abs(add_pipe_tolls(index, tolls));
    }
    const auto largest =
        std::max_element(tolls.begin(), tolls.end(), [](const Toll& a, const Toll& b) {
          return a.head_m < b.head_m;
        });
    return fmt::format("{} ({} of the {} there is)",
                       largest->text,
                       spoken_length(largest->head_m, units_),
                       spoken_length(fall_m, units_));
  }

  std::string seat_text() const {
    const model::PlaceData& data = place_at(place_).data;
    if (const auto* trough = std::get_if<model::Trough>(&data)) {
      if (trough->seat) {
        const std::string size = units_ == model::UnitSystem::Us
                                     ? fmt::format("{:.2f} in", in_inches(*trough->seat))
                                     : fmt::format("{:.1f} mm", in_millimetres(*trough->seat));
        return fmt::format("the float's seat is too small: {} takes most of the fall", size);
      }
      return "the float valve takes most of the fall";
    }
    return "the opening at its end takes most of the fall";
  }

  double add_pipe_tolls(std::size_t index, std::vector<Toll>& tolls) const {
    const model::Pipe& pipe = farm_.pipes[index];
    const PipeEdges& edges = state_.network->pipes[index];
    const double flow = state_.pipe_flow_m3_s(index);
    double total = 0.0;
    for (std::size_t i = 0; i < edges.stretch_edge.size(); ++i) {
      const nodal::Loss loss = state_.network->problem.loss(edges.stretch_edge[i], flow);
      total += loss.loss_m + (flow > 0.0 ? edges.cut.stretches[i].opening_head_m : 0.0);
    }
    total = std::abs(total);
    const double velocity_head = hydraulics::velocity_head_m(in_metres(pipe.size.bore), flow);
    double rest = total;
    if (pipe.valve && !pipe.valve->shut && pipe.valve->open < 1.0) {
      const double valve = std::min(
          rest,
          model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore) *
              velocity_head);
      tolls.push_back({valve,
                       fmt::format("the valve on {} is only {:.0f} % open and takes most of the "
                                   "fall",
                                   pipe.name,
                                   100.0 * pipe.valve->open)});
      rest -= valve;
    }
    tolls.push_back({rest,
                     fmt::format("too far for its pipe: {} of {} in {} takes most of the fall",
                                 spoken_length(in_metres(pipe.length), units_),
                                 pipe.size.text,
                                 pipe.name)});
    return total;
  }

  const FlowState& state_;
  const model::Farm& farm_;
  std::size_t place_;
  const std::vector<BrokenLine>& broken_;
  model::UnitSystem units_;
};

}  // namespace

bool is_exhausted(const FlowState& state, std::size_t place) {
  const auto* spring = std::get_if<model::Spring>(&state.farm->places[place].data);
  if (spring == nullptr) {
    return false;
  }
  const PlaceNode& node = state.network->places[place];
  const double yield = in_cubic_metres_per_second(spring->yield.at(state.options.month));
  const double taken = state.flow_m3_s(node.supply_edge);
  const std::optional<double> head = state.head_m(node.node);
  return taken >= yield * (1.0 - 1e-6) - 1e-15 &&
         (!head || *head < in_metres(spring->overflow) - drawn_down_m);
}

std::string starved_reason(const FlowState& state,
                           std::size_t place,
                           const std::vector<BrokenLine>& broken,
                           model::UnitSystem units) {
  return ReasonFinder(state, place, broken, units).find();
}

}  // namespace leat::solver
