#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/findings/judging.h"
#include "solver/findings/starved_reason.h"
#include "solver/findings/states.h"

namespace leat::solver {

namespace {

/// A note or caution of the case asked for.
void raise(const Judging& on,
           const char* code,
           FlagSeverity severity,
           const std::string& where,
           std::string text,
           const Measured& measured = {}) {
  on.flags.raise(
      made_flag(code, severity, where, std::move(text), on.chosen().load_case, measured));
}

/// "north trough"; "lower trough" stays what it is.
std::string name_with_kind(const model::Place& place) {
  const std::string kind = model::kind_word(place);
  const std::string& name = place.name;
  const bool says_so =
      name.size() >= kind.size() && name.compare(name.size() - kind.size(), kind.size(), kind) == 0;
  return says_so ? name : name + " " + kind;
}

void flag_short(const Judging& on, const char* code, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = on.chosen().places[index];
  const bool is_trough = std::holds_alternative<model::Trough>(place.data);
  const std::string got =
      *water.met < dry_limit ? "nothing" : spoken_flow_figure(water.delivered_m3_s, on.units);
  raise(on,
        code,
        FlagSeverity::Caution,
        place.name,
        fmt::format("{} gets {} of the {} {}: {}",
                    name_with_kind(place),
                    got,
                    on.flow(*water.need_m3_s),
                    is_trough ? "it needs" : "wished for",
                    starved_reason(
                        on.chosen().state, index, on.chosen().happenings.broken_lines, on.units)),
        {*water.met, 1.0, ""});
}

void flag_drawn_down(const Judging& on, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = on.chosen().places[index];
  const auto& spring = std::get<model::Spring>(place.data);
  const double taken = -water.delivered_m3_s;
  const bool at_intake = *water.level_m <= in_metres(spring.intake) + 1e-6;
  raise(on,
        "drawn-down",
        FlagSeverity::Note,
        place.name,
        taken > 0.0 ? fmt::format("the line takes all that {} yields ({}); its box stands at {}{}",
                                  place.name,
                                  on.flow(taken),
                                  on.level(*water.level_m),
                                  at_intake ? ", down at the intake, and the line draws air" : "")
                    : fmt::format("{} yields nothing and its box has drained to {}",
                                  place.name,
                                  on.level(*water.level_m)),
        {*water.level_m, in_metres(spring.overflow), "m"});
}

void flag_spill(const Judging& on, const std::string& where, std::string text, double spilled) {
  raise(on,
        "spills",
        FlagSeverity::Note,
        where,
        std::move(text),
        {1000.0 * spilled, std::nullopt, "L/s"});
}

void flag_creek(const Judging& on, const model::Creek& creek, std::size_t index) {
  const std::string& name = on.farm.places[index].name;
  const double taken = -on.chosen().places[index].delivered_m3_s;
  const auto check = [&](const std::optional<model::MonthSeries<Flow>>& allowed, const char* what) {
    if (!allowed) {
      return;
    }
    const double limit = in_cubic_metres_per_second(allowed->at(on.month()));
    if (taken > limit * (1.0 + 1e-9)) {
      raise(on,
            "spare-exceeded",
            FlagSeverity::Caution,
            name,
            fmt::format("{} is taken from {}, more than the {} {}",
                        on.flow(taken),
                        name,
                        on.flow(limit),
                        what),
            {1000.0 * taken, 1000.0 * limit, "L/s"});
    }
  };
  check(creek.spare, "that may be taken");
  check(creek.flow, "it carries");
}

bool month_assumed(const model::Place& place, const std::optional<model::Month>& month) {
  if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
    return spring->yield.assumed_at(month);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return creek->surface.assumed_at(month) || (creek->flow && creek->flow->assumed_at(month)) ||
           (creek->spare && creek->spare->assumed_at(month));
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return pond->surface.assumed_at(month);
  }
  if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
    const auto* rate = std::get_if<model::RateNeed>(&trough->need);
    const auto* daily = std::get_if<model::DailyNeed>(&trough->need);
    const auto* herd = std::get_if<model::HerdNeed>(&trough->need);
    if (herd != nullptr) {
      return std::any_of(herd->herd.begin(), herd->herd.end(), [&](const auto& entry) {
        return entry.heads.assumed_at(month);
      });
    }
    return (rate != nullptr && rate->rate.assumed_at(month)) ||
           (daily != nullptr && daily->per_day.assumed_at(month));
  }
  const auto* outlet = std::get_if<model::Outlet>(&place.data);
  return outlet != nullptr && outlet->wished && outlet->wished->assumed_at(month);
}

