#include "solver/uncertainty/farm_input.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/flow/place_answers.h"
#include "solver/hydraulics/air_pressure.h"
#include "solver/network/network_of_farm.h"
#include "solver/network/pipe_reaches.h"

namespace leat::solver {

namespace {

/// Beyond this share of the bore the friction law's roughness means nothing.
constexpr double roughest_share = 0.05;
/// An end given this near above the water is an end at the water.
constexpr double least_free_fall_m = 1e-9;

double valve_k(const model::Pipe& pipe) {
  if (!pipe.valve || pipe.valve->shut) {
    return 0.0;
  }
  return model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore);
}

/// Whether the pipe ends free, at a level of its own above the water of a pond or creek.
bool ends_free(const model::Farm& farm,
               const model::Pipe& pipe,
               std::optional<model::Month> month) {
  const model::Place& place = farm.places[pipe.to];
  if (!model::is_natural_water(place) || !pipe.ends) {
    return false;
  }
  const std::optional<double> surface = surface_m(place, month);
  return surface && in_metres(*pipe.ends) > *surface + least_free_fall_m;
}

template <class Value>
void scale(model::MonthSeries<Value>& series,
           const model::MonthSeries<Value>& base,
           double factor) {
  for (std::size_t i = 0; i < series.by_month.size(); ++i) {
    series.by_month[i] = base.by_month[i] * factor;
  }
}

void shift(std::optional<Elevation>& level, const std::optional<Elevation>& base, Length by) {
  if (base) {
    level = *base + by;
  }
}

void set_level(model::Farm& farm, const model::Farm& base, const FarmInput& input, Length by) {
  switch (input.kind) {
    case InputKind::PathLevel:
      farm.pipes[input.index].path[input.point].elevation =
          base.pipes[input.index].path[input.point].elevation + by;
      return;
    case InputKind::EndLevel: {
      model::Pipe& pipe = farm.pipes[input.index];
      shift(pipe.ends, base.pipes[input.index].ends, by);
      if (!pipe.path.empty()) {
        pipe.path.back().elevation = base.pipes[input.index].path.back().elevation + by;
      }
      return;
    }
    default:
      break;
  }
  model::raise_levels(farm.places[input.index], base.places[input.index], by);
  for (const std::size_t pipe : input.starts) {
    farm.pipes[pipe].path.front().elevation = base.pipes[pipe].path.front().elevation + by;
  }
  for (const std::size_t pipe : input.ends) {
    shift(farm.pipes[pipe].ends, base.pipes[pipe].ends, by);
    if (!base.pipes[pipe].path.empty()) {
      farm.pipes[pipe].path.back().elevation = base.pipes[pipe].path.back().elevation + by;
    }
  }
}

void scale_roughness(model::PipeSize& size, const model::PipeSize& base, double factor) {
  if (base.friction_factor) {
    size.friction_factor = *base.friction_factor * factor;
  } else if (base.hazen_williams_c) {
    size.hazen_williams_c = *base.hazen_williams_c * factor;
  } else {
    const double roughest_m =
        std::max(in_metres(base.roughness), roughest_share * in_metres(base.bore));
    size.roughness = metres(std::min(in_metres(base.roughness) * factor, roughest_m));
  }
}

/// The valve's part is a fitting of its own beside it: its table is not what is written here.
void scale_fittings(model::Pipe& pipe, const model::Pipe& base, double factor) {
  const bool has_valve = valve_k(base) > 0.0;
  if (has_valve && pipe.fittings.size() == base.fittings.size()) {
    model::Fitting beside;
    beside.name = "k";
    beside.place = base.valve->place.value_or(model::Placement{});
    pipe.fittings.push_back(beside);
  }
  for (std::size_t i = 0; i < base.fittings.size(); ++i) {
    pipe.fittings[i].loss_coefficient = base.fittings[i].loss_coefficient * factor;
  }
  if (has_valve) {
    pipe.fittings.back().loss_coefficient = valve_k(base) * (factor - 1.0);
  }
}

void scale_heads(model::HerdNeed& herd, const model::HerdNeed& base, double factor) {
  for (std::size_t i = 0; i < herd.herd.size(); ++i) {
    scale(herd.herd[i].heads, base.herd[i].heads, factor);
  }
}

void scale_need(model::Trough& trough, const model::Trough& base, double factor) {
  if (auto* rate = std::get_if<model::RateNeed>(&trough.need)) {
    scale(rate->rate, std::get<model::RateNeed>(base.need).rate, factor);
  } else if (auto* daily = std::get_if<model::DailyNeed>(&trough.need)) {
    scale(daily->per_day, std::get<model::DailyNeed>(base.need).per_day, factor);
  } else if (auto* herd = std::get_if<model::HerdNeed>(&trough.need)) {
    scale_heads(*herd, std::get<model::HerdNeed>(base.need), factor);
  }
}

/// A K is one over the square of a discharge coefficient.
void scale_seat(model::Trough& trough, const model::Trough& base, double factor) {
  const double by_flow = 1.0 / std::sqrt(factor);
  trough.discharge_coefficient = std::min(1.0, base.discharge_coefficient * by_flow);
  if (base.passes) {
    trough.passes->first = base.passes->first * by_flow;
  }
}

Pressure air_pressure_of(const model::Farm& farm) {
  return farm.site.air_pressure.value_or(hydraulics::air_pressure_at(farm.site.altitude));
}

class InputList {
 public:
  InputList(const model::Farm& farm, std::optional<model::Month> month)
      : farm_(farm), month_(month), starts_(farm.places.size()), ends_(farm.places.size()) {}

