#include "solver/improve/shortlist.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "solver/sensitivities.h"

namespace leat::solver {

namespace {

/// Weight of water gained anywhere beside that at the place asked for.
constexpr double weight_of_all = 1e-3;
/// Weight of a head at a place that gets no water, as a flow per metre.
constexpr double flow_per_head_m2_s = 1e-4;

std::vector<InputSensitivity> by_inputs(const ChangeAim& aim, const FlowState& state) {
  FarmSensitivities sensitivities(state);
  std::vector<InputSensitivity> found = sensitivities.of(sensitivities.delivered(aim.place));
  const auto is_nothing = [](const InputSensitivity& one) { return one.by_amount == 0.0; };
  if (!found.empty() && !std::all_of(found.begin(), found.end(), is_nothing)) {
    nodal::Aim all;
    for (std::size_t i = 0; i < aim.farm->places.size(); ++i) {
      if (!model::is_open_water(aim.farm->places[i])) {
        const nodal::Aim one = sensitivities.delivered(i);
        all.flows.insert(all.flows.end(), one.flows.begin(), one.flows.end());
      }
    }
    const std::vector<InputSensitivity> beside = sensitivities.of(all);
    for (std::size_t i = 0; i < beside.size(); ++i) {
      found[i].by_amount += weight_of_all * beside[i].by_amount;
    }
    return found;
  }
  // No water comes: then what lifts the head there.
  const std::size_t node = state.network->places[aim.place].node;
  if (node == no_index || !state.head_m(node)) {
    return {};
  }
  found = sensitivities.of(nodal::aim_at_head(node));
  for (InputSensitivity& one : found) {
    one.by_amount *= flow_per_head_m2_s;
  }
  return std::all_of(found.begin(), found.end(), is_nothing) ? std::vector<InputSensitivity>()
                                                             : found;
}

double derivative(const std::vector<InputSensitivity>& found, InputKind kind, std::size_t index) {
  for (const InputSensitivity& one : found) {
    if (one.input.kind == kind && one.input.index == index) {
      return one.by_amount;
    }
  }
  return 0.0;
}

double estimate(const Change& change,
                const std::vector<InputSensitivity>& found,
                const SteadyAnswer& answer) {
  constexpr double always = std::numeric_limits<double>::infinity();
  switch (change.kind) {
    case ChangeKind::Seat:
    case ChangeKind::ValveOpened:
    case ChangeKind::Tank:
    case ChangeKind::Store:
    case ChangeKind::Bleeding:
    case ChangeKind::Hours:
      return always;
    case ChangeKind::WiderPipe:
    case ChangeKind::SecondLine:
    case ChangeKind::ValveSet:
    case ChangeKind::Fitting: {
      if (found.empty()) {
        const std::optional<double>& loss = answer.pipes[*change.pipe].head_loss_m;
        return loss ? std::abs(*loss) * std::abs(answer.pipes[*change.pipe].flow_m3_s) : 0.0;
      }
      if (change.kind == ChangeKind::Fitting) {
        return derivative(found, InputKind::Fittings, *change.pipe) * change.amount;
      }
      const double wider = derivative(found, InputKind::Bore, *change.pipe);
      // Where a wider bore takes water away, a valve part shut gives it back.
      return change.kind == ChangeKind::ValveSet ? -wider : wider * change.amount;
    }
    case ChangeKind::FloatLower:
    case ChangeKind::SourceHigher:
      return change.pipe ? derivative(found, InputKind::EndLevel, *change.pipe) * change.amount
                         : always;
  }
  return always;
}

}  // namespace

std::vector<double> estimated_gains(const ChangeAim& aim,
                                    const FlowState& state,
                                    const std::vector<Change>& changes) {
  const std::vector<InputSensitivity> found = by_inputs(aim, state);
  std::vector<double> gains;
  gains.reserve(changes.size());
  for (const Change& change : changes) {
    gains.push_back(estimate(change, found, *aim.answer));
  }
  return gains;
}

std::vector<std::size_t> most_promising(const std::vector<double>& estimates, std::size_t most) {
  std::vector<std::size_t> order(estimates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return estimates[a] > estimates[b];
  });
  order.resize(std::min(most, order.size()));
  std::sort(order.begin(), order.end());
  return order;
}

}  // namespace leat::solver
