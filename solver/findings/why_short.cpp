#include "solver/findings/why_short.h"

#include <cmath>
#include <optional>
#include <span>
#include <utility>

#include "solver/findings/largest_loss.h"

namespace leat::solver {

namespace {

constexpr double drawn_down_m = 1e-3;

class ReasonFinder {
 public:
  ReasonFinder(const FlowState& state, std::size_t place, const std::vector<BrokenLine>& broken)
      : state_(state), farm_(*state.farm), place_(place), broken_(broken) {}

  Reason find() {
    const std::size_t pipe = feeding_pipe();
    if (pipe == no_index) {
      return NoPipe{};
    }
    const std::optional<double> head = state_.head_m(state_.network->places[place_].node);
    if (head && state_.is_running(pipe)) {
      if (std::optional<SpringsShort> springs = springs_short()) {
        return *std::move(springs);
      }
      return largest_loss(state_, place_, *head);
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

  double level_m() const { return in_metres(model::level_of(place_at(place_), std::nullopt)); }

  WaterEnd end() const {
    return model::is_trough(place_at(place_)) ? WaterEnd::Float : WaterEnd::OpenEnd;
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
  std::optional<Reason> obstacle() const {
    std::optional<Reason> by_valve;
    std::optional<Reason> by_one_way;
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
            return siphon_broken(i);
          }
          if (shut) {
            by_valve = ShutValve{pipe.name};
          } else {
            by_one_way = OneWayAgainst{pipe.name};
          }
          continue;
        }
        if (!seen[far] && model::is_tee(place_at(far))) {
          seen[far] = true;
          open.push_back(far);
        }
      }
    }
    return by_valve ? by_valve : by_one_way;
  }

  /// No water stands high enough on any open way to the place.
  Reason out_of_reach(const std::optional<double>& highest) const {
    if (std::optional<Reason> barred = obstacle()) {
      return *std::move(barred);
    }
    if (highest) {
      return TooHigh{.end = end(), .above_m = level_m() - *highest};
    }
    for (const std::size_t pipe : pipes_upstream()) {
      const std::size_t joint = state_.network->pipes[pipe].from_end_edge;
      const std::optional<double> surface =
          surface_m(place_at(farm_.pipes[pipe].from), state_.options.month);
      if (joint != no_index && surface &&
          state_.network->problem.edges[joint].kind == nodal::EdgeKind::Discharge) {
        return DryMouth{.pipe = farm_.pipes[pipe].name,
                        .water = name(farm_.pipes[pipe].from),
                        .above_m = state_.network->problem.edges[joint].level_m - *surface};
      }
    }
    return NoOpenWay{};
  }

  /// Still water could stand high enough, yet nothing runs.
  Reason within_reach(std::size_t pipe, const std::optional<double>& head_m) const {
    for (const std::size_t upstream : pipes_upstream()) {
      if (std::optional<DrySummit> barred = dry_summit(upstream)) {
        return *std::move(barred);
      }
    }
    std::optional<SpringsShort> springs = springs_short();
    if (!head_m || level_m() <= *head_m) {
      for (const std::size_t upstream : pipes_upstream()) {
        const double opening = opening_head_m(upstream);
        if (!state_.is_running(upstream) && opening > 0.0) {
          return CheckStaysShut{.pipe = farm_.pipes[upstream].name, .opening_head_m = opening};
        }
      }
    }
    const std::size_t from = farm_.pipes[pipe].from;
    const std::optional<double> there = state_.head_m(state_.network->places[from].node);
    const double above_m = there ? level_m() - *there : 0.0;
    // Below a box that gave all it has the head is that of the emptied line, not of its water.
    const bool is_of_the_line = springs && model::is_spring(place_at(from));
    if (above_m <= 0.0 || is_of_the_line) {
      if (springs) {
        return *std::move(springs);
      }
      return obstacle().value_or(NoHeadLeft{});
    }
    return AboveRunningWater{.end = end(),
                             .above_m = above_m,
                             .at = name(from),
                             .at_tee = model::is_tee(place_at(from)),
                             .springs = std::move(springs)};
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
        if (!seen[from] && model::is_tee(place_at(from))) {
          seen[from] = true;
          open.push_back(from);
        }
      }
    }
    return found;
  }

  /// The summit of a still pipe over which the air cannot push the water.
  std::optional<DrySummit> dry_summit(std::size_t pipe) const {
    if (state_.is_running(pipe)) {
      return std::nullopt;
    }
    const PipeEdges& edges = state_.network->pipes[pipe];
    for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
      const Break& found = edges.cut.breaks[i];
      const std::optional<double> before = state_.head_m(edges.end_node[i]);
      if (found.is_summit && before && state_.is_parted(edges.break_edge[i]) &&
          found.point.elevation_m > *before) {
        return DrySummit{.pipe = farm_.pipes[pipe].name,
                         .above_m = found.point.elevation_m - *before,
                         .is_vented = found.kind == Break::Kind::Vent};
      }
    }
    return std::nullopt;
  }

  BrokenSiphon siphon_broken(std::size_t pipe) const {
    BrokenSiphon broken{.pipe = farm_.pipes[pipe].name, .cause = {}};
    for (const BrokenLine& line : broken_) {
      if (line.pipe == pipe) {
        broken.cause = {.spring = name(line.spring),
                        .high_pipe = farm_.pipes[line.high_pipe].name,
                        .below_m = line.high_elevation_m - line.intake_m};
        break;
      }
    }
    return broken;
  }

  double opening_head_m(std::size_t pipe) const {
    double sum = 0.0;
    for (const Stretch& stretch : state_.network->pipes[pipe].cut.stretches) {
      sum += stretch.opening_head_m;
    }
    return sum;
  }

  /// The springs that feed the place, where every source on the running way to it is a spring that
  /// gives all it has.
  std::optional<SpringsShort> springs_short() const {
    std::vector<bool> seen(farm_.places.size(), false);
    std::vector<std::size_t> open{place_};
    seen[place_] = true;
    SpringsShort found;
    while (!open.empty()) {
      const std::size_t here = open.back();
      open.pop_back();
      if (model::is_open_water(place_at(here))) {
        if (!is_exhausted(state_, here)) {
          return std::nullopt;
        }
        const model::MonthSeries<Flow>& yield = *model::yield_of(place_at(here));
        found.yield_m3_s += in_cubic_metres_per_second(yield.at(state_.options.month));
        found.springs.push_back(name(here));
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
    return found.springs.empty() ? std::nullopt : std::optional(std::move(found));
  }

  const FlowState& state_;
  const model::Farm& farm_;
  std::size_t place_;
  const std::vector<BrokenLine>& broken_;
};

}  // namespace

bool is_exhausted(const FlowState& state, std::size_t place) {
  const model::Place& spring = state.farm->places[place];
  if (!model::is_spring(spring)) {
    return false;
  }
  const PlaceNode& node = state.network->places[place];
  const double yield = in_cubic_metres_per_second(model::yield_of(spring)->at(state.options.month));
  const double taken = state.flow_m3_s(node.supply_edge);
  const std::optional<double> head = state.head_m(node.node);
  return taken >= yield * (1.0 - 1e-6) - 1e-15 &&
         (!head || *head < in_metres(model::level_of(spring, std::nullopt)) - drawn_down_m);
}

Reason why_short(const FlowState& state, std::size_t place, const std::vector<BrokenLine>& broken) {
  return ReasonFinder(state, place, broken).find();
}

}  // namespace leat::solver
