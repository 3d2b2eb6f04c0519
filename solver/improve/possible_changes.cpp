#include "solver/improve/possible_changes.h"

#include <string>

#include "model/catalogue/need.h"

namespace leat::solver {

namespace {

/// "1 in SIDR 15" of "1 in SIDR 15, 100 psi".
std::string without_rating(const std::string& size) {
  return size.substr(0, size.find(','));
}

}  // namespace

std::vector<Change> possible_changes(const ChangeAim& aim) {
  std::vector<Change> changes;
  add_pipe_changes(aim, changes);
  add_fitting_changes(aim, changes);
  add_place_changes(aim, changes);
  add_air_changes(aim, changes);
  add_hour_changes(aim, changes);
  return changes;
}

std::optional<double> pipe_cost(const model::Farm& farm,
                                const model::PipeSize& size,
                                Length length) {
  const model::PipePrice* found = nullptr;
  for (const model::PipePrice& price : farm.pipe_prices) {
    if (price.size == size.text) {
      return price.per_metre * in_metres(length);
    }
    if (without_rating(price.size) == without_rating(size.text)) {
      found = &price;
    }
  }
  return found == nullptr ? std::nullopt : std::optional(found->per_metre * in_metres(length));
}

std::optional<double> fitting_cost(const model::Farm& farm, const std::string& name) {
  for (const model::FittingPrice& price : farm.fitting_prices) {
    if (price.fitting == name) {
      return price.each;
    }
  }
  return std::nullopt;
}

std::optional<double> nothing_bought(const model::Farm& farm) {
  const bool has_prices = !farm.pipe_prices.empty() || !farm.fitting_prices.empty();
  return has_prices ? std::optional(0.0) : std::nullopt;
}

std::optional<double> trough_need_m3_s(const model::Farm& farm,
                                       std::size_t place,
                                       std::optional<model::Month> month) {
  const auto* const trough = std::get_if<model::Trough>(&farm.places[place].data);
  if (trough == nullptr) {
    return std::nullopt;
  }
  const std::optional<Flow> need = model::need_rate(*trough, farm.air, month);
  return need ? std::optional(in_cubic_metres_per_second(*need)) : std::nullopt;
}

}  // namespace leat::solver