void flag_assumptions(const Judging& on, const model::Place& place) {
  const auto* trough = std::get_if<model::Trough>(&place.data);
  if (trough != nullptr && std::holds_alternative<model::NoNeed>(trough->need)) {
    raise(on,
          "no-need",
          FlagSeverity::Note,
          place.name,
          fmt::format("no need given for {}: its float is taken as never satisfied", place.name));
  }
  if (month_assumed(place, on.month())) {
    raise(on,
          "month-assumed",
          FlagSeverity::Note,
          place.name,
          fmt::format("{} was not measured in {}: a neighbouring month's figure is taken",
                      place.name,
                      model::name_of(*on.month())));
  }
}

void judge_share(const Judging& on, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = on.chosen().places[index];
  const bool cut_off = !model::is_open_water(place) && !water.head_m;
  if (cut_off) {
    raise(on,
          "cut-off",
          FlagSeverity::Note,
          place.name,
          fmt::format("{} is cut off: no open way joins it to water", place.name));
  }
  if (water.met && (cut_off || *water.met < dry_limit)) {
    flag_short(on, "dry", index);
  } else if (water.met && *water.met < met_limit) {
    flag_short(on, "starved", index);
  }
  if (is_drawn_down(on, on.chosen(), index)) {
    flag_drawn_down(on, index);
  }
  if (water.spill_m3_s && *water.spill_m3_s > still_flow_m3_s) {
    flag_spill(on,
               place.name,
               fmt::format("{} spills {}", place.name, on.flow(*water.spill_m3_s)),
               *water.spill_m3_s);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    flag_creek(on, *creek, index);
  }
  flag_assumptions(on, place);
}

/// What stands above the water where a pipe runs part full: air, or where the water has parted
/// nothing but its own vapour.
const char* above_the_water(const Judging& on, std::size_t index) {
  bool has_air = false;
  bool has_vapour = false;
  for (const PipePoint& point : water_along(on.chosen().state, index).points) {
    const bool is_vapour = point.pressure_Pa < -suction_limit_Pa;
    has_air = has_air || (point.part_full && !is_vapour);
    has_vapour = has_vapour || (point.part_full && is_vapour);
  }
  if (!has_vapour) {
    return "with air above the water";
  }
  return has_air ? "with air above the water in one reach, its own vapour in another"
                 : "with its own vapour above the water";
}

void judge_pipe(const Judging& on, std::size_t index) {
  const std::string& name = on.farm.pipes[index].name;
  const double part_full_m = on.chosen().pipes[index].part_full_m;
  if (part_full_m > 0.0) {
    raise(on,
          "part-full",
          FlagSeverity::Note,
          name,
          fmt::format("{} runs part full over {}, {}",
                      name,
                      on.length(part_full_m),
                      above_the_water(on, index)),
          {part_full_m, 0.0, "m"});
  }
  double spilled = 0.0;
  for (const std::size_t edge : on.chosen().state.network->pipes[index].vent_spill) {
    spilled += edge == no_index ? 0.0 : on.chosen().state.flow_m3_s(edge);
  }
  if (spilled > still_flow_m3_s) {
    flag_spill(on,
               name,
               fmt::format("{} spills {} over the top of its vent", name, on.flow(spilled)),
               spilled);
  }
}

}  // namespace

void judge_shares(const Judging& on) {
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    judge_pipe(on, i);
  }
  for (std::size_t i = 0; i < on.farm.places.size(); ++i) {
    judge_share(on, i);
  }
}

}  // namespace leat::solver
