#include "solver/improve/small_changes.h"

#include <algorithm>
#include <cmath>

#include "solver/uncertainty/sensitivities.h"

namespace leat::solver {

namespace {

/// Below this it is nothing: 0.06 mL a minute.
constexpr double least_small_gain_m3_s = 1e-9;

constexpr double tenth = 0.1;

SmallChange small_change(const ChangeAim& aim, const InputSensitivity& one) {
  SmallChange change;
  change.input = one.input;
  if (is_level(one.input.kind)) {
    const double step_m = small_step_m(aim.units);
    change.by = HigherBy{step_m};
    change.gain_m3_s = one.by_amount * step_m;
    return change;
  }
  if (one.input.kind == InputKind::Bore) {
    const model::PipeSize& size = aim.farm->pipes[one.input.index].size;
    if (const auto next = next_size(*aim.farm, size)) {
      change.by = LaidIn{next->text};
      change.gain_m3_s = one.by_amount * std::log(next->bore / size.bore);
      return change;
    }
  }
  change.by = MoreBy{tenth};
  change.gain_m3_s = one.by_amount * std::log(1.0 + tenth);
  return change;
}

}  // namespace

std::vector<SmallChange> small_changes(const ChangeAim& aim, const FlowState& state) {
  FarmSensitivities sensitivities(state);
  std::vector<SmallChange> found;
  for (const InputSensitivity& one : sensitivities.of(sensitivities.delivered(aim.place))) {
    SmallChange change = small_change(aim, one);
    if (std::abs(change.gain_m3_s) > least_small_gain_m3_s) {
      found.push_back(std::move(change));
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const SmallChange& a, const SmallChange& b) {
    return std::abs(a.gain_m3_s) > std::abs(b.gain_m3_s);
  });
  return found;
}

}  // namespace leat::solver