  std::vector<FarmInput> list() {
    bool has_summits = false;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      const model::Pipe& pipe = farm_.pipes[i];
      has_summits = has_summits || pipe.path.size() > 2;
      if (!pipe.path.empty()) {
        starts_[pipe.from].push_back(i);
      }
      if (!ends_free(farm_, pipe, month_) && (!pipe.path.empty() || pipe.ends)) {
        ends_[pipe.to].push_back(i);
      }
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      add_place(i);
    }
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      add_pipe(i);
    }
    if (has_summits) {
      add(InputKind::AirPressure, 0);
    }
    return std::move(inputs_);
  }

 private:
  void add(InputKind kind, std::size_t index, std::size_t point = 0) {
    FarmInput input;
    input.kind = kind;
    input.index = index;
    input.point = point;
    inputs_.push_back(std::move(input));
  }

  void add_place(std::size_t index) {
    add(InputKind::PlaceLevel, index);
    inputs_.back().starts = starts_[index];
    inputs_.back().ends = ends_[index];
    const model::PlaceData& data = farm_.places[index].data;
    if (model::is_spring(farm_.places[index])) {
      add(InputKind::Yield, index);
    }
    if (const auto* trough = std::get_if<model::Trough>(&data)) {
      if (trough->seat || trough->passes) {
        add(InputKind::Seat, index);
      }
      if (need_of(farm_, farm_.places[index], month_)) {
        add(InputKind::Need, index);
      }
    }
  }

  void add_pipe(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    for (std::size_t point = 1; point + 1 < pipe.path.size(); ++point) {
      add(InputKind::PathLevel, index, point);
    }
    if (ends_free(farm_, pipe, month_)) {
      add(InputKind::EndLevel, index);
    }
    add(InputKind::Length, index);
    add(InputKind::Bore, index);
    if (pipe.size.friction_factor || pipe.size.hazen_williams_c ||
        in_metres(pipe.size.roughness) > 0.0) {
      add(InputKind::Roughness, index);
    }
    if (summed_fitting_k(pipe) > 0.0) {
      add(InputKind::Fittings, index);
    }
    if (pipe.valve && !pipe.valve->shut) {
      add(InputKind::ValveOpening, index);
    }
  }

  const model::Farm& farm_;
  std::optional<model::Month> month_;
  std::vector<std::vector<std::size_t>> starts_;  // by place: pipes with a path that leave it
  std::vector<std::vector<std::size_t>> ends_;
  std::vector<FarmInput> inputs_;
};

}  // namespace

bool is_level(InputKind kind) {
  return kind == InputKind::PlaceLevel || kind == InputKind::EndLevel ||
         kind == InputKind::PathLevel;
}

std::vector<FarmInput> inputs_of(const model::Farm& farm, std::optional<model::Month> month) {
  return InputList(farm, month).list();
}

