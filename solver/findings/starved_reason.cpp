#include "solver/findings/starved_reason.h"

#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/quantity/spoken_amount.h"
#include "solver/findings/why_short.h"
#include "solver/hydraulics/friction.h"
#include "solver/hydraulics/head_loss.h"

namespace leat::solver {

namespace {

/// One thing on the way that takes head from the water.
struct Toll {
  double head_m = 0.0;
  std::string text;  // what it is, as the subject of "takes most of the fall"
};

class StarvedReason {
 public:
  StarvedReason(const FlowState& state,
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
    if (head && state_.is_running(pipe)) {
      const std::string spring = exhausted_spring();
      return spring.empty() ? largest_toll(*head) : spring;
    }
    const std::optional<double>& highest =
        state_.static_head_m[state_.network->places[place_].node];
    if (!highest || *highest < level_m()) {
      return out_of_reach(highest);
    }
    return within_reach(pipe, head);
  }

 private:
  const model::Place& place_at(std::size_t index) const { return farm_.places[index]; }
  const std::string& name(std::size_t index) const { return farm_.places[index].name; }
  std::span<const std::size_t> pipes_of(std::size_t place) const {
    return state_.network->pipes_of.at(place);
  }

  std::size_t feeding_pipe() const {
    for (const std::size_t i : pipes_of(place_)) {
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

  /// Whether open water that stands above this place lies at the far end of a barred
  /// pipe or beyond it.
  bool water_behind(std::size_t barred, std::size_t far) const {
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{far};
    seen[far] = true;
    while (!open.empty()) {
      const std::size_t here = open.back();
      open.pop_back();
      const std::optional<double> surface = surface_m(place_at(here), state_.options.month);
      if (surface && *surface > level_m()) {
        return true;
      }
      for (const std::size_t i : pipes_of(here)) {
        const model::Pipe& pipe = farm_.pipes[i];
        const bool joins = i != barred;
        const std::size_t next = pipe.to == here ? pipe.from : pipe.to;
        if (joins && !seen[next] && next != place_) {
          seen[next] = true;
          open.push_back(next);
        }
      }
    }
    return false;
  }

  /// What bars the way to water high enough, looking outward from the place: a broken siphon first,
  /// then a shut valve, then a one-way that points the other way.
  std::string obstacle() const {
    std::string by_valve;
    std::string by_one_way;
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{place_};
    seen[place_] = true;
    while (!open.empty()) {
      const std::size_t here = open.back();
      open.pop_back();
      for (const std::size_t i : pipes_of(here)) {
        const model::Pipe& pipe = farm_.pipes[i];
        const PipeEdges& edges = state_.network->pipes[i];
        const std::size_t far = pipe.to == here ? pipe.from : pipe.to;
        const bool shut = has_shut_valve(edges.cut);
        const bool against = pipe.from == here && is_one_way(edges.cut);
        if (is_broken(i) || shut || against) {
          if (!water_behind(i, far)) {
            continue;
          }
          if (is_broken(i)) {
            return broken_text(i);
          }
          (shut ? by_valve : by_one_way) =
              shut ? fmt::format("the valve on {} is shut", pipe.name)
                   : fmt::format("the one-way on {} lets no water come this way", pipe.name);
          continue;
        }
        if (!seen[far] && std::holds_alternative<model::Tee>(place_at(far).data)) {
          seen[far] = true;
          open.push_back(far);
        }
      }
    }
    return by_valve.empty() ? by_one_way : by_valve;
  }

  /// No water stands high enough on any open way to the place.
  std::string out_of_reach(const std::optional<double>& highest) const {
    const std::string barred = obstacle();
    if (!barred.empty()) {
      return barred;
    }
    if (highest) {
      return fmt::format("too high: {} stands {} above the highest water that can reach it",
                         end_word(),
                         spoken_length(level_m() - *highest, units_));
    }
    for (const std::size_t pipe : pipes_upstream()) {
      const std::size_t joint = state_.network->pipes[pipe].from_end_edge;
      const std::optional<double> surface =
          surface_m(place_at(farm_.pipes[pipe].from), state_.options.month);
      if (joint != no_index && surface &&
          state_.network->problem.edges[joint].kind == nodal::EdgeKind::Discharge) {
        return fmt::format(
            "the mouth of {} stands {} above the water of {}",
            farm_.pipes[pipe].name,
            spoken_length(state_.network->problem.edges[joint].level_m - *surface, units_),
            name(farm_.pipes[pipe].from));
      }
    }
    return "no open way joins it to water";
  }

  /// Still water could stand high enough, yet nothing runs.
  std::string within_reach(std::size_t pipe, const std::optional<double>& head_m) const {
    for (const std::size_t upstream : pipes_upstream()) {
      const std::string barred = dry_summit(upstream);
      if (!barred.empty()) {
        return barred;
      }
    }
    const std::string spring = exhausted_spring();
    if (!head_m || level_m() <= *head_m) {
      for (const std::size_t upstream : pipes_upstream()) {
        const double opening = opening_head_m(upstream);
        if (!state_.is_running(upstream) && opening > 0.0) {
          return fmt::format("what fall there is does not open the check on {}, which takes {}",
                             farm_.pipes[upstream].name,
                             spoken_length(opening, units_));
        }
      }
    }
    const std::size_t from = farm_.pipes[pipe].from;
    const std::optional<double> there = state_.head_m(state_.network->places[from].node);
    const double above_m = there ? level_m() - *there : 0.0;
    // Below a box that gave all it has the head is that of the emptied line, not of its water.
    const bool is_of_the_line =
        !spring.empty() && std::holds_alternative<model::Spring>(place_at(from).data);
    if (above_m <= 0.0 || is_of_the_line) {
      const std::string barred = obstacle();
      return !spring.empty() ? spring : !barred.empty() ? barred : "no head is left for it";
    }
    const std::string where = std::holds_alternative<model::Tee>(place_at(from).data)
                                  ? fmt::format("the running grade line at {}", name(from))
                                  : fmt::format("the water of {}", name(from));
    return fmt::format("{} stands {} above {}{}",
                       end_word(),
                       spoken_length(above_m, units_),
                       where,
                       spring.empty() ? "" : "; " + spring);
  }

  /// Pipes through which water would come to the place, nearest first, as they are written.
  std::vector<std::size_t> pipes_upstream() const {
    std::vector<std::size_t> found;
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{place_};
    seen[place_] = true;
    for (std::size_t next = 0; next < open.size(); ++next) {
      for (const std::size_t i : pipes_of(open[next])) {
        if (farm_.pipes[i].to != open[next]) {
          continue;
        }
        found.push_back(i);
        const std::size_t from = farm_.pipes[i].from;
        if (!seen[from] && std::holds_alternative<model::Tee>(place_at(from).data)) {
          seen[from] = true;
          open.push_back(from);
        }
      }
    }
    return found;
  }

  /// "the summit of main stands 15 m above the water of c ...", where a still pipe has a summit
  /// over which the air cannot push the water.
  std::string dry_summit(std::size_t pipe) const {
    if (state_.is_running(pipe)) {
      return "";
    }
    const PipeEdges& edges = state_.network->pipes[pipe];
    for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
      const Break& found = edges.cut.breaks[i];
      const std::optional<double> before = state_.head_m(edges.end_node[i]);
      if (found.is_summit && before && state_.is_parted(edges.break_edge[i]) &&
          found.point.elevation_m > *before) {
        return fmt::format(
            "no water comes over the summit of {}: it stands {} above the water "
            "before it, higher than {} can lift",
            farm_.pipes[pipe].name,
            spoken_length(found.point.elevation_m - *before, units_),
            found.kind == Break::Kind::Vent ? "a vented line" : "the air's pressure");
      }
    }
    return "";
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
      for (const std::size_t i : pipes_of(here)) {
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
      for (const std::size_t i : pipes_of(here)) {
        const model::Pipe& pipe = farm_.pipes[i];
        const bool open_still = std::abs(state_.pipe_flow_m3_s(i)) <= still_flow_m3_s &&
                                !is_broken(i) && !has_shut_valve(state_.network->pipes[i].cut);
        const bool comes =
            pipe.to == here && (state_.pipe_flow_m3_s(i) > still_flow_m3_s || open_still);
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
    if (yield <= 0.0) {
      return springs == 1 ? fmt::format("spring short: {} yields nothing", name(spring))
                          : "springs short: none that feeds it yields anything";
    }
    if (springs == 1) {
      return fmt::format("spring short: {} yields {} and the line takes all of it",
                         name(spring),
                         spoken_flow(yield, units_));
    }
    return fmt::format(
        "springs short: the {} that feed it yield {} together and the lines take "
        "all of it",
        springs,
        spoken_flow(yield, units_));
  }

  std::string largest_toll(double head_m) const {
    std::vector<Toll> tolls{{head_m - level_m(), seat_text()}};
    for (const std::size_t index : route_upstream()) {
      add_pipe_tolls(index, tolls);
    }
    double fall_m = 0.0;
    for (const Toll& toll : tolls) {
      fall_m += toll.head_m;
    }
    const auto less = [](const Toll& a, const Toll& b) { return a.head_m < b.head_m; };
    const Toll& largest = *std::max_element(tolls.begin(), tolls.end(), less);
    return fmt::format("{} takes {} of the fall ({} of the {} there is)",
                       largest.text,
                       largest.head_m > 0.5 * fall_m ? "most" : "the largest part",
                       spoken_length(largest.head_m, units_),
                       spoken_length(fall_m, units_));
  }

  std::string seat_text() const {
    const auto* trough = std::get_if<model::Trough>(&place_at(place_).data);
    if (trough != nullptr && trough->seat) {
      const std::string size = units_ == model::UnitSystem::Us
                                   ? fmt::format("{:.2f} in", in_inches(*trough->seat))
                                   : fmt::format("{:.1f} mm", in_millimetres(*trough->seat));
      return fmt::format("the float's seat is too small: at {} it", size);
    }
    return trough != nullptr ? "the float valve" : "the opening at its end";
  }

  void add_pipe_tolls(std::size_t index, std::vector<Toll>& tolls) const {
    const model::Pipe& pipe = farm_.pipes[index];
    const PipeEdges& edges = state_.network->pipes[index];
    const double flow = state_.pipe_flow_m3_s(index);
    double total = 0.0;
    double friction = 0.0;
    for (std::size_t i = 0; i < edges.stretch_edge.size(); ++i) {
      const nodal::Loss loss = state_.network->problem.loss(edges.stretch_edge[i], flow);
      total += loss.loss_m + (flow > 0.0 ? edges.cut.stretches[i].opening_head_m : 0.0);
      friction += hydraulics::friction_loss(edges.cut.stretches[i].friction, flow).loss_m;
    }
    total = std::abs(total);
    friction = std::min(total, std::abs(friction));
    double fittings = total - friction;
    if (pipe.valve && !pipe.valve->shut && pipe.valve->open < 1.0) {
      const double velocity_head = hydraulics::velocity_head_m(in_metres(pipe.size.bore), flow);
      const double k =
          model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore);
      const double valve = std::min(fittings, k * velocity_head);
      tolls.push_back(
          {valve,
           fmt::format(
               "the valve on {}, only {:.3g} % open,", pipe.name, 100.0 * pipe.valve->open)});
      fittings -= valve;
    }
    tolls.push_back({fittings, fmt::format("what stands in {} (fittings and ends)", pipe.name)});
    tolls.push_back({friction,
                     fmt::format("too far for its pipe: {} of {} in {}",
                                 spoken_length(in_metres(pipe.length), units_),
                                 pipe.size.text,
                                 pipe.name)});
    for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
      const std::optional<double> before = state_.head_m(edges.end_node[i]);
      const std::optional<double> after = state_.head_m(edges.start_node[i + 1]);
      if (edges.cut.breaks[i].kind == Break::Kind::Regulator && before && after) {
        tolls.push_back(
            {std::abs(*before - *after), fmt::format("the regulator on {}", pipe.name)});
      }
    }
  }

  const FlowState& state_;
  const model::Farm& farm_;
  std::size_t place_;
  const std::vector<BrokenLine>& broken_;
  model::UnitSystem units_;
};

}  // namespace

std::string starved_reason(const FlowState& state,
                           std::size_t place,
                           const std::vector<BrokenLine>& broken,
                           model::UnitSystem units) {
  return StarvedReason(state, place, broken, units).find();
}

}  // namespace leat::solver