std::string name_of(const model::Farm& farm, const FarmInput& input) {
  const auto of_place = [&](const char* what) {
    return fmt::format("{} {}", what, farm.places[input.index].name);
  };
  const auto of_pipe = [&](const char* what) {
    return fmt::format("{} {}", what, farm.pipes[input.index].name);
  };
  switch (input.kind) {
    case InputKind::PlaceLevel:
      return of_place("level of");
    case InputKind::EndLevel:
      return of_pipe("end of");
    case InputKind::PathLevel:
      return of_pipe("levels along");
    case InputKind::Length:
      return of_pipe("length of");
    case InputKind::Bore:
      return of_pipe("bore of");
    case InputKind::Roughness:
      return of_pipe("roughness of");
    case InputKind::Fittings:
      return of_pipe("fittings of");
    case InputKind::ValveOpening:
      return of_pipe("valve of");
    case InputKind::Seat:
      return of_place("seat of");
    case InputKind::Yield:
      return of_place("yield of");
    case InputKind::Need:
      return of_place("need of");
    case InputKind::AirPressure:
      return "air pressure";
  }
  return "";
}

double value_of(const model::Farm& farm,
                const FarmInput& input,
                std::optional<model::Month> month) {
  switch (input.kind) {
    case InputKind::PlaceLevel:
      return elevation_of(farm.places[input.index], month);
    case InputKind::EndLevel:
      return in_metres(*farm.pipes[input.index].ends);
    case InputKind::PathLevel:
      return in_metres(farm.pipes[input.index].path[input.point].elevation);
    case InputKind::Length:
      return in_metres(farm.pipes[input.index].length);
    case InputKind::Bore:
      return in_metres(farm.pipes[input.index].size.bore);
    case InputKind::Roughness: {
      const model::PipeSize& size = farm.pipes[input.index].size;
      return size.friction_factor.value_or(
          size.hazen_williams_c.value_or(in_metres(size.roughness)));
    }
    case InputKind::Fittings:
      return summed_fitting_k(farm.pipes[input.index]);
    case InputKind::ValveOpening:
      return farm.pipes[input.index].valve->open;
    case InputKind::Seat:
      return 1.0;
    case InputKind::Yield:
      return in_cubic_metres_per_second(model::yield_of(farm.places[input.index])->at(month));
    case InputKind::Need:
      return need_of(farm, farm.places[input.index], month).value_or(0.0);
    case InputKind::AirPressure:
      return in_pascals(air_pressure_of(farm));
  }
  return 0.0;
}

void set_input(model::Farm& farm, const model::Farm& base, const FarmInput& input, double amount) {
  if (is_level(input.kind)) {
    set_level(farm, base, input, metres(amount));
    return;
  }
  const double factor = std::exp(amount);
  const std::size_t i = input.index;
  switch (input.kind) {
    case InputKind::Length:
      farm.pipes[i].length = base.pipes[i].length * factor;
      return;
    case InputKind::Bore:
      farm.pipes[i].size.bore = base.pipes[i].size.bore * factor;
      return;
    case InputKind::Roughness:
      scale_roughness(farm.pipes[i].size, base.pipes[i].size, factor);
      return;
    case InputKind::Fittings:
      scale_fittings(farm.pipes[i], base.pipes[i], factor);
      return;
    case InputKind::ValveOpening:
      farm.pipes[i].valve->open = std::min(1.0, base.pipes[i].valve->open * factor);
      return;
    case InputKind::Seat:
      scale_seat(std::get<model::Trough>(farm.places[i].data),
                 std::get<model::Trough>(base.places[i].data),
                 factor);
      return;
    case InputKind::Yield: {
      auto& spring = std::get<model::Spring>(farm.places[i].data);
      const auto& from = std::get<model::Spring>(base.places[i].data);
      scale(spring.yield, from.yield, factor);
      for (std::size_t k = 0; k < spring.yield_record.size(); ++k) {
        spring.yield_record[k].value = from.yield_record[k].value * factor;
      }
      return;
    }
    case InputKind::Need:
      if (auto* pond = std::get_if<model::Pond>(&farm.places[i].data)) {
        scale_heads(pond->stock, std::get<model::Pond>(base.places[i].data).stock, factor);
        return;
      }
      scale_need(std::get<model::Trough>(farm.places[i].data),
                 std::get<model::Trough>(base.places[i].data),
                 factor);
      return;
    case InputKind::AirPressure:
      farm.site.air_pressure = air_pressure_of(base) * factor;
      return;
    case InputKind::PlaceLevel:
    case InputKind::EndLevel:
    case InputKind::PathLevel:
      return;
  }
}

}  // namespace leat::solver
